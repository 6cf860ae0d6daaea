namespace WireUp.Checking.Rules;

/// <summary>The search for shorts by position was not finished: silence about the turnouts named would be no proof.</summary>
internal sealed class SearchGivenUp : Rule
{
    internal override FindingDescriptor Descriptor { get; } =
        Describe.Physics("WU3012", Severity.Warning, "The search for shorts by position was not finished");

    internal override IEnumerable<Finding> Check(CheckContext context)
    {
        if (!context.Polarity.Undecided.IsEmpty)
        {
            yield return Say(
                $"Whether rails meet in some positions of {Words.List(context.Polarity.Undecided.Select(turnout => turnout.ToString()))} was not searched to the end, because too many live frogs are joined without gaps.",
                $"Cut gaps in both rails beyond the frog of {Words.Quote(context.Polarity.Undecided[0])} and check again.",
                context.Polarity.Undecided.Select(turnout => turnout.ToString()));
        }

        if (!context.Polarity.UndecidedFeed.IsEmpty)
        {
            yield return Say(
                $"In which positions both rails of {Words.List(context.Polarity.UndecidedFeed.Select(section => section.ToString()))} have current was not searched to the end, because too many blades and contacts lead there.",
                $"Put a feeder at {Words.Quote(context.Polarity.UndecidedFeed[0])}, or gaps nearer to it, and check again.",
                context.Polarity.UndecidedFeed.Select(section => section.ToString()));
        }

        if (!context.Polarity.UndecidedUnderTrains.IsEmpty)
        {
            yield return Say(
                $"Whether a train makes a short as it rolls over {Words.List(context.Polarity.UndecidedUnderTrains.Select(piece => piece.ToString()))} was not searched to the end, because too many dead rails and blades lead on from there.",
                $"Put feeders on the track around {Words.Quote(context.Polarity.UndecidedUnderTrains[0])} and check again.",
                context.Polarity.UndecidedUnderTrains.Select(piece => piece.ToString()));
        }
    }
}
