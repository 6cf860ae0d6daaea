using System.Collections.Frozen;
using System.Collections.Immutable;
using WireUp.Layouts;
using WireUp.Rails;

namespace WireUp.Planning.Districts;

/// <summary>
/// A part of the track that is not cut inside: a length of section between gaps, a moving bridge, a stop, or the ends of a piece of
/// trackwork that one supply feeds: all of a turnout, each track of an insulated crossing.
/// </summary>
/// <param name="Index">Its number in the map.</param>
/// <param name="Piece">The piece.</param>
/// <param name="FromMetres">Of a section: where it begins, from end a; else 0.</param>
/// <param name="ToMetres">Of a section: where it ends; else the length of a way through the piece.</param>
/// <param name="Ends">The ends of the piece that lie on it.</param>
/// <param name="IsPlain">Whether it is a length of section, or a bridge that is fed by itself.</param>
internal sealed record TrackSpot(
    int Index, PieceId Piece, double FromMetres, double ToMetres, ImmutableArray<TrackEnd> Ends, bool IsPlain)
{
    public double LengthMetres => ToMetres - FromMetres;

    /// <summary>Whether it is a moving bridge that is fed by itself.</summary>
    public bool IsBridge { get; init; }

    /// <summary>Whether more than two ends come together here.</summary>
    public bool IsJunction => Ends.Length > 2;

    /// <summary>The end where its own distances begin, or null at a cut.</summary>
    public TrackEnd? Back { get; init; } = !IsPlain && Ends.Length > 0 ? Ends[0] : null;

    /// <summary>The end where they stop, or null at a cut or end of track.</summary>
    public TrackEnd? Front { get; init; } = !IsPlain && Ends.Length > 1 ? Ends[1] : null;
}

/// <summary>Two spots that meet in a joint which does not part them.</summary>
internal readonly record struct SpotLink(int From, TrackEnd FromEnd, int To, TrackEnd ToEnd);

/// <summary>
/// The track as territory: spots, how they hang together, and the zones they form. Two zones meet only in cuts that part them:
/// gaps in both rails, or in the centre conductor of three-rail track. A zone can be fed by one supply only.
/// </summary>
internal sealed class TrackMap
{
    private readonly FrozenDictionary<TrackEnd, int> _byEnd;
    private readonly FrozenDictionary<PieceId, ImmutableArray<TrackSpot>> _byPiece;
    private readonly int[] _zones;

    private TrackMap(LayoutIndex index, ImmutableArray<TrackSpot> spots)
    {
        (Index, Spots) = (index, spots);
        _byEnd = spots.SelectMany(spot => spot.Ends.Select(end => (end, spot.Index))).ToFrozenDictionary(pair => pair.end, pair => pair.Index);
        _byPiece = spots.GroupBy(spot => spot.Piece).ToFrozenDictionary(group => group.Key, group => group.ToImmutableArray());
        Links = [.. index.Layout.Joints
            .Where(joint => !Parts(index.Layout.Control, index.AlwaysOpenRails(joint.First)))
            .Select(joint => new SpotLink(_byEnd[joint.First], joint.First, _byEnd[joint.Second], joint.Second))];
        Bridges =
        [
            .. spots.Where(spot => spot.IsBridge)
                .Where(spot => !MovingBridges.Reverses(index.Piece(spot.Piece), index.Layout.Control))
                .Select(bridge => (bridge.Index, spots.First(spot => spot.Piece == bridge.Piece && spot.Ends.Length > 0).Index)),
        ];
        DisjointSetsWorkspace zones = new(spots.Length);
        foreach ((int bridge, int roads) in Bridges)
        {
            zones.Join(bridge, roads);
        }

        foreach (SpotLink link in Links)
        {
            zones.Join(link.From, link.To);
        }

        _zones = zones.Numbers();
        ZoneCount = _zones.Length == 0 ? 0 : _zones.Max() + 1;
    }

    public LayoutIndex Index { get; }

    public ImmutableArray<TrackSpot> Spots { get; }

    public ImmutableArray<SpotLink> Links { get; }

    /// <summary>Moving bridges that go with their roads, each with the spot of the roads.</summary>
    public ImmutableArray<(int Bridge, int Roads)> Bridges { get; }

    /// <summary>Zones are numbered from 0 in the order of the track.</summary>
    public int ZoneCount { get; }

    public int ZoneOf(int spot) => _zones[spot];

    public int SpotOf(TrackEnd end) => _byEnd[end];

    /// <summary>The spots of a piece, in order from end a.</summary>
    public ImmutableArray<TrackSpot> SpotsOf(PieceId piece) => _byPiece[piece];

    /// <summary>The spot at a place; at a cut, the one towards end a.</summary>
    public TrackSpot SpotAt(TrackPlace place) => _byPiece[place.Section].First(spot => place.MetresFromA <= spot.ToMetres + 1e-6);

