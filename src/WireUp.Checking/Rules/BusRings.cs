namespace WireUp.Checking.Rules;

/// <summary>
/// A bus at whose end the edges of the command signal ring up to more than decoders must survive, as far as nothing damps them. Whether
/// that ever does harm is disputed, so it is advice.
/// </summary>
internal sealed class BusRings : Rule
{
    internal override FindingDescriptor Descriptor { get; } = new(
        "WU4015", Severity.Advice, "The signal rings at the end of a bus",
        "NMRA S-9.1 (2020) for the volts that decoders must survive; the edge of a booster and the capacitance of a decoder are common practice, no published source");

    internal override IEnumerable<Finding> Check(CheckContext context) =>
        from district in context.Protection.Districts
        let end = district.Ends.Where(end => !end.IsCalm).MaxBy(end => end.Peak)
        where end is not null
        select Say(
            $"At {Words.Quote(end.End)}, {Words.Say(end.Length)} along the bus of district {Words.Quote(district.District)}, each edge of the signal can ring at {Words.Say(end.Ring.Megahertz)} MHz up to {Words.Say(end.Peak)} while no train damps it; decoders must survive {Words.Say(end.Survives)}.",
            $"Keep the two wires of the bus together, twisted if you can; opinions on terminators are split, but {Words.Say(end.Terminator.Resistor)} ({Words.Say(end.Terminator.Rating)}) in series with {Words.Say(end.Terminator.Capacitor)} at {Words.Quote(end.End)} would bring it down to {Words.Say(end.PeakTerminated)}.",
            end.End, district.District);
}
