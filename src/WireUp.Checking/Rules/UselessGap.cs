using WireUp.Layouts;

namespace WireUp.Checking.Rules;

/// <summary>Gaps that cut nothing, and gaps where the person wants none.</summary>
internal sealed class UselessGap : Rule
{
    internal override FindingDescriptor Descriptor { get; } =
        Describe.Practice("WU2003", Severity.Warning, "A gap cuts nothing, or lies where none is wanted");

    internal override IEnumerable<Finding> Check(CheckContext context)
    {
        HashSet<PieceId> unwanted = [.. context.Layout.NoGap];
        foreach (Gap gap in context.Wiring.Gaps)
        {
            if (gap.At is GapPlace.InJoint { End: var end } && context.Index.JointAt(end) is null)
            {
                yield return Say(
                    $"The gap at {Words.Quote(end)} cuts nothing, because nothing is joined there.",
                    $"Take the gap at {Words.Quote(end)} out of the list, or join the end.",
                    end.ToString());
            }
            else if (IsUnwanted(context.Index, gap.At, unwanted))
            {
                yield return Say(
                    $"The gap at {Words.Quote(gap.At)} lies where no gap is wanted.",
                    "Move the gap, or take the piece out of the list of places without gaps.",
                    gap.At.ToString()!);
            }
        }
    }

    /// <summary>A joint at the edge of such a place may have a gap; one between two such places may not.</summary>
    private static bool IsUnwanted(LayoutIndex index, GapPlace at, HashSet<PieceId> unwanted) => at switch
    {
        GapPlace.InSection within => unwanted.Contains(within.Place.Section),
        GapPlace.InJoint joint => unwanted.Contains(joint.End.Piece) && index.Opposite(joint.End) is { } other && unwanted.Contains(other.Piece),
        _ => throw new ArgumentOutOfRangeException(nameof(at), at, "no such place"),
    };
}