    public IEnumerable<TrackSpot> SpotsIn(int zone) => Spots.Where(spot => _zones[spot.Index] == zone);

    public static TrackMap Of(Layout layout)
    {
        LayoutIndex index = new(layout);
        ILookup<PieceId, double> cuts = Cuts(layout);
        List<TrackSpot> spots = [];
        foreach (Piece piece in layout.Track)
        {
            spots.AddRange(piece is Piece.Section section
                ? Lengths(section, cuts[piece.Id], spots.Count)
                : Trackwork(piece, layout.Control, spots.Count));
        }

        return new(index, [.. spots]);
    }

    private static bool Parts(ControlSystem control, RailSet open) =>
        control == ControlSystem.ThreeRail ? open.Holds(RailSide.Centre) : open == RailSet.Both;

    private static ILookup<PieceId, double> Cuts(Layout layout) =>
        (from gap in layout.Wiring.Gaps
         where gap is { At: GapPlace.InSection, BridgedWhen: null }
         let place = ((GapPlace.InSection)gap.At).Place
         group gap.Rails by (place.Section, Metres: Math.Round(place.MetresFromA, 6)) into rails
         where Parts(layout.Control, rails.Aggregate(RailSet.None, (all, one) => all | one))
         select rails.Key).ToLookup(key => key.Section, key => key.Metres);

    private static IEnumerable<TrackSpot> Lengths(Piece.Section section, IEnumerable<double> cuts, int first)
    {
        double length = section.Length.Meters;
        double[] marks = [0, .. cuts.Where(metres => metres > 1e-6 && metres < length - 1e-6).Order(), length];
        for (int i = 1; i < marks.Length; i++)
        {
            TrackEnd? back = i == 1 ? section.End("a") : null, front = i == marks.Length - 1 ? section.End("b") : null;
            yield return new(first + i - 1, section.Id, marks[i - 1], marks[i], [.. new[] { back, front }.OfType<TrackEnd>()], true) { Back = back, Front = front };
        }
    }

    /// <summary>
    /// A bridge that is fed by itself comes first, so that places on it are found on it; then the ends of the piece in groups.
    /// </summary>
    private static IEnumerable<TrackSpot> Trackwork(Piece piece, ControlSystem control, int first)
    {
        if (MovingBridges.IsFedByItself(piece, control))
        {
            yield return new(first++, piece.Id, 0, piece.PlacesMetres!.Value, [], true) { IsBridge = true };
        }

        foreach (ImmutableArray<TrackEnd> ends in Groups(piece, control))
        {
            yield return new(first++, piece.Id, 0, ends.Length > 1 ? piece.WayMetres : 0, ends, false);
        }
    }

    /// <summary>
    /// The ends of a piece that one supply must feed: those that trains drive between (over the gap of a pit only where the bridge has
    /// one supply with its roads), and on two-rail track those that metal joins whatever the position, as live frogs do.
    /// </summary>
    private static IEnumerable<ImmutableArray<TrackEnd>> Groups(Piece piece, ControlSystem control)
    {
        DisjointSetsWorkspace groups = new(piece.EndNames.Length);
        void Join(string one, string other) => groups.Join(piece.EndNames.IndexOf(one), piece.EndNames.IndexOf(other));
        Trackwork row = TrackworkTable.Of(piece, control);
        if (MovingBridges.IsFedByItself(piece, control) && !MovingBridges.Reverses(piece, control))
        {
            foreach (string end in piece.EndNames)
            {
                Join(piece.EndNames[0], end);
            }
        }
        else if (!MovingBridges.Reverses(piece, control))
        {
            foreach (DrivableWay way in row.Ways)
            {
                Join(way.From, way.To);
            }
        }

        if (control != ControlSystem.ThreeRail)
        {
            foreach ((string one, string other) in JoinedByMetal(row))
            {
                Join(one, other);
            }
        }

        int[] numbers = groups.Numbers();
        return piece.EndNames.Select((name, i) => (End: piece.End(name), Group: numbers[i]))
            .GroupBy(pair => pair.Group, pair => pair.End)
            .Select(group => group.ToImmutableArray());
    }

    private static IEnumerable<(string One, string Other)> JoinedByMetal(Trackwork row)
    {
        PieceNode[] nodes = [.. row.Fixed.SelectMany(bond => new[] { bond.From, bond.To }).Distinct()];
        DisjointSetsWorkspace metal = new(nodes.Length);
        foreach (FixedBond bond in row.Fixed)
        {
            metal.Join(Array.IndexOf(nodes, bond.From), Array.IndexOf(nodes, bond.To));
        }

        return nodes.Where(node => node.Side is not null)
            .GroupBy(node => metal.Find(Array.IndexOf(nodes, node)), node => node.Name)
            .SelectMany(group => group.Skip(1).Select(name => (group.First(), name)));
    }
}
