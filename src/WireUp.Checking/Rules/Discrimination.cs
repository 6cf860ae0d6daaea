using System.Collections.Immutable;
using UnitsNet;
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

    internal override IEnumerable<Finding> Check(CheckContext context) =>
        from booster in context.Wiring.Boosters
        let districts = context.Wiring.Districts.Where(district => district.Booster == booster.Name).ToImmutableArray()
        where districts.Length > 1
        from district in districts
        from finding in Of(context, booster, district)
        select finding;

    private IEnumerable<Finding> Of(CheckContext context, Booster booster, District district)
    {
        double factor = Constants.Get("breaker-over-booster").Value;
        if (district.Trip.Amperes > (factor * booster.Amps.Amperes) + 1e-9)
        {
            yield return Say(
                $"The breaker of district {Words.Quote(district.Name)} trips at {Words.Say(district.Trip)}, more than {Words.Say(factor)} times the {Words.Say(booster.Amps)} at which its booster {Words.Quote(booster.Name)} shuts down.",
                $"Set the breaker of {Words.Quote(district.Name)} to {Words.Say(booster.Amps * factor)} or less.",
                district.Name, booster.Name) with
            {
                Severity = district.Trip < booster.Amps ? Severity.Advice : Severity.Warning,
            };
            yield break;
        }

        ElectricCurrent others = SharedLoad.Of(
            context,
            context.Districts.Where(each => each.Booster == booster.Name && each.District != district.Name).Select(each => each.District));
        if (district.Trip + others > booster.Amps)
        {
            yield return Say(
                $"While the other districts of booster {Words.Quote(booster.Name)} draw {Words.Say(others)}, a short in {Words.Quote(district.Name)} reaches the booster's {Words.Say(booster.Amps)} before the breaker's {Words.Say(district.Trip)}.",
                $"Give {Words.Quote(district.Name)} a breaker that is at least twice as fast as the booster, or fewer districts to the booster.",
                district.Name, booster.Name) with
            {
                Severity = Severity.Advice,
            };
        }
    }
}
