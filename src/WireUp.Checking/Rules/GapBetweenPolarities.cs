using WireUp.Rails;

namespace WireUp.Checking.Rules;

/// <summary>A gap with A on the one face and B on the other, neither of which is ever swapped: every wheel that crosses it makes a short.</summary>
internal sealed class GapBetweenPolarities : Rule
{
    internal override FindingDescriptor Descriptor { get; } =
        Describe.Physics("WU3008", Severity.Error, "A gap has opposite polarity on its two sides");

    internal override IEnumerable<Finding> Check(CheckContext context) =>
        from meeting in context.Polarity.AcrossGaps
        where meeting.Kind == MeetingKind.Short && !TrainSupplies.AreOutOfPhase(meeting.Kind, meeting.From, meeting.To)
        group meeting by GapPlaces.Of(context, meeting) into place
        let shown = place.First()
        select Say(
            $"At the gap {Words.Quote(place.Key)} rail {Words.Quote(shown.From)} faces {Words.Quote(shown.To)}, so that every wheel that crosses it makes a short.",
            "Give the track on one side of the gap the polarity of the other, or make it a reversing section between two pairs of gaps.",
            place.Key, shown.From.Feeder, shown.To.Feeder);
}
