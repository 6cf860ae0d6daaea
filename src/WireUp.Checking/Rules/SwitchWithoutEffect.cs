using System.Collections.Immutable;
using WireUp.Layouts;

namespace WireUp.Checking.Rules;

/// <summary>A hand switch in the file that no feeder and no gap names: it was forgotten in the wiring, or is left over.</summary>
internal sealed class SwitchWithoutEffect : Rule
{
    internal override FindingDescriptor Descriptor { get; } =
        Describe.Practice("WU5006", Severity.Advice, "A hand switch switches nothing");

    internal override IEnumerable<Finding> Check(CheckContext context)
    {
        ImmutableHashSet<PieceId> used =
        [
            .. context.Wiring.Feeders.Select(feeder => feeder.When).Concat(context.Wiring.Gaps.Select(gap => gap.BridgedWhen))
                .OfType<Setting>().Select(setting => setting.Owner),
        ];
        return from item in context.Wiring.Switches
               where !used.Contains(item.Name)
               select Say(
                   $"No feeder and no gap says in which position of switch {Words.Quote(item.Name)} it conducts.",
                   $"Add the position to what {Words.Quote(item.Name)} switches, or take it out of the list.",
                   item.Name.ToString());
    }
}
