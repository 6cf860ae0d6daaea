using WireUp.Layouts;

namespace WireUp.Checking.Rules;

/// <summary>
/// A reversing section that a train enters with one polarity and leaves with the other, and that is shorter than the train: both
/// borders are bridged at once. An error when the longest train itself does not fit, a warning when the margin is missing.
/// </summary>
internal sealed class ReversingSectionShort : Rule
{
    /// <summary>Length of the section over that of the longest train. Common practice, no published source.</summary>
    private const double Margin = 1.1;

    internal override FindingDescriptor Descriptor { get; } =
        Describe.Practice("WU3006", Severity.Error, "A reversing section is shorter than the longest train");

    internal override IEnumerable<Finding> Check(CheckContext context)
    {
        double train = context.Layout.LongestTrain.Meters;
        ReversingRuns runs = new(context);
        foreach (District district in context.Wiring.Districts.Where(district => district.Reversing))
        {
            ReversingRun? shortest = runs.Of(district).MinBy(run => run.LengthMetres);
            if (shortest is not null && shortest.LengthMetres < (train * Margin) - 1e-6)
            {
                yield return Say(
                    $"In reversing district {Words.Quote(district.Name)} it is {Words.Say(UnitsNet.Length.FromMeters(shortest.LengthMetres))} from gap {Words.Quote(shortest.From)} to gap {Words.Quote(shortest.To)}, and the longest train is {Words.Say(context.Layout.LongestTrain)}.",
                    $"Move the gaps at least {Words.Say(UnitsNet.Length.FromMeters(train * Margin))} apart, or run shorter trains through it.",
                    district.Name, shortest.From, shortest.To) with
                {
                    Severity = shortest.LengthMetres < train - 1e-6 ? Severity.Error : Severity.Warning,
                };
            }
        }
    }
}
