using System.Collections.Immutable;
using WireUp.Layouts;
using WireUp.Planning.Reversing;
using WireUp.Rails;

namespace WireUp.Planning.Districts;

/// <summary>Track between possible boundaries: it goes to one district as a whole.</summary>
/// <param name="Index">Its number.</param>
/// <param name="Zone">Its zone.</param>
/// <param name="Pieces">The pieces that lie in it, whole or in part.</param>
/// <param name="Stretches">Its lengths of section.</param>
/// <param name="End">An end of a piece in it; where it has no section, the way to find it.</param>
internal sealed record TrackCell(
    int Index, int Zone, ImmutableArray<PieceId> Pieces, ImmutableArray<TrackStretch> Stretches, TrackEnd End)
{
    /// <summary>Its length of plain track; turnouts do not count, as they do not for the design load.</summary>
    public double LengthMetres { get; } = Stretches.Sum(stretch => stretch.ToMetres - stretch.FromMetres);

    /// <summary>Whether a place lies in it.</summary>
    public bool Holds(TrackPlace place) => Stretches.Any(stretch => stretch.Contains(place));

    /// <summary>Where to look what became of it once gaps are cut.</summary>
    public IEnumerable<TrackLandmark> Landmarks => Stretches.IsEmpty
        ? [new(End, null)]
        : Stretches.Where(stretch => stretch.ToMetres > stretch.FromMetres)
            .Select(stretch => new TrackLandmark(null, new(stretch.Section, (stretch.FromMetres + stretch.ToMetres) / 2)));
}

/// <summary>A place by which track is found again once gaps are cut.</summary>
/// <param name="End">An end inside it, or null.</param>
/// <param name="Place">A place inside it, or null.</param>
internal readonly record struct TrackLandmark(TrackEnd? End, TrackPlace? Place)
{
    public int SpotIn(TrackMap map) => Place is { } place ? map.SpotAt(place).Index : map.SpotOf(End!.Value);
}

/// <summary>Two cells that a boundary could part.</summary>
internal sealed record CellEdge(int From, int To, Boundary Boundary);

/// <summary>The track as cells and the boundaries between them: the graph that is divided into districts.</summary>
internal sealed record CellGraph(ImmutableArray<TrackCell> Cells, ImmutableArray<CellEdge> Edges)
{
    /// <summary>Cuts every run at its boundaries and draws together what no boundary parts.</summary>
    /// <param name="map">The territory.</param>
    /// <param name="boundaries">For a run the boundaries to consider, in order along it.</param>
    public static CellGraph Of(TrackMap map, Func<TrackRun, ImmutableArray<Boundary>> boundaries)
    {
        List<Lump> lumps = [.. map.Spots
            .Where(spot => spot.IsJunction)
            .Select(spot => new Lump(spot, [(spot.Index, spot.Piece)], []))];
        Dictionary<int, int> turnouts = lumps.Select((lump, i) => (lump.Spot.Index, i)).ToDictionary(pair => pair.Index, pair => pair.i);
        List<(int From, int To)> joined = [];
        List<(int From, int To, Boundary Boundary)> edges = [];
        foreach (TrackRun run in TrackRuns.Of(map))
        {
            ImmutableArray<Boundary> cuts = boundaries(run);
            int first = lumps.Count;
            lumps.AddRange(Split(run, cuts));
            int last = lumps.Count - 1;
            edges.AddRange(cuts.Select((cut, i) => (first + i, i + 1 == cuts.Length && run.IsRing ? first : first + i + 1, cut)));
            Join(run.FromTurnout, first <= last ? first : null, run.ToTurnout);
            Join(run.ToTurnout, first <= last ? last : null, null);
        }

        foreach ((int bridge, int roads) in map.Bridges)
        {
            joined.AddRange(lumps.Select((lump, i) => (lump, i))
                .Where(pair => pair.lump.Pieces.Any(piece => piece.Spot == bridge))
                .Select(pair => (pair.i, lumps.FindIndex(lump => lump.Pieces.Any(piece => piece.Spot == roads)))));
        }

        return Contract(map, lumps, joined, edges);

        void Join(int? turnout, int? lump, int? otherTurnout)
        {
            int? other = lump ?? (otherTurnout is { } spot ? turnouts[spot] : null);
            if (turnout is { } at && other is { } to)
            {
                joined.Add((turnouts[at], to));
            }
        }
    }

