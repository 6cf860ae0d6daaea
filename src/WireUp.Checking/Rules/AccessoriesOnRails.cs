using WireUp.Layouts;

namespace WireUp.Checking.Rules;

/// <summary>
/// Power for accessories that reaches rails, or shares a side with power for trains. The two are kept apart so that a short on the track
/// leaves the points working, and so that no lamp or motor feeds back into the rails.
/// </summary>
internal sealed class AccessoriesOnRails : Rule
{
    internal override FindingDescriptor Descriptor { get; } =
        Describe.Practice("WU5003", Severity.Error, "Power for accessories is not kept apart from the rails");

    internal override IEnumerable<Finding> Check(CheckContext context) =>
        context.Wiring.Districts.Where(district => district.Use == DistrictUse.Accessories)
            .SelectMany(district => (IEnumerable<Finding>)[.. OnRails(context, district), .. Shared(context, district)]);

    private IEnumerable<Finding> OnRails(CheckContext context, District district) =>
        from feeder in context.Wiring.Feeders
        where feeder.District == district.Name
        select Say(
            $"Feeder {Words.Quote(feeder.Name)} brings district {Words.Quote(district.Name)}, which is for accessories, to the rails at {Words.Quote(feeder.At)}.",
            $"Take feeder {Words.Quote(feeder.Name)} off the rails, or tap it from the bus of the district that runs trains there.",
            feeder.Name, district.Name);

    /// <summary>Under command control one booster may serve both, each behind its own breaker; a cab's volts come and go with its train.</summary>
    private IEnumerable<Finding> Shared(CheckContext context, District district)
    {
        Booster? own = context.Wiring.Boosters.FirstOrDefault(booster => booster.Name == district.Booster);
        District? running = context.Wiring.Districts.FirstOrDefault(other => other.Use == DistrictUse.Running && IsShared(context, own, other));
        if (own is not null && running is not null && context.Layout.Control != ControlSystem.Command)
        {
            yield return Say(
                $"District {Words.Quote(district.Name)}, which is for accessories, shares {(running.Booster == own.Name ? $"controller {Words.Quote(own.Name)}" : "a side of its output")} with district {Words.Quote(running.Name)}, which runs trains.",
                $"Give {Words.Quote(district.Name)} a supply of its own, isolated from those of the trains.",
                district.Name, running.Name) with
            {
                Severity = Severity.Warning,
            };
        }
    }

    private static bool IsShared(CheckContext context, Booster? own, District running) => running.Booster == own?.Name
        || (own is { Isolated: false } && context.Wiring.Boosters.Any(booster => booster.Name == running.Booster && !booster.Isolated));
}
