using WireUp.Layouts;
using WireUp.Rails;

namespace WireUp.Planning.Reversing;

/// <summary>
/// The layout as polarity sees it: every frog's rails bonded to the rail of their own polarity, every joint whole, every lift-out
/// section in its place, and no gaps but those that part polarity for good. What shorts in it cannot be fed.
/// </summary>
internal static class HealedLayout
{
    /// <summary>The layout with these double gaps and no others.</summary>
    internal static Layout With(Layout layout, IEnumerable<GapPlace> gaps) => layout with
    {
        Track = [.. layout.Track.Select(Bonded)],
        Joints = [.. layout.Joints.Select(joint => joint with { Insulated = RailSet.None })],
        Wiring = layout.Wiring with { Gaps = [.. gaps.Select(gap => new Gap(gap, RailSet.Both))], Feeders = [], Switches = [] },
    };

    /// <summary>
    /// Every two nodes of a healed layout's graph that conduct to each other, and rails of one piece that no metal joins but that must
    /// have one polarity all the same: where tracks cross on live frogs, or a moving bridge goes from one to the other.
    /// </summary>
    /// <param name="layout">The layout that was healed.</param>
    /// <param name="healed">Its graph.</param>
    internal static IEnumerable<(int From, int To)> Links(Layout layout, RailGraph healed) => healed.Links
        .Where(link => link is not RailLink.Contact)
        .Select(link => (link.From, link.To))
        .Concat(layout.Track.Where(piece => piece is not Piece.Section).SelectMany(piece => TrackworkTable.Of(piece, layout.Control).Phases.SelectMany(group => Ties(piece, group, healed))));

    private static IEnumerable<(int From, int To)> Ties(Piece piece, PhaseGroup group, RailGraph graph)
    {
        (int Left, int Right)[] rails =
        [
            .. group.Plus.Select(end => (At(end, RailSide.Right), At(end, RailSide.Left))),
            .. group.Minus.Select(end => (At(end, RailSide.Left), At(end, RailSide.Right))),
        ];
        return rails.Skip(1).SelectMany(pair => new[] { (rails[0].Left, pair.Left), (rails[0].Right, pair.Right) });

        int At(string end, RailSide side) => graph.NodeAt(new(piece.End(end), side));
    }

    private static Piece Bonded(Piece piece) => piece switch
    {
        Piece.Turnout turnout => new Piece.Turnout(turnout.Id, turnout.Hand, FrogKind.Insulated) { Length = turnout.Length },
        Piece.MultiTurnout turnout => new Piece.MultiTurnout(turnout.Id, turnout.LegCount, FrogKind.Insulated) { Length = turnout.Length },
        Piece.Crossing crossing => crossing with { Frog = FrogKind.Insulated, Feed = FrogFeed.None },
        Piece.Slip slip => slip with { Frog = FrogKind.Insulated, Feed = FrogFeed.None },
        Piece.Scissors scissors => scissors with { Frog = FrogKind.Insulated, Feed = FrogFeed.None },
        Piece.Section section => section with { LiftOut = false },
        _ => piece,
    };
}