    /// <summary>The cells of a kind, numbered anew, and the edges between them.</summary>
    public CellGraph Only(Func<TrackCell, bool> kind)
    {
        ImmutableArray<TrackCell> kept = [.. Cells.Where(kind)];
        Dictionary<int, int> numbers = kept.Select((cell, i) => (cell.Index, i)).ToDictionary(pair => pair.Index, pair => pair.i);
        return new(
            [.. kept.Select((cell, i) => cell with { Index = i })],
            [.. Edges.Where(edge => numbers.ContainsKey(edge.From) && numbers.ContainsKey(edge.To))
                .Select(edge => edge with { From = numbers[edge.From], To = numbers[edge.To] })]);
    }

    /// <summary>
    /// Draws together what nobody would part: cells of one name that touch, with what hangs on them; rings of cells (passing loops, run-rounds) and
    /// dead ends shorter than a limit, unless a cell of them has a name. To part a ring takes two boundaries at least, where the
    /// single track beside it takes one.
    /// </summary>
    /// <param name="limitMetres">Longest ring or dead end that is drawn together.</param>
    /// <param name="hangerMetres">Longest track that goes with the one name it hangs on.</param>
    /// <param name="nameOf">The name of the district that a cell must go to, or null.</param>
    public CellGraph Simplified(double limitMetres, double hangerMetres, Func<TrackCell, string?> nameOf)
    {
        Dictionary<int, string> hangers = Hangers(hangerMetres, nameOf);
        CellGraph map = DrawnTogether(edge => NameAt(edge.From) is { } name && name == NameAt(edge.To));
        DisjointSetsWorkspace rings = new(map.Cells.Length);
        bool[] bridge = Bridges.Of(map.Cells.Length, [.. map.Edges.Select(edge => (edge.From, edge.To))]);
        foreach (CellEdge edge in map.Edges.Where((_, i) => !bridge[i]))
        {
            rings.Join(edge.From, edge.To);
        }

        HashSet<int> small = [.. map.Cells.GroupBy(cell => rings.Find(cell.Index))
            .Where(ring => ring.Sum(cell => cell.LengthMetres) < limitMetres && ring.All(cell => nameOf(cell) is null))
            .Select(ring => ring.Key)];
        map = map.DrawnTogether(edge => rings.Find(edge.From) == rings.Find(edge.To) && small.Contains(rings.Find(edge.From)));
        for (int cells = int.MaxValue; map.Cells.Length < cells;)
        {
            cells = map.Cells.Length;
            map = map.WithoutDeadEnds(limitMetres / 2, nameOf);
        }

        return map;

        string? NameAt(int cell) => nameOf(Cells[cell]) ?? hangers.GetValueOrDefault(cell);
    }

    /// <summary>Draws each dead end shorter than a limit together with the cell it hangs on.</summary>
    private CellGraph WithoutDeadEnds(double limitMetres, Func<TrackCell, string?> nameOf)
    {
        int[] degree = new int[Cells.Length];
        foreach (CellEdge edge in Edges)
        {
            degree[edge.From]++;
            degree[edge.To]++;
        }

        return DrawnTogether(edge => IsDeadEnd(edge.From) || IsDeadEnd(edge.To));

        bool IsDeadEnd(int cell) => degree[cell] == 1 && Cells[cell].LengthMetres < limitMetres && nameOf(Cells[cell]) is null;
    }

    /// <summary>Cells without a name that hang, together, on cells of one name only and are short: they go with that name.</summary>
    private Dictionary<int, string> Hangers(double limitMetres, Func<TrackCell, string?> nameOf)
    {
        string?[] names = [.. Cells.Select(nameOf)];
        DisjointSetsWorkspace unnamed = new(Cells.Length);
        foreach (CellEdge edge in Edges.Where(edge => names[edge.From] is null && names[edge.To] is null))
        {
            unnamed.Join(edge.From, edge.To);
        }

        ILookup<int, string> touched = Edges
            .SelectMany(edge => new[] { (edge.From, edge.To), (From: edge.To, To: edge.From) })
            .Where(pair => names[pair.From] is null && names[pair.To] is not null)
            .ToLookup(pair => unnamed.Find(pair.From), pair => names[pair.To]!);
        return Cells.Where(cell => names[cell.Index] is null)
            .GroupBy(cell => unnamed.Find(cell.Index))
            .Where(group => touched[group.Key].Distinct().Count() == 1 && group.Sum(cell => cell.LengthMetres) < limitMetres)
            .SelectMany(group => group.Select(cell => (cell.Index, Name: touched[group.Key].First())))
            .ToDictionary(pair => pair.Index, pair => pair.Name);
    }

