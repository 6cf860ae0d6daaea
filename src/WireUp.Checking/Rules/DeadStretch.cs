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
        let places = (From: UnderWheels.PlaceOf(context, dead.From), To: UnderWheels.PlaceOf(context, dead.To))
        group dead by string.CompareOrdinal(places.From, places.To) < 0 ? (places.From, places.To) : (From: places.To, To: places.From) into pair
        let length = Length.FromMeters(pair.First().Metres)
        let stopped = DeadFrog.Stopped(context.Layout, length)
        select Say(
            $"From gap {Words.Quote(pair.Key.From)} to gap {Words.Quote(pair.Key.To)} a rail is dead for {Words.Say(length)}{(stopped is null ? ", which every engine reaches across" : $", which {stopped}")}.",
            "Feed the length between the two gaps, or close one of them.",
            pair.Key.From, pair.Key.To) with
        {
            Severity = stopped is null ? Severity.Advice : Severity.Warning,
        };

    /// <summary>Points of rail that these findings tell of.</summary>
    internal static ImmutableHashSet<RailPoint> Points(CheckContext context) => [.. Short(context).SelectMany(dead => dead.Points)];

    private static IEnumerable<DeadLength> Short(CheckContext context)
    {
        double longest = context.Layout.Stock.Locomotives.Select(engine => engine.Pickup).Append(context.Layout.ShortestPickup).Max().Meters;
        return context.Polarity.DeadLengths.Where(dead => dead.Metres < longest);
    }
}
