using WireUp.Layouts;
using WireUp.Rails;

namespace WireUp.Checking.Rules;

/// <summary>
/// Track that has current only while a turnout is set for it. Under direct control that is often wanted, to park an engine; under
/// command control sound and light go out, and the blades alone carry the current. Track behind a hand switch, a feeder's own contact or
/// a bridge that can be lifted out is switched on purpose.
/// </summary>
internal sealed class SwitchedTrackRule : Rule
{
    internal override FindingDescriptor Descriptor { get; } =
        Describe.Practice("WU3013", Severity.Advice, "Track has current in some turnout positions only");

    internal override IEnumerable<Finding> Check(CheckContext context) => context.Layout.Control != ControlSystem.Command
        ? []
        : context.Polarity.Switched
            .Where(track => !track.LiveWhen.IsEmpty && track.DeadWhen is not null && !track.LiveWhen.All(setting => OnPurpose.Is(context.Layout, new(setting.Key, setting.Value))))
            .GroupBy(track => Words.Set(track.LiveWhen))
            .Select(Tell);

    private Finding Tell(IGrouping<string, SwitchedTrack> group)
    {
        List<string> sections = [.. group.Select(track => track.Section.ToString()).Distinct()];
        return Say(
            $"{Words.List(sections)} {(sections.Count == 1 ? "has" : "have")} current only while {group.Key}, through its blades.",
            $"Put a feeder at {Words.Quote(sections[0])}, beyond gaps in the rails that come from the frogs.",
            sections) with
        {
            Turnouts = group.First().LiveWhen,
        };
    }
}
