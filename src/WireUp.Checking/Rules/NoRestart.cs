using WireUp.Circuits.Devices;

namespace WireUp.Checking.Rules;

/// <summary>
/// A breaker or booster that opens again each time it closes, because the locomotives behind it fill their capacitors all at once.
/// </summary>
internal sealed class NoRestart : Rule
{
    internal override FindingDescriptor Descriptor { get; } =
        Describe.Practice("WU4014", Severity.Warning, "Power does not come back after a short");

    internal override IEnumerable<Finding> Check(CheckContext context)
    {
        foreach (DistrictProtection district in context.Protection.Districts)
        {
            if (district.Restart is { } restart && Of($"the breaker of district {Words.Quote(district.District)}", district.District, restart) is { } finding)
            {
                yield return finding;
            }
        }

        foreach (BoosterRestart booster in context.Protection.Boosters)
        {
            // A train that no breaker lets start is named there already.
            if (Of($"booster {Words.Quote(booster.Booster)}", booster.Booster, booster.Restart with { TrainThatCannot = null }) is { } finding)
            {
                yield return finding;
            }
        }
    }

    private Finding? Of(string device, string name, RestartVerdict restart)
    {
        if (restart.TrainThatCannot is { } train)
        {
            return Say(
                $"When {device} closes again with train {Words.Quote(train)} alone behind it, its capacitors and lights draw so much that it opens again.",
                "Let it wait longer after closing, or raise its trip current if wires and booster allow it.",
                name, train);
        }

        return restart.OpensAfter is { } opens
            ? Say(
                $"When {device} closes again, {Words.Count(restart.Expected, "locomotive")} with empty capacitors draw {Words.Say(restart.First)} at first, and it opens again after {Words.Say(opens)}; it can restart {restart.Most}.",
                "Let fewer locomotives stand behind it, switch off storage roads, or wake them in stages; failing that let the device wait longer after closing, or lay a lamp across the breaker, which keeps a little current flowing in a short.",
                name) with
            {
                Severity = Severity.Advice,
            }
            : null;
    }
}
