using System.Collections.Immutable;
using WireUp.Layouts;
using WireUp.Layouts.Reference;

namespace WireUp.Checking.Rules;

/// <summary>
/// A breaker that does not act before the booster behind it, so that one short stops every district. A booster with one district only
/// has nothing to tell apart.
/// </summary>
internal sealed class Discrimination : Rule
{
    internal override FindingDescriptor Descriptor { get; } =
        Describe.Practice("WU4007", Severity.Warning, "A breaker does not act before its booster");

    internal override IEnumerable<Finding> Check(CheckContext context)
    {
        double factor = Constants.Get("breaker-over-booster").Value;
        return from booster in context.Wiring.Boosters
               let districts = context.Wiring.Districts.Where(district => district.Booster == booster.Name).ToImmutableArray()
               where districts.Length > 1
               from district in districts
               where Limit.IsBelow(factor * booster.Amps.Amperes, district.Trip.Amperes)
               select Of(booster, district, factor);
    }

    private Finding Of(Booster booster, District district, double factor) => Say(
        $"The breaker of district {Words.Quote(district.Name)} trips at {Words.Say(district.Trip)}, more than {Words.Say(factor)} times the {Words.Say(booster.Amps)} at which its booster {Words.Quote(booster.Name)} shuts down.",
        $"Set the breaker of {Words.Quote(district.Name)} to {Words.Say(booster.Amps * factor)} or less.",
        district.Name, booster.Name) with
    {
        Severity = district.Trip < booster.Amps ? Severity.Advice : Severity.Warning,
    };
}
