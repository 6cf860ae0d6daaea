using WireUp.Layouts;
using WireUp.Layouts.Reference;

namespace WireUp.Planning.Reversing;

/// <summary>The lengths that rule where gaps go, in metres.</summary>
/// <param name="Frog">Nearest a gap may come to a turnout or crossing.</param>
/// <param name="Clear">Distance from a heel to the clearance point as asked for, or null to reckon it from the turnout.</param>
/// <param name="Gauge">Distance between the rails.</param>
/// <param name="Buffer">Shortest track between two reversing sections.</param>
/// <param name="Required">Shortest drive between two gaps that want the section in opposite polarity.</param>
/// <param name="Train">The longest train.</param>
/// <param name="JointReach">How much farther a joiner may be.</param>
/// <param name="RailEnd">Nearest a cut may come to a joint.</param>
internal sealed record Clearances(
    double Frog, double? Clear, double Gauge, double Buffer, double Required, double Train, double JointReach, double RailEnd)
{
    /// <summary>Tracks this many gauges apart, centre to centre, pass clear of each other: common practice, no published source.</summary>
    private const double GaugesApart = 3;

    internal static Clearances Of(Layout layout, ReversingOptions options)
    {
        double wheelBase = layout.Stock.Locomotives
            .Select(locomotive => locomotive.Pickup.Meters)
            .Append(layout.ShortestPickup.Meters)
            .Max();
        double frog = options.FrogClearance?.Meters ?? wheelBase;
        double train = layout.Stock.Trains.Select(one => one.Length.Meters).Append(layout.LongestTrain.Meters).Max();
        return new(
            frog,
            options.ClearancePoint?.Meters,
            ScaleTable.Get(layout.Scale).Gauge.Meters,
            options.Buffer?.Meters ?? 2 * wheelBase,
            (1 + options.LengthMargin.DecimalFractions) * train,
            train,
            options.JointReach.Meters,
            options.ShortestRailEnd.Meters);
    }

    /// <summary>
    /// How far from a tip gaps go when there is room: beyond the clearance point of a leg, one wheel base off the points. A leg
    /// leaves one unit in so many as its frog number says, and the two are a gauge apart where the frog is.
    /// </summary>
    internal double ClearOf(RunMap map, Tip tip) => map.PortAt(tip) switch
    {
        null => 0,
        { } port when map.Junctions[port.Junction].NumberBeside(port.Index) is { } number =>
            Math.Max(Frog, Clear ?? (GaugesApart - 1) * Gauge * number),
        _ => Frog,
    };

    internal Clearances ForTrain(double train) => this with { Train = train, Required = Required / Train * train };
}
