using System.Collections.Immutable;
using WireUp.Layouts;
using WireUp.Rails;

namespace WireUp.Checking.Rules;

/// <summary>
/// A hand switch that turns nothing off, because the rails behind it get the same current by another way too. A section that is to be
/// turned off has exactly one way for current to each of its rails.
/// </summary>
internal sealed class SwitchDefeated : Rule
{
    internal override FindingDescriptor Descriptor { get; } =
        Describe.Practice("WU5004", Severity.Warning, "A switch does not turn off the track behind it");

    internal override IEnumerable<Finding> Check(CheckContext context)
    {
        ImmutableHashSet<PieceId> switches = [.. context.Wiring.Switches.Select(item => item.Name)];
        IEnumerable<Finding> feeders =
            from feeder in context.Wiring.Feeders
            where feeder.When is { } when && switches.Contains(when.Owner)
            let other = OtherWay(context, feeder, feeder.When!.Value.Owner)
            where other is not null
            select Tell(feeder.When!.Value, $"the track at {Words.Quote(feeder.At)}", other, feeder.Name);
        IEnumerable<Finding> gaps =
            from gap in context.Wiring.Gaps
            where gap.BridgedWhen is { } when && switches.Contains(when.Owner)
            let other = OtherWay(context, gap, gap.BridgedWhen!.Value.Owner)
            where other is not null
            select Tell(gap.BridgedWhen!.Value, $"the track beyond the gap {Words.Quote(gap.At)}", other, gap.At.ToString()!);
        return [.. feeders, .. gaps];
    }

    private Finding Tell(Setting setting, string track, FeedWay other, string place)
    {
        string way = other.When.IsEmpty
            ? $"feeder {Words.Quote(other.Wire.Feeder)} feeds it always"
            : $"feeder {Words.Quote(other.Wire.Feeder)} feeds it too when {Words.Set(other.When)}";
        return Say(
            $"Switch {Words.Quote(setting.Owner)} does not turn off {track}: {way}.",
            $"Take off feeder {Words.Quote(other.Wire.Feeder)} or move it, or cut gaps between it and what {Words.Quote(setting.Owner)} is to turn off.",
            setting.Owner.ToString(), place) with
        {
            Turnouts = other.When,
        };
    }

    /// <summary>Another way for both legs of a feeder to the same rails.</summary>
    private static FeedWay? OtherWay(CheckContext context, Feeder feeder, PieceId owner)
    {
        Station station = context.Graph.StationAt(feeder.At);
        (int legA, int legB) = feeder.Swap ? (station.SecondTowardsB, station.FirstTowardsB) : (station.FirstTowardsB, station.SecondTowardsB);
        string booster = BoosterOf(context, feeder.District);
        FeedWay? first = Without(context, legA, owner).FirstOrDefault(way => way.Wire.Leg == Leg.A && BoosterOf(context, way.Wire.District) == booster);
        FeedWay? second = Without(context, legB, owner).FirstOrDefault(way => way.Wire.Leg == Leg.B && BoosterOf(context, way.Wire.District) == booster);
        return first is not null && second is not null ? (second.When.Count > first.When.Count ? second : first) : null;
    }

    /// <summary>A way other than over the gap, on each rail that it cuts, for the same leg to both faces.</summary>
    private static FeedWay? OtherWay(CheckContext context, Gap gap, PieceId owner)
    {
        FeedWay? found = null;
        foreach ((int near, int far) in Faces(context, gap))
        {
            FeedWay? other = Without(context, far, owner).FirstOrDefault(way => Without(context, near, owner).Any(beside =>
                beside.Wire.Leg == way.Wire.Leg && BoosterOf(context, beside.Wire.District) == BoosterOf(context, way.Wire.District)
                && FeedWays.Agree(beside.When, way.When)));
            if (other is null)
            {
                return null;
            }

            found ??= other;
        }

        return found;
    }

    private static IEnumerable<(int Near, int Far)> Faces(CheckContext context, Gap gap)
    {
        (RailSide first, RailSide second) = RailSides.Of(context.Layout.Control);
        foreach (RailSide side in new[] { first, second }.Where(side => gap.Rails.Holds(side)))
        {
            if (gap.At is GapPlace.InSection within)
            {
                Station station = context.Graph.StationAt(within.Place);
                yield return side == first ? (station.FirstTowardsA, station.FirstTowardsB) : (station.SecondTowardsA, station.SecondTowardsB);
            }
            else if (gap.At is GapPlace.InJoint { End: var end } && context.Index.Opposite(end) is { } opposite)
            {
                yield return (context.Graph.NodeAt(new(end, side)), context.Graph.NodeAt(new(opposite, side.Across())));
            }
        }
    }

    private static IEnumerable<FeedWay> Without(CheckContext context, int node, PieceId owner) =>
        context.Ways.At(node).Where(way => !way.When.ContainsKey(owner));

    private static string BoosterOf(CheckContext context, string district) =>
        context.Wiring.Districts.First(each => each.Name == district).Booster;
}
