using WireUp.Layouts;

namespace WireUp.Checking.Rules;

/// <summary>
/// Track that ends without a buffer stop: maybe so, maybe a joint was forgotten. Positions of a turntable or transfer table are counted
/// whether or not a road begins there.
/// </summary>
internal sealed class OpenEnd : Rule
{
    internal override FindingDescriptor Descriptor { get; } =
        Describe.Practice("WU2002", Severity.Advice, "Track ends without a buffer stop");

    internal override IEnumerable<Finding> Check(CheckContext context) =>
        from piece in context.Layout.Track
        where piece is not (Piece.Turntable or Piece.TransferTable)
        from end in piece.Ends
        where context.Index.JointAt(end) is null
        select Say(
            $"Track ends at {Words.Quote(end)}, where nothing is joined.",
            piece is Piece.Stop
                ? $"Join {Words.Quote(end)} to the track that it ends."
                : $"Join {Words.Quote(end)} to what comes next, or put a buffer stop there.",
            end.ToString());
}
