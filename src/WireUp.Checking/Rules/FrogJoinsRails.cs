
namespace WireUp.Checking.Rules;

/// <summary>A live frog without gaps whose two inner rails lead to the two rails of the same track.</summary>
internal sealed class FrogJoinsRails : Rule
{
    internal override FindingDescriptor Descriptor { get; } =
        Describe.Physics("WU2004", Severity.Error, "A live frog joins the two rails of the track beyond it");

    internal override IEnumerable<Finding> Check(CheckContext context) =>
        from fault in context.Polarity.FrogFaults
        select Say(
            $"The live frog of {Words.Quote(fault.Turnout)} joins rails {Words.Quote(fault.Path[0])} and {Words.Quote(fault.Path[^1])}, the two rails of one track.",
            FrogGaps.Both(context, fault.Turnout),
            fault.Turnout.ToString()) with
        {
            Path = [.. fault.Path.Select(point => point.ToString())],
        };
}
