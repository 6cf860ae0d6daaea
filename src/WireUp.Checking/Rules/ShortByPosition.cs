using WireUp.Rails;

namespace WireUp.Checking.Rules;

/// <summary>Two wires of opposite polarity that meet when turnouts stand in certain positions.</summary>
internal sealed class ShortByPosition : Rule
{
    internal override FindingDescriptor Descriptor { get; } =
        Describe.Physics("WU3002", Severity.Error, "Rail A meets rail B in some turnout positions");

    internal override IEnumerable<Finding> Check(CheckContext context) =>
        from meeting in context.Polarity.ByPosition
        where meeting.Kind == MeetingKind.Short
        select Say(
            $"Feeder {Words.Quote(meeting.From.Feeder)} and feeder {Words.Quote(meeting.To.Feeder)} short each other when {Words.Set(meeting.Turnouts)}.",
            FrogGaps.First(meeting) is { } rail
                ? $"Cut a gap in the rail {Words.Quote(rail)}, just beyond the frog."
                : "Cut a gap in the rail along the path where it should not conduct.",
            meeting.Turnouts.Keys.Select(turnout => turnout.ToString()).Concat([meeting.From.Feeder, meeting.To.Feeder])) with
        {
            Path = Words.Path(meeting),
            Turnouts = meeting.Turnouts,
        };
}
