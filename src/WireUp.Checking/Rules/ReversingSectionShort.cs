namespace WireUp.Checking.Rules;

/// <summary>
/// A reversing section that a train enters with one polarity and leaves with the other, and that is shorter than the train: both
/// borders are bridged at once. Whether a device swaps it or a hand switch, the train has to be wholly inside. An error when the longest
/// train itself does not fit, a warning when the margin is missing.
/// </summary>
internal sealed class ReversingSectionShort : Rule
{
    /// <summary>Length of the section over that of the longest train. Common practice, no published source.</summary>
    private const double Margin = 1.1;

    internal override FindingDescriptor Descriptor { get; } =
        Describe.Practice("WU3006", Severity.Error, "A reversing section is shorter than the longest train");

    internal override IEnumerable<Finding> Check(CheckContext context)
    {
        ReversingRuns runs = new(context);
        IEnumerable<Finding?> districts = context.Wiring.Districts.Where(district => district.Reversing)
            .Select(district => Judge(context, runs.Of(district), ("reversing district", district.Name)));
        IEnumerable<Finding?> switches = runs.Switches.Select(item => Judge(context, runs.Of(item), ("the track of reversing switch", item.Name)));
        return districts.Concat(switches).OfType<Finding>();
    }

    private Finding? Judge(CheckContext context, IEnumerable<ReversingRun> runs, (string Noun, string Name) what)
    {
        double train = context.Layout.LongestTrain.Meters;
        ReversingRun? shortest = runs.MinBy(run => run.LengthMetres);
        return shortest is null || !Limit.IsBelow(shortest.LengthMetres, train * Margin) ? null : Say(
            $"In {what.Noun} {Words.Quote(what.Name)} it is {Words.Say(UnitsNet.Length.FromMeters(shortest.LengthMetres))} from gap {Words.Quote(shortest.From)} to gap {Words.Quote(shortest.To)}, and the longest train is {Words.Say(context.Layout.LongestTrain)}.",
            $"Move the gaps at least {Words.Say(UnitsNet.Length.FromMeters(train * Margin))} apart, or run shorter trains through it.",
            what.Name, shortest.From, shortest.To) with
        {
            Severity = Limit.IsBelow(shortest.LengthMetres, train) ? Severity.Error : Severity.Warning,
        };
    }
}
