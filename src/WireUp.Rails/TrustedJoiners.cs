using WireUp.Layouts;
using WireUp.Layouts.Reference;

namespace WireUp.Rails;

/// <summary>
/// Which slide-on joiners are trusted to carry what a feeder gives: so many in a row as the alloy of the rail bears (shared/trusted-joiners.csv).
/// Common practice, no published source.
/// </summary>
public static class TrustedJoiners
{
    /// <summary>Most joiners in a row that any alloy bears.</summary>
    public static int Most => RailTable.MostTrustedJoiners;

    /// <summary>
    /// How much of <see cref="Most"/> one rail of a joint takes: nothing where it is soldered, one for a joiner that is trusted, more than all for
    /// one that is not. Of two alloys the worse one counts.
    /// </summary>
    /// <param name="graph">The rails.</param>
    /// <param name="joint">The joint.</param>
    public static int Spent(RailGraph graph, Joint joint) => joint.Kind == JointKind.Soldered
        ? 0
        : 1 + Most - Math.Min(Trusted(graph, joint.First.Piece), Trusted(graph, joint.Second.Piece));

    private static int Trusted(RailGraph graph, PieceId piece) =>
        RailTable.TrustedJoiners((graph.Index.Piece(piece) as Piece.Section)?.Rail ?? graph.Layout.Defaults.Rail);
}
