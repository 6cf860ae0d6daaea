namespace WireUp.Checking.Rules;

/// <summary>A breaker that lets more current into a short than the scale's rolling stock should meet.</summary>
internal sealed class TripAboveCeiling : Rule
{
    internal override FindingDescriptor Descriptor { get; } =
        Describe.Practice("WU4006", Severity.Warning, "A breaker trips above what is usual for the scale");

    internal override IEnumerable<Finding> Check(CheckContext context) =>
        from district in context.Wiring.Districts
        where district.Trip > context.Scale.TripCeiling
        select Say(
            $"The breaker of district {Words.Quote(district.Name)} trips at {Words.Say(district.Trip)}, above the {Words.Say(context.Scale.TripCeiling)} that are usual at most in scale {context.Scale.Name}.",
            $"Set the breaker of {Words.Quote(district.Name)} to {Words.Say(context.Scale.TripCeiling)} or less, and divide the district if that does not suffice.",
            district.Name);
}
