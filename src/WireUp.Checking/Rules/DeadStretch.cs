using System.Collections.Immutable;
using UnitsNet;
using WireUp.Rails;

namespace WireUp.Checking.Rules;

/// <summary>
/// A length of rail without feed between two gaps that some engine reaches across. Longer ones, on which every engine stops, are told as
/// track without feed.
/// </summary>
internal sealed class DeadStretch : Rule
{
    internal override FindingDescriptor Descriptor { get; } =
        Describe.Practice("WU2007", Severity.Warning, "A rail is dead between two gaps");

    internal override IEnumerable<Finding> Check(CheckContext context) =>
        from dead in Short(context)
        group dead by Words.InOrder(UnderWheels.PlaceOf(context, dead.From), UnderWheels.PlaceOf(context, dead.To)) into pair
        let length = Length.FromMeters(pair.First().Metres)
        let stopped = DeadFrog.Stopped(context.Layout, length)
        select Say(
            $"From gap {Words.Quote(pair.Key.First)} to gap {Words.Quote(pair.Key.Second)} a rail is dead for {Words.Say(length)}{(stopped is null ? ", which every engine reaches across" : $", which {stopped}")}.",
            "Feed the length between the two gaps, or close one of them.",
            pair.Key.First, pair.Key.Second) with
        {
            Severity = stopped is null ? Severity.Advice : Severity.Warning,
        };

    /// <summary>Points of rail that these findings tell of.</summary>
    internal static ImmutableHashSet<RailPoint> Points(CheckContext context) => [.. Short(context).SelectMany(dead => dead.Points)];

    private static IEnumerable<DeadLength> Short(CheckContext context)
    {
        double longest = UnderWheels.LongestPickup(context.Layout);
        return context.Polarity.DeadLengths.Where(dead => dead.Metres < longest);
    }
}
