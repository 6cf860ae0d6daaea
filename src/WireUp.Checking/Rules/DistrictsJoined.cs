using WireUp.Rails;

namespace WireUp.Checking.Rules;

/// <summary>
/// Two districts whose rails are joined. With both legs joined neither breaker can protect alone, which is an error; with one leg
/// joined the other still separates them, which is a warning.
/// </summary>
internal sealed class DistrictsJoined : Rule
{
    internal override FindingDescriptor Descriptor { get; } =
        Describe.Practice("WU3004", Severity.Error, "Two districts are not kept apart");

    internal override IEnumerable<Finding> Check(CheckContext context)
    {
        var pairs = context.Polarity.Standing.Concat(context.Polarity.ByPosition)
            .Where(meeting => meeting.Kind == MeetingKind.Joined && TrainSupplies.AreBoth(context, meeting) && !TrainSupplies.AreCabs(context, meeting))
            .GroupBy(meeting => Words.InOrder(meeting.From.District, meeting.To.District));
        foreach (var pair in pairs)
        {
            List<RailMeeting> standing = [.. pair.Where(meeting => meeting.Turnouts.IsEmpty)];
            bool both = standing.Select(meeting => meeting.From.Leg).Distinct().Count() == 2;
            RailMeeting shown = standing.FirstOrDefault() ?? pair.First();
            string when = shown.Turnouts.IsEmpty ? "" : $" {Words.When(shown.Turnouts)}";
            yield return Say(
                $"Districts {Words.Quote(pair.Key.First)} and {Words.Quote(pair.Key.Second)} are joined by {(both ? "both rails" : "a rail")}{when}, between feeders {Words.Quote(shown.From.Feeder)} and {Words.Quote(shown.To.Feeder)}.",
                Border.Remedy(context, shown, $"Cut gaps in both rails between {Words.Quote(shown.From.Feeder)} and {Words.Quote(shown.To.Feeder)}, at one place."),
                pair.Key.First, pair.Key.Second) with
            {
                Severity = both ? Severity.Error : Severity.Warning,
                Path = Words.Path(shown),
                Turnouts = shown.Turnouts,
            };
        }
    }
}
