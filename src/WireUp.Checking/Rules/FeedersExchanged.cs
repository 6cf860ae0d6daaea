
namespace WireUp.Checking.Rules;

/// <summary>Feeders that carry A and B the other way round than the others on the same track.</summary>
internal sealed class FeedersExchanged : Rule
{
    internal override FindingDescriptor Descriptor { get; } =
        Describe.Physics("WU3005", Severity.Error, "The two wires of a feeder are exchanged");

    internal override IEnumerable<Finding> Check(CheckContext context) =>
        from exchanged in context.Polarity.Exchanged
        select Say(
            exchanged.IsTie
                ? $"Feeders {Words.List(exchanged.Against.Concat(exchanged.Feeders))} bring A and B to the same track in opposite ways."
                : $"Feeder{(exchanged.Feeders.Length == 1 ? "" : "s")} {Words.List(exchanged.Feeders)} bring{(exchanged.Feeders.Length == 1 ? "s" : "")} A and B to the track the other way round than {Words.List(exchanged.Against)}.",
            $"{(exchanged.IsTie ? "Find out which is right and e" : "E")}xchange the two wires of {Words.List(exchanged.Feeders)} at the rails{(exchanged.IsTie ? ", or of the other" : "")}.",
            exchanged.Feeders) with
        {
            Path = exchanged.Short is { } meeting ? Words.Path(meeting) : [],
        };
}
