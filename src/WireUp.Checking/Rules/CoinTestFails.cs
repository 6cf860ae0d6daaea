namespace WireUp.Checking.Rules;

/// <summary>A short at the worst place draws less than the trip current: the breaker lets it burn.</summary>
internal sealed class CoinTestFails : Rule
{
    internal override FindingDescriptor Descriptor { get; } =
        Describe.Physics("WU4001", Severity.Error, "A coin across the rails does not trip the breaker");

    internal override IEnumerable<Finding> Check(CheckContext context) =>
        from district in context.Districts
        where !district.CoinTestPasses
        let worst = district.LowestFault
        select Say(
            $"A coin across the rails at {Words.Quote(worst.At)} draws {Words.Say(worst.FaultCurrent)}, and the breaker of district {Words.Quote(district.District)} trips at {Words.Say(district.Trip)}.",
            $"Put a feeder near {Words.Quote(worst.At)}, or thicker wire from the booster to it.",
            worst.At.ToString(), district.District);
}
