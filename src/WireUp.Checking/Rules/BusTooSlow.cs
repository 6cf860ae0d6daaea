using WireUp.Circuits.Devices;
using WireUp.Circuits.Signals;

namespace WireUp.Checking.Rules;

/// <summary>
/// A bus whose inductance holds the command signal back: with the district's load at its end, the signal takes more than a tenth of its
/// shortest half bit to turn over, or turns over more slowly than a decoder must accept.
/// </summary>
internal sealed class BusTooSlow : Rule
{
    internal override FindingDescriptor Descriptor { get; } = new(
        "WU4011", Severity.Warning, "A bus is too slow for the command signal",
        "NMRA S-9.1 (2020) for the length of the half bit and the slew; that the bus may take a tenth of it is common practice, no published source");

    internal override IEnumerable<Finding> Check(CheckContext context) =>
        from district in context.Protection.Districts
        let end = district.Ends.FirstOrDefault(end => !end.IsFastEnough)
        where end is not null
        select Of(district, end);

    private Finding Of(DistrictProtection district, BusEnd end)
    {
        bool isSlew = end.Slew < end.AllowedSlew;
        string limit = isSlew
            ? $"it passes from -4 to +4 V at {Words.Say(end.Slew.VoltsPerMicroseconds)} V/us, and decoders must accept {Words.Say(end.AllowedSlew.VoltsPerMicroseconds)} V/us or more only"
            : $"a tenth of the shortest half bit is {Words.Say(end.AllowedTime.Microseconds)} us";
        return Say(
            $"At {Words.Quote(end.End)}, {Words.Say(end.Length)} along the bus of district {Words.Quote(district.District)}, {Words.Say(end.Inductance.Microhenries)} uH hold the signal back by {Words.Say(end.LoadTime.Microseconds)} us under the design load: {limit}.",
            "Lay the two wires of the bus together or twist them, shorten the bus, or give its far part a district of its own.",
            end.End, district.District) with
        {
            Severity = isSlew ? Severity.Warning : Severity.Advice,
        };
    }
}
