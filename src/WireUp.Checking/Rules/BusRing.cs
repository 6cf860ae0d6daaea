using WireUp.Layouts;

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
        Dictionary<string, string> towards = [];
        string Root(string point)
        {
            while (towards.TryGetValue(point, out string? next))
            {
                point = next;
            }

            return point;
        }

        foreach (BusRun run in bus.Runs)
        {
            (string from, string to) = (Root(run.From), Root(run.To));
            if (from == to)
            {
                yield return run;
            }
            else
            {
                towards[to] = from;
            }
        }
    }
}
