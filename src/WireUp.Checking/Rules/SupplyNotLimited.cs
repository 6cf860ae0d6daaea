using WireUp.Layouts;

namespace WireUp.Checking.Rules;

/// <summary>
/// A supply that can put more energy into a fault than the published classes of limited supplies allow. No advice is given on anything
/// on the mains side.
/// </summary>
internal sealed class SupplyNotLimited : Rule
{
    internal override FindingDescriptor Descriptor { get; } = new(
        "WU5001",
        Severity.Advice,
        "A supply is not energy-limited",
        "NFPA 70 (National Electrical Code) article 725 and chapter 9 table 11(A), class 2; NEM 609 (2010) after IEC 61558-2-7");

    internal override IEnumerable<Finding> Check(CheckContext context) =>
        from booster in context.Wiring.Boosters
        join supply in context.Wiring.Supplies on booster.Supply equals supply.Name
        where supply.Class == SupplyClass.Other
        select Say(
            $"Supply {Words.Quote(supply.Name)} of booster {Words.Quote(booster.Name)} ({Words.Say(supply.Output)}, {Words.Say((double)supply.Rating.Watts)} {(supply.Alternating ? "VA" : "W")}) is not energy-limited.",
            "Prefer an enclosed, listed supply with energy-limited output; with any other, protect every wire behind it for its own current, follow local codes, and leave the mains side to a licensed electrician.",
            supply.Name, booster.Name);
}
