namespace WireUp.Checking.Rules;

/// <summary>Under the design load some place has fewer volts than the layout allows.</summary>
internal sealed class DropTooLarge : Rule
{
    internal override FindingDescriptor Descriptor { get; } =
        Describe.Practice("WU4003", Severity.Warning, "The voltage drop is above the layout's limit");

    internal override IEnumerable<Finding> Check(CheckContext context) =>
        from district in context.Districts
        let worst = district.LowestVolts
        where Limit.IsBelow(context.Layout.MaxDrop.Percent, worst.Drop.Percent)
        select Say(
            $"Under {Words.Say(district.DesignLoad)} in district {Words.Quote(district.District)} the rails at {Words.Quote(worst.At)} have {Words.Say(worst.Volts)}, a drop of {Words.Say(worst.Drop)}, and the limit is {Words.Say(context.Layout.MaxDrop)}.",
            $"Put a feeder near {Words.Quote(worst.At)}, or thicker wire from the booster to it.",
            worst.At.ToString(), district.District);
}
