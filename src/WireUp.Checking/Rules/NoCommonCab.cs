using System.Collections.Immutable;
using WireUp.Layouts;
using WireUp.Rails;

namespace WireUp.Checking.Rules;

/// <summary>
/// A gap that no train can cross under one cab: whatever way the switches stand, one cab has the one side and another the other. Where a
/// selector can put both sides on one cab it is for the operator to do so before the train crosses, and nothing is said.
/// </summary>
internal sealed class NoCommonCab : Rule
{
    internal override FindingDescriptor Descriptor { get; } =
        Describe.Practice("WU3020", Severity.Warning, "A train has to pass from one cab to another");

    internal override IEnumerable<Finding> Check(CheckContext context) =>
        from border in context.Layout.Control == ControlSystem.Direct ? context.Cabs.Borders : []
        where !border.HasCommonCab && !border.Meetings.IsEmpty
        let place = border.At.ToString()!
        select Say(
            $"A train that crosses the gap {Words.Quote(place)} always passes from {Names(border.Near)} to {Names(border.Far)}: no switch puts both sides on one cab.",
            $"Give the track on one side of {Words.Quote(place)} a selector switch with a feeder from each cab.",
            place);

    private static string Names(ImmutableArray<CabFeed> cabs)
    {
        ImmutableArray<string> names = [.. cabs.Select(cab => cab.Booster).Distinct()];
        return $"cab{(names.Length == 1 ? "" : "s")} {Words.List(names)}";
    }
}