    /// <summary>The same map with the two cells of some edges made one.</summary>
    internal CellGraph DrawnTogether(Func<CellEdge, bool> together)
    {
        DisjointSetsWorkspace groups = new(Cells.Length);
        foreach (CellEdge edge in Edges.Where(together))
        {
            groups.Join(edge.From, edge.To);
        }

        int[] numbers = groups.Numbers();
        return new(
            [.. Cells.GroupBy(cell => numbers[cell.Index]).OrderBy(group => group.Key).Select(group => new TrackCell(
                group.Key,
                group.First().Zone,
                [.. group.SelectMany(cell => cell.Pieces).Distinct()],
                [.. group.SelectMany(cell => cell.Stretches)],
                group.First().End))],
            [.. Edges.Select(edge => edge with { From = numbers[edge.From], To = numbers[edge.To] }).Where(edge => edge.From != edge.To)]);
    }

    /// <summary>The lengths of a run between its cuts. On a ring the length after the last cut belongs to that before the first.</summary>
    private static IEnumerable<Lump> Split(TrackRun run, ImmutableArray<Boundary> cuts)
    {
        if (run.Parts.IsEmpty)
        {
            yield break;
        }

        double[] marks = [0, .. cuts.Select(cut => cut.AlongMetres), run.LengthMetres];
        Lump? wrapped = run.IsRing && cuts.Length > 0 ? Between(run, marks[^2], marks[^1]) : null;
        int count = wrapped is null ? marks.Length - 1 : marks.Length - 2;
        for (int i = 0; i < count; i++)
        {
            Lump lump = Between(run, marks[i], marks[i + 1]);
            yield return i == 0 && wrapped is not null
                ? lump with { Pieces = [.. lump.Pieces, .. wrapped.Pieces], Stretches = [.. lump.Stretches, .. wrapped.Stretches] }
                : lump;
        }
    }

    private static Lump Between(TrackRun run, double from, double to)
    {
        RunPart[] parts = [.. run.Parts.Where(part => part.StartMetres < to - 1e-6 && part.EndMetres > from + 1e-6)];
        if (parts.Length == 0)
        {
            // A cut at the very end of a run leaves nothing of it on that side.
            return new(run.Parts[0].Spot, [], []);
        }

        ImmutableArray<TrackStretch> stretches = [.. parts
            .Where(part => part.Spot.IsPlain && Math.Min(part.EndMetres, to) > Math.Max(part.StartMetres, from))
            .Select(part => Common(part, from, to))];
        return new(parts[0].Spot, [.. parts.Select(part => (part.Spot.Index, part.Spot.Piece))], stretches);
    }

    private static TrackStretch Common(RunPart part, double from, double to)
    {
        double one = part.PlaceAt(Math.Max(part.StartMetres, from)).MetresFromA, other = part.PlaceAt(Math.Min(part.EndMetres, to)).MetresFromA;
        return new(part.Spot.Piece, Math.Min(one, other), Math.Max(one, other));
    }

    private static CellGraph Contract(
        TrackMap map, List<Lump> lumps, List<(int From, int To)> joined, List<(int From, int To, Boundary Boundary)> edges)
    {
        DisjointSetsWorkspace groups = new(lumps.Count);
        joined.ForEach(pair => groups.Join(pair.From, pair.To));
        int[] numbers = groups.Numbers();
        ImmutableArray<TrackCell> cells = [.. lumps.Select((lump, i) => (lump, Number: numbers[i]))
            .GroupBy(pair => pair.Number, pair => pair.lump)
            .OrderBy(group => group.Key)
            .Select(group => new TrackCell(
                group.Key,
                map.ZoneOf(group.First().Spot.Index),
                [.. group.SelectMany(lump => lump.Pieces).OrderBy(piece => piece.Spot).Select(piece => piece.Piece).Distinct()],
                [.. group.SelectMany(lump => lump.Stretches)],
                group.First().Spot.Ends.FirstOrDefault()))];
        return new(cells, [.. edges
            .Select(edge => new CellEdge(numbers[edge.From], numbers[edge.To], edge.Boundary))
            .Where(edge => edge.From != edge.To)]);
    }

    private sealed record Lump(TrackSpot Spot, ImmutableArray<(int Spot, PieceId Piece)> Pieces, ImmutableArray<TrackStretch> Stretches);
}
