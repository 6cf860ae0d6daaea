using UnitsNet;
using WireUp.Circuits;
using WireUp.Layouts;
using WireUp.Layouts.Reference;

namespace WireUp.Checking.Rules;

/// <summary>A breaker too close to the load it has to carry, or a booster that carries too much.</summary>
internal sealed class Overload : Rule
{
    internal override FindingDescriptor Descriptor { get; } =
        Describe.Practice("WU4005", Severity.Warning, "A breaker or booster is too small for its load");

    internal override IEnumerable<Finding> Check(CheckContext context) =>
        [.. Breakers(context), .. Meetings(context), .. context.Wiring.Boosters.SelectMany(booster => Booster(context, booster))];

    private IEnumerable<Finding> Breakers(CheckContext context)
    {
        double factor = Constants.Get("trip-over-working").Value;
        return from district in context.Districts
               where Limit.IsBelow(district.Trip.Amperes, factor * district.DesignLoad.Amperes)
               select Say(
                   $"District {Words.Quote(district.District)} has to carry {Words.Say(district.DesignLoad)}, and its breaker trips at {Words.Say(district.Trip)}, less than {Words.Say(factor)} times that.",
                   $"Divide district {Words.Quote(district.District)}, or set its breaker to {Words.Say(district.DesignLoad * factor)} or more if wire and booster allow it.",
                   district.District);
    }

    /// <summary>Breakers that suit the rule and trip all the same where trains meet.</summary>
    private IEnumerable<Finding> Meetings(CheckContext context)
    {
        double factor = Constants.Get("trip-over-working").Value;
        return from district in context.Districts
               where !Limit.IsBelow(district.Trip.Amperes, factor * district.DesignLoad.Amperes)
               let meeting = context.Meeting?.OfDistrict(district.District)
               where meeting is not null && meeting.Value > district.Trip + MeetingLoads.Step
               select Say(
                   $"Trains that meet in district {Words.Quote(district.District)} draw up to {Words.Say(meeting.Value)}, and its breaker trips at {Words.Say(district.Trip)}.",
                   $"Divide district {Words.Quote(district.District)}, or set its breaker to {Words.Say(meeting.Value)} or more if wire and booster allow it.",
                   district.District);
    }

    private IEnumerable<Finding> Booster(CheckContext context, Booster booster)
    {
        ElectricCurrent load = SharedLoad.Of(
            context, context.Districts.Where(district => district.Booster == booster.Name).Select(district => district.District));
        if (Limit.IsBelow(Constants.BoosterLoading.Value * booster.Amps.Amperes, load.Amperes))
        {
            yield return Say(
                $"The districts of booster {Words.Quote(booster.Name)} have to carry {Words.Say(load)} together, more than {Words.Say(Constants.BoosterLoading.Value)} times its {Words.Say(booster.Amps)}.",
                $"Give some of the districts of {Words.Quote(booster.Name)} a booster of their own.",
                booster.Name);
        }
        else if (context.Meeting?.OfBooster(booster.Name) is { } meeting && meeting > booster.Amps + MeetingLoads.Step)
        {
            yield return Say(
                $"Trains that meet behind booster {Words.Quote(booster.Name)} draw up to {Words.Say(meeting)} together, more than its {Words.Say(booster.Amps)}.",
                $"Give some of the districts of {Words.Quote(booster.Name)} a booster of their own.",
                booster.Name);
        }
    }
}
