using WireUp.Layouts;

namespace WireUp.Rails.Tests.Properties;

/// <summary>
/// The same question answered with paint: every rail is a point, turnouts are set, paint spreads along what touches. Shares nothing
/// with the engine but the layout; the rails of a turnout are taken from the frame of somebody who stands at its points.
/// </summary>
internal sealed class PaintOracle(Layout layout)
{
    private readonly LayoutIndex _index = new(layout);

    public IEnumerable<Piece.Turnout> Turnouts => layout.Track.OfType<Piece.Turnout>();

    /// <summary>Every way the turnouts can stand.</summary>
    public IEnumerable<Dictionary<PieceId, string>> AllPositions()
    {
        List<Piece.Turnout> turnouts = [.. Turnouts];
        return Enumerable.Range(0, 1 << turnouts.Count).Select(bits => turnouts
            .Select((turnout, i) => (turnout, Leg: (bits >> i & 1) == 0 ? turnout.LeftLeg : turnout.RightLeg))
            .ToDictionary(pair => pair.turnout.Id, pair => pair.Leg));
    }

    /// <summary>Whether some wire A touches some wire B.</summary>
    public bool Shorts(IReadOnlyDictionary<PieceId, string> positions)
    {
        ILookup<string, string> touching = Touching(positions);
        return layout.Wiring.Feeders.Any(from =>
        {
            HashSet<string> painted = Paint(Wire(from.Name, 'A'), touching);
            return layout.Wiring.Feeders.Any(to => painted.Contains(Wire(to.Name, 'B')));
        });
    }

    /// <summary>Whether paint spreads from one rail to another; rails are named <c>T1.points/left</c>, wires <c>f1/A</c>.</summary>
    public bool Touch(string from, string to, IReadOnlyDictionary<PieceId, string> positions) =>
        Paint(Point(from), Touching(positions)).Contains(Point(to));

    /// <summary>The rails, at the middle of each section, that paint from no wire reaches in any position.</summary>
    public IEnumerable<string> Dry()
    {
        HashSet<string> wet = [];
        foreach (Dictionary<PieceId, string> positions in AllPositions())
        {
            ILookup<string, string> touching = Touching(positions);
            wet.UnionWith(layout.Wiring.Feeders.SelectMany(feeder =>
                Paint(Wire(feeder.Name, 'A'), touching).Concat(Paint(Wire(feeder.Name, 'B'), touching))));
        }

        return layout.Track.OfType<Piece.Section>()
            .SelectMany(section => new[] { $"{section.Id}|L", $"{section.Id}|R" })
            .Where(rail => !wet.Contains(rail));
    }

    private string Point(string name) => name.StartsWith('f') ? Wire(name.Split('/')[0], name[^1]) : name;

    private string Wire(string feeder, char leg)
    {
        Feeder wire = layout.Wiring.Feeders.First(each => each.Name == feeder);
        return $"{wire.At.Section}|{((leg == 'A') != wire.Swap ? "L" : "R")}";
    }

    private static HashSet<string> Paint(string start, ILookup<string, string> touching)
    {
        HashSet<string> painted = [start];
        Queue<string> wet = new(painted);
        while (wet.TryDequeue(out string? rail))
        {
            foreach (string next in touching[rail].Where(painted.Add))
            {
                wet.Enqueue(next);
            }
        }

        return painted;
    }

    private ILookup<string, string> Touching(IReadOnlyDictionary<PieceId, string> positions) => layout.Track
        .SelectMany(piece => piece switch
        {
            Piece.Section section => Section(section),
            Piece.Turnout turnout => Turnout(turnout, positions.GetValueOrDefault(turnout.Id)),
            _ => [],
        })
        .Concat(layout.Joints.SelectMany(Joint))
        .SelectMany(pair => new[] { pair, (From: pair.To, To: pair.From) })
        .ToLookup(pair => pair.From, pair => pair.To);

    /// <summary>Feeders sit in the middle, a gap lies between end a and the middle. The left rail seen from a is on the right looking out of a.</summary>
    private IEnumerable<(string From, string To)> Section(Piece.Section section)
    {
        RailSet gap = layout.Wiring.Gaps
            .Where(each => each.At is GapPlace.InSection within && within.Place.Section == section.Id)
            .Aggregate(RailSet.None, (set, each) => set | each.Rails);
        string id = section.Id.Name;
        yield return ($"{id}|L", $"{id}.b/left");
        yield return ($"{id}|R", $"{id}.b/right");
        if (!gap.HasFlag(RailSet.Left)) yield return ($"{id}.a/right", $"{id}|L");
        if (!gap.HasFlag(RailSet.Right)) yield return ($"{id}.a/left", $"{id}|R");
    }

    private static IEnumerable<(string From, string To)> Turnout(Piece.Turnout turnout, string? set)
    {
        string t = turnout.Id.Name, p = $"{t}.{turnout.LeftLeg}", q = $"{t}.{turnout.RightLeg}";
        (string leftStock, string rightStock, string frog) = ($"{t}.points/right", $"{t}.points/left", $"{t}/frog");
        yield return (leftStock, $"{p}/left");
        yield return (rightStock, $"{q}/right");
        bool live = turnout.Frog == FrogKind.Live;
        yield return ($"{p}/right", live ? frog : rightStock);
        yield return ($"{q}/left", live ? frog : leftStock);
        bool follows = live || turnout is { Frog: FrogKind.Isolated, Feed: FrogFeed.Contact };
        if (follows && set == turnout.LeftLeg) yield return (frog, rightStock);
        if (follows && set == turnout.RightLeg) yield return (frog, leftStock);
    }

    private IEnumerable<(string From, string To)> Joint(Joint joint)
    {
        RailSet open = _index.OpenRails(joint.First);
        if (!open.HasFlag(RailSet.Left)) yield return ($"{joint.First}/left", $"{joint.Second}/right");
        if (!open.HasFlag(RailSet.Right)) yield return ($"{joint.First}/right", $"{joint.Second}/left");
    }
}
