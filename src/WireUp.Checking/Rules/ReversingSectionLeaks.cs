using WireUp.Rails;

namespace WireUp.Checking.Rules;

/// <summary>A rail of a reversing section that conducts to another district: as soon as the device swaps, it is a short.</summary>
internal sealed class ReversingSectionLeaks : Rule
{
    internal override FindingDescriptor Descriptor { get; } =
        Describe.Physics("WU3009", Severity.Error, "A reversing section is not isolated on both rails");

    internal override IEnumerable<Finding> Check(CheckContext context) =>
        from meeting in context.Polarity.Standing.Concat(context.Polarity.ByPosition)
        where meeting.Kind == MeetingKind.Reversing && TrainSupplies.AreBoth(context, meeting)
        let when = meeting.Turnouts.IsEmpty ? "" : $" {Words.When(meeting.Turnouts)}"
        group (meeting, when) by (meeting.From.District, meeting.To.District) into pair
        let shown = pair.First()
        select Say(
            $"A rail joins district {Words.Quote(pair.Key.Item1)} to district {Words.Quote(pair.Key.Item2)}, one of which swaps polarity{shown.when}, between feeders {Words.Quote(shown.meeting.From.Feeder)} and {Words.Quote(shown.meeting.To.Feeder)}.",
            Border.Remedy(context, shown.meeting, "Cut gaps in both rails at every border of the reversing section, and feed it from its own device only."),
            pair.Key.Item1, pair.Key.Item2) with
        {
            Path = Words.Path(shown.meeting),
            Turnouts = shown.meeting.Turnouts,
        };
}
