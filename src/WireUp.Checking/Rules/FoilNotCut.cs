using WireUp.Layouts;
using WireUp.Rails;

namespace WireUp.Checking.Rules;

/// <summary>Copper foil of a hand-laid turnout that joins what it must not, zone by zone.</summary>
internal sealed class FoilNotCut : Rule
{
    internal override FindingDescriptor Descriptor { get; } =
        Describe.Physics("WU2008", Severity.Error, "The copper foil of a hand-laid turnout is not cut");

    internal override IEnumerable<Finding> Check(CheckContext context) =>
        from fault in context.Polarity.FoilFaults
        select Say(
            $"The copper foil of {Words.Quote(fault.Turnout)} is not cut {Where(fault.Zones)} and shorts {When(fault)}.",
            $"Cut the foil of every tie of {Words.Quote(fault.Turnout)} there, and try each cut with a meter.",
            fault.Turnout.ToString());

    private static string When(FoilFault fault) => fault switch
    {
        { Positions.IsEmpty: true } => "always",
        { UnderWheels: true } => $"under a train when the points are set to {fault.Positions[0]}",
        _ => $"when the points are set to {string.Join(" or ", fault.Positions)}",
    };

    private static string Where(TieZones zones) => string.Join(" and ", Enum.GetValues<TieZones>().Where(zone => zone != TieZones.None && zones.HasFlag(zone)).Select(zone => zone switch
    {
        TieZones.Switch => "under the blades",
        TieZones.Closure => "between blades and frog",
        TieZones.FrogLeft => "between the frog and the left stock rail",
        TieZones.FrogRight => "between the frog and the right stock rail",
        _ => "between the rails beyond the frog",
    }));
}
