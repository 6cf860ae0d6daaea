using WireUp.Rails;

namespace WireUp.Checking.Rules;

/// <summary>Two reversing sections that share a gap: each device would answer to the other's swapping.</summary>
internal sealed class ReversingSectionsTouch : Rule
{
    internal override FindingDescriptor Descriptor { get; } =
        Describe.Practice("WU3007", Severity.Error, "Two reversing sections touch");

    internal override IEnumerable<Finding> Check(CheckContext context) =>
        from meeting in context.Polarity.AcrossGaps
        where meeting.Kind == MeetingKind.Reversing
        group meeting by GapPlaces.Of(context, meeting) into place
        let shown = place.First()
        select Say(
            $"Reversing districts {Words.Quote(shown.From.District)} and {Words.Quote(shown.To.District)} touch at the gap {Words.Quote(place.Key)}, where their devices would swap against each other.",
            "Leave track of a fixed district between the two, at least as long as the longest vehicle that picks up current from end to end.",
            place.Key, shown.From.District, shown.To.District);
}
