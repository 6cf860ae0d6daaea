using System.Collections.Immutable;
using WireUp.Layouts.Reference;

namespace WireUp.Planning.Devices;

/// <summary>The settings at which the breakers to choose from trip.</summary>
/// <param name="TripAmps">The settings in ampere, ascending, at least one.</param>
internal sealed record BreakerSizes(ImmutableArray<double> TripAmps)
{
    /// <summary>The usual ones.</summary>
    public static readonly BreakerSizes Usual = new([.. DeviceTable.BreakerTrips.Select(trip => trip.Amperes)]);

    // Lengths of districts are rounded to millimetres; what that does to a load is no reason for the next breaker step.
    private const double RoundingAmps = 0.005;

    /// <summary>Those on hand, or the usual ones where nothing is said of any.</summary>
    public static BreakerSizes Of(PlanOptions options) =>
        options.Breakers.IsEmpty ? Usual : new([.. options.Breakers.Select(trip => trip.Amperes).Distinct().Order()]);

    /// <summary>
    /// The highest setting at most 0.8 of a booster's rating and not above the scale's ceiling, in ampere; the lowest there is where none is
    /// low enough.
    /// </summary>
    public double MostBehind(double boosterAmps, double ceilingAmps) => TripAmps
        .Where(trip => trip <= Math.Min(boosterAmps * Constants.BreakerOverBooster.Value, ceilingAmps) + 1e-9)
        .DefaultIfEmpty(TripAmps[0])
        .Max();

    /// <summary>
    /// The lowest setting of at least 1.5 times a district's design load, and no less than trains that meet there draw, in ampere; the
    /// highest there is where none is enough.
    /// </summary>
    public double For(double loadAmps, double meetingAmps) => TripAmps.FirstOrDefault(
        trip => trip >= Math.Max(loadAmps * Constants.TripOverWorking.Value, meetingAmps) - RoundingAmps, TripAmps[^1]);
}
