using System.Collections.Immutable;
using WireUp.Layouts;
using WireUp.Rails;

namespace WireUp.Checking.Rules;

/// <summary>Two wires of opposite polarity that meet when turnouts stand in certain positions.</summary>
internal sealed class ShortByPosition : Rule
{
    internal override FindingDescriptor Descriptor { get; } =
        Describe.Physics("WU3002", Severity.Error, "Rail A meets rail B in some turnout positions");

    internal override IEnumerable<Finding> Check(CheckContext context) =>
        from meeting in context.Polarity.ByPosition.Where(meeting => IsOfThisRule(meeting)).DistinctBy(Fault)
        select Say(
            $"Feeder {Words.Quote(meeting.From.Feeder)} and feeder {Words.Quote(meeting.To.Feeder)} short each other {Words.When(meeting.Turnouts)}.",
            Remedy(meeting),
            meeting.Turnouts.Keys.Select(turnout => turnout.ToString()).Concat([meeting.From.Feeder, meeting.To.Feeder])) with
        {
            Path = Words.Path(meeting),
            Turnouts = meeting.Turnouts,
        };

    private static bool IsOfThisRule(RailMeeting meeting) => meeting.Kind == MeetingKind.Short
        && !TrainSupplies.AreOutOfPhase(meeting.Kind, meeting.From, meeting.To);

    /// <summary>The same turnout moving one way and the other is one fault.</summary>
    private static string Fault(RailMeeting meeting) => string.Join(
        ' ',
        meeting.Turnouts.Select(pair => Moment.Of(pair.Value) is { } moment
            ? $"{pair.Key}.{string.Join('-', new[] { moment.From, moment.To }.Order(StringComparer.Ordinal))}"
            : $"{pair.Key}.{pair.Value} {meeting.From} {meeting.To}"));

    /// <summary>In mid-throw the contact is to blame; else a gap is missing.</summary>
    private static string Remedy(RailMeeting meeting)
    {
        ImmutableArray<PieceId> moving = [.. meeting.Turnouts.Where(pair => Moment.Is(pair.Value)).Select(pair => pair.Key)];
        if (!moving.IsEmpty)
        {
            return $"Set the contact of {Words.Quote(moving[0])} so that it breaks before it makes, in the middle of the throw, when no blade touches.";
        }

        return FrogGaps.First(meeting) is { } rail
            ? $"Cut a gap in the rail {Words.Quote(rail)}, just beyond the frog."
            : "Cut a gap in the rail along the path where it should not conduct.";
    }
}
