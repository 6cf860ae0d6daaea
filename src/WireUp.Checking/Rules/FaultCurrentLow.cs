using WireUp.Layouts.Reference;

namespace WireUp.Checking.Rules;

/// <summary>A short trips the breaker today, but with so little to spare that one tired joint prevents it.</summary>
internal sealed class FaultCurrentLow : Rule
{
    internal override FindingDescriptor Descriptor { get; } =
        Describe.Practice("WU4002", Severity.Warning, "The current of a short is close to the trip current");

    internal override IEnumerable<Finding> Check(CheckContext context) =>
        from district in context.Districts
        where district.CoinTestPasses && Limit.IsBelow(district.FaultOverTrip, Constants.FaultOverTripGood.Value)
        let worst = district.LowestFault
        select Say(
            $"A coin across the rails at {Words.Quote(worst.At)} draws {Words.Say(worst.FaultCurrent)}, only {Words.Say(district.FaultOverTrip)} times the {Words.Say(district.Trip)} at which district {Words.Quote(district.District)} trips; {Words.Say(Constants.FaultOverTripGood.Value)} times is good practice.",
            $"Put a feeder near {Words.Quote(worst.At)}, or thicker wire from the booster to it.",
            worst.At.ToString(), district.District) with
        {
            Severity = Limit.IsBelow(district.FaultOverTrip, Constants.Get("fault-over-trip-low").Value) ? Severity.Warning : Severity.Advice,
        };
}
