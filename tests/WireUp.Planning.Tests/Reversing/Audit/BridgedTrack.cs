using WireUp.Layouts;
using WireUp.Rails;

namespace WireUp.Planning.Tests.Reversing.Audit;

/// <summary>
/// Rails that no metal joins for good but that must have one polarity all the same, told from the metal and the wheels of each position
/// and from nothing that the table says of phases.
/// </summary>
internal static class BridgedTrack
{
    /// <summary>Pairs of nodes of a healed layout's graph.</summary>
    public static IEnumerable<(int From, int To)> Ties(Layout layout, RailGraph graph) => layout.Track.SelectMany(piece => piece switch
    {
        Piece.Crossing { Frog: FrogKind.Live } crossing => AcrossLiveFrogs(crossing, graph),
        Piece.Turntable { Feed: BridgeFeed.Wires } => [],
        Piece.Turntable or Piece.TransferTable => OverBridge(piece, layout.Control, graph),
        _ => [],
    });

    /// <summary>The frogs at which both rails have one polarity are bonded: where like rails cross, or unlike ones in an opposite crossing.</summary>
    private static IEnumerable<(int From, int To)> AcrossLiveFrogs(Piece.Crossing crossing, RailGraph graph)
    {
        int Rail(string end, RailSide side) => graph.NodeAt(new(crossing.End(end), side));
        (RailSide same, RailSide other) = crossing.OppositePhase ? (RailSide.Left, RailSide.Right) : (RailSide.Right, RailSide.Left);
        return [(Rail("a1", RailSide.Right), Rail("b1", same)), (Rail("a1", RailSide.Left), Rail("b1", other))];
    }

    /// <summary>In each position the bridge carries its rails from road to road; what stays where it is between positions is tied through it.</summary>
    private static IEnumerable<(int From, int To)> OverBridge(Piece piece, ControlSystem control, RailGraph graph)
    {
        Trackwork row = TrackworkTable.Of(piece, control);
        bool bridgeStays = piece is Piece.TransferTable { Feed: BridgeFeed.Wires };
        foreach (string position in row.Positions)
        {
            List<(PieceNode From, PieceNode To)> joined =
            [
                (PieceNode.Inner("head/left"), PieceNode.Inner("tail/right")),
                (PieceNode.Inner("head/right"), PieceNode.Inner("tail/left")),
                .. row.Wheels.Where(wheel => wheel.Position == position).Select(wheel => (wheel.From, wheel.To)),
                .. row.Switched.Where(bond => bond.Position == position).Select(bond => (bond.From, bond.To)),
            ];
            foreach (PieceNode[] part in Parts(joined))
            {
                int[] staying = [.. part.Where(node => node.Side is not null || bridgeStays || node.Name.StartsWith("ring", StringComparison.Ordinal)).Select(NodeOf)];
                for (int i = 1; i < staying.Length; i++)
                {
                    yield return (staying[0], staying[i]);
                }
            }
        }

        int NodeOf(PieceNode node) => node.Side is { } side ? graph.NodeAt(new(piece.End(node.Name), side)) : graph.NodeInside(piece.Id, node.Name)!.Value;
    }

    private static List<PieceNode[]> Parts(List<(PieceNode From, PieceNode To)> joined)
    {
        List<HashSet<PieceNode>> parts = [];
        foreach ((PieceNode from, PieceNode to) in joined)
        {
            HashSet<PieceNode> merged = [from, to];
            foreach (HashSet<PieceNode> part in parts.Where(part => part.Overlaps(merged)).ToArray())
            {
                merged.UnionWith(part);
                parts.Remove(part);
            }

            parts.Add(merged);
        }

        return [.. parts.Select(part => part.ToArray())];
    }
}
