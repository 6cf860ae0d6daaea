using WireUp.Layouts;

namespace WireUp.Planning.Reversing;

/// <summary>
/// The layout as polarity sees it: every frog's rails bonded to the stock rail of their own polarity, every joint whole, and no
/// gaps but those that part polarity for good. What shorts in it cannot be fed.
/// </summary>
internal static class HealedLayout
{
    /// <summary>The layout with these double gaps and no others.</summary>
    internal static Layout With(Layout layout, IEnumerable<GapPlace> gaps) => layout with
    {
        Track = [.. layout.Track.Select(Bonded)],
        Joints = [.. layout.Joints.Select(joint => joint with { Insulated = RailSet.None })],
        Wiring = layout.Wiring with { Gaps = [.. gaps.Select(gap => new Gap(gap, RailSet.Both))], Feeders = [] },
    };

    private static Piece Bonded(Piece piece) =>
        piece is Piece.Turnout turnout ? turnout with { Frog = FrogKind.Insulated, Feed = FrogFeed.None } : piece;
}
