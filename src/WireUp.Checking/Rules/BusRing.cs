using WireUp.Layouts;
using WireUp.Rails;

namespace WireUp.Checking.Rules;

/// <summary>A bus that closes a ring under command control: the signal comes round by two ways, and a fault cannot be halved.</summary>
internal sealed class BusRing : Rule
{
    internal override FindingDescriptor Descriptor { get; } =
        Describe.Practice("WU5002", Severity.Advice, "A bus closes a ring under command control");

    internal override IEnumerable<Finding> Check(CheckContext context) =>
        from bus in context.Layout.Control == ControlSystem.Command ? context.Wiring.Buses : []
        from run in Closing(bus)
        select Say(
            $"The run from {Words.Quote(run.From)} to {Words.Quote(run.To)} closes a ring in the bus of district {Words.Quote(bus.District)}.",
            $"Leave the ring open: take out the run from {Words.Quote(run.From)} to {Words.Quote(run.To)}, or the one farthest from the booster.",
            run.From, run.To);

    private static IEnumerable<BusRun> Closing(Bus bus)
    {
        Dictionary<string, int> numbers = [];
        DisjointSetsWorkspace joined = new(2 * bus.Runs.Length);
        foreach (BusRun run in bus.Runs)
        {
            if (!joined.Join(NumberOf(run.From), NumberOf(run.To)))
            {
                yield return run;
            }
        }

        int NumberOf(string point) => numbers.TryGetValue(point, out int number) ? number : numbers[point] = numbers.Count;
    }
}
