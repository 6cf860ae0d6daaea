using System.Collections.Immutable;
using WireUp.Layouts;

namespace WireUp.Checking.Rules;

/// <summary>
/// Two alternating supplies that are out of phase: between the rails that each of them feeds alike stand the volts of both together. They
/// meet where a wheel or a pick-up shoe bridges the gap between them, or through metal.
/// </summary>
internal sealed class SuppliesOutOfPhase : Rule
{
    internal override FindingDescriptor Descriptor { get; } =
        Describe.Physics("WU3021", Severity.Error, "Two supplies are out of phase");

    internal override IEnumerable<Finding> Check(CheckContext context) => context.Layout.Control switch
    {
        ControlSystem.Direct => [],
        ControlSystem.Command => [.. AcrossGapsAlways(context), .. ThroughMetal(context)],
        ControlSystem.ThreeRail => [.. AcrossGaps(context), .. ThroughMetal(context)],
        _ => throw new ArgumentOutOfRangeException(nameof(context), context.Layout.Control, "no such control system"),
    };

    private IEnumerable<Finding> AcrossGapsAlways(CheckContext context) =>
        from meeting in context.Polarity.AcrossGaps
        where TrainSupplies.AreOutOfPhase(meeting.Kind, meeting.From, meeting.To)
        group meeting by GapPlaces.Of(context, meeting) into place
        let near = TrainSupplies.DistrictOf(context, place.First().From).Booster
        let far = TrainSupplies.DistrictOf(context, place.First().To).Booster
        let turned = context.Wiring.Boosters.First(booster => booster.PhaseTurned && (booster.Name == near || booster.Name == far))
        select Say(
            $"At the gap {Words.Quote(place.Key)} boosters {Words.Quote(near)} and {Words.Quote(far)} are out of phase, so that every wheel that crosses it joins the volts of both.",
            $"Exchange the two track leads of {Words.Quote(turned.Name)} at its output, and prove it: a meter across the gap, on one rail, has to show next to nothing.",
            place.Key, near, far);

    private IEnumerable<Finding> AcrossGaps(CheckContext context)
    {
        ImmutableHashSet<string> turned = [.. context.Wiring.Boosters.Where(booster => booster.PhaseTurned).Select(booster => booster.Name)];
        return from border in context.Cabs.Borders
               let pair = border.Meetings.FirstOrDefault(meeting => turned.Contains(meeting.Near) != turned.Contains(meeting.Far))
               where pair is not null
               let place = border.At.ToString()!
               select Say(
                   $"At the gap {Words.Quote(place)} the centre rails of {Words.Quote(pair.Near)} and {Words.Quote(pair.Far)} are out of phase{When(pair.When)}, so that a pick-up shoe that bridges it joins the volts of both.",
                   Remedy(turned.Contains(pair.Near) ? pair.Near : pair.Far),
                   place, pair.Near, pair.Far) with
               {
                   Turnouts = pair.When,
               };
    }

    private IEnumerable<Finding> ThroughMetal(CheckContext context) =>
        from meeting in context.Polarity.Standing.Concat(context.Polarity.ByPosition)
        where TrainSupplies.AreOutOfPhase(meeting.Kind, meeting.From, meeting.To)
        let first = TrainSupplies.DistrictOf(context, meeting.From).Booster
        let second = TrainSupplies.DistrictOf(context, meeting.To).Booster
        select Say(
            $"{Words.Quote(first)} and {Words.Quote(second)} are out of phase and a rail joins them{When(meeting.Turnouts)}, between feeders {Words.Quote(meeting.From.Feeder)} and {Words.Quote(meeting.To.Feeder)}.",
            $"Cut a gap in the {(context.Layout.Control == ControlSystem.ThreeRail ? "centre rail" : "rails")} between {Words.Quote(meeting.From.Feeder)} and {Words.Quote(meeting.To.Feeder)}, and bring the two into phase.",
            first, second) with
        {
            Path = Words.Path(meeting),
            Turnouts = meeting.Turnouts,
        };

    private static string When(ImmutableSortedDictionary<PieceId, string> positions) => positions.IsEmpty ? "" : $" when {Words.Set(positions)}";

    private static string Remedy(string booster) =>
        $"Exchange the two low-voltage leads of {Words.Quote(booster)} at its output and prove it: with the running rails joined, a meter between the two centre rails has to show next to nothing. Open nothing that is connected to the mains.";
}
