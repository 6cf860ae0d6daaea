using System.Collections.Immutable;
using WireUp.Layouts;

namespace WireUp.Checking.Rules;

/// <summary>
/// Centre rails of two alternating supplies that are out of phase: between them stand the volts of both together. They meet where a
/// pick-up shoe bridges the gap between them, or through metal.
/// </summary>
internal sealed class SuppliesOutOfPhase : Rule
{
    internal override FindingDescriptor Descriptor { get; } =
        Describe.Physics("WU3021", Severity.Error, "Two supplies of three-rail track are out of phase");

    internal override IEnumerable<Finding> Check(CheckContext context) => context.Layout.Control == ControlSystem.ThreeRail
        ? [.. AcrossGaps(context), .. ThroughMetal(context)]
        : [];

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
        where TrainSupplies.AreOutOfPhase(context, meeting.Kind, meeting.From, meeting.To)
        let first = TrainSupplies.DistrictOf(context, meeting.From).Booster
        let second = TrainSupplies.DistrictOf(context, meeting.To).Booster
        select Say(
            $"The centre rails of {Words.Quote(first)} and {Words.Quote(second)} are out of phase and joined{When(meeting.Turnouts)}, between feeders {Words.Quote(meeting.From.Feeder)} and {Words.Quote(meeting.To.Feeder)}.",
            $"Cut a gap in the centre rail between {Words.Quote(meeting.From.Feeder)} and {Words.Quote(meeting.To.Feeder)}, and bring the two into phase.",
            first, second) with
        {
            Path = Words.Path(meeting),
            Turnouts = meeting.Turnouts,
        };

    private static string When(ImmutableSortedDictionary<PieceId, string> positions) => positions.IsEmpty ? "" : $" when {Words.Set(positions)}";

    private static string Remedy(string booster) =>
        $"Exchange the two low-voltage leads of {Words.Quote(booster)} at its output and prove it: with the running rails joined, a meter between the two centre rails has to show next to nothing. Open nothing that is connected to the mains.";
}
