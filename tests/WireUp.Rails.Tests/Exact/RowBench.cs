using WireUp.Layouts;

namespace WireUp.Rails.Tests.Exact;

/// <summary>
/// A row of the table alone, tested with a meter: A and B are held to the rails at its ends, and what each conductor shows is found by
/// touching on from one to the next until nothing changes. Cuts inside the piece are bridged by adding a bond.
/// </summary>
/// <param name="row">The row.</param>
/// <param name="plusEnds">The ends that one looks into, along the piece; out of the others.</param>
/// <param name="turnedEnds">Ends whose left rail carries B.</param>
internal sealed class RowBench(Trackwork row, string plusEnds, string turnedEnds = "")
{
    /// <summary>What a conductor shows in a position: <c>A</c>, <c>B</c>, <c>AB</c> for a short or nothing.</summary>
    public string Shows(PieceNode node, string position, params string[] gaps) =>
        Shown(position, null, gaps).TryGetValue(node, out SortedSet<char>? legs) ? string.Concat(legs) : "";

    /// <summary>The positions in which a conductor shows A and B, with a wire across a cut, and no wire to some rails at the ends.</summary>
    public string ShortAcross((string From, string To)? cut, params string[] gaps) => string.Join(' ', row.Positions.Where(position =>
        Shown(position, cut, gaps).Values.Any(legs => legs.Count > 1)));

    private Dictionary<PieceNode, SortedSet<char>> Shown(string position, (string From, string To)? cut, string[] gaps)
    {
        List<(PieceNode, PieceNode)> metal =
        [
            .. row.Fixed.Select(bond => (bond.From, bond.To)),
            .. row.Switched.Where(bond => bond.Position == position).Select(bond => (bond.From, bond.To)),
            .. cut is { } across ? [(NodeOf(across.From), NodeOf(across.To))] : Array.Empty<(PieceNode, PieceNode)>(),
        ];
        Dictionary<PieceNode, SortedSet<char>> shown = [];
        foreach (PieceNode node in metal.SelectMany(pair => new[] { pair.Item1, pair.Item2 }))
        {
            shown.TryAdd(node, []);
        }

        foreach (string rail in Ends().SelectMany(end => new[] { $"{end} L", $"{end} R" }).Except(gaps))
        {
            shown.TryAdd(NodeOf(rail), []);
            shown[NodeOf(rail)].Add((rail[^1] == 'L') != turnedEnds.Split(' ').Contains(rail.Split(' ')[0]) ? 'A' : 'B');
        }

        bool changed = true;
        while (changed)
        {
            changed = false;
            foreach ((PieceNode from, PieceNode to) in metal)
            {
                int before = shown[from].Count + shown[to].Count;
                shown[from].UnionWith(shown[to]);
                shown[to].UnionWith(shown[from]);
                changed |= shown[from].Count + shown[to].Count > before;
            }
        }

        return shown;
    }

    private IEnumerable<string> Ends() => row.Phases.SelectMany(group => group.Plus.Concat(group.Minus));

    /// <summary><c>a1 L</c> is a rail at an end, seen along the piece from its plus ends; anything else an inner conductor.</summary>
    private PieceNode NodeOf(string name)
    {
        string[] words = name.Split(' ');
        return words.Length == 1
            ? PieceNode.Inner(name)
            : new(words[0], plusEnds.Split(' ').Contains(words[0]) == (words[1] == "L") ? RailSide.Right : RailSide.Left);
    }
}
