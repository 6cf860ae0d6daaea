using System.Collections.Immutable;
using System.Globalization;
using WireUp.Circuits;
using WireUp.Layouts;
using WireUp.Layouts.Reference;

namespace WireUp.Planning.Devices;

/// <summary>What a railway draws at one time, in ampere.</summary>
/// <param name="Total">Working current with the margin for growth.</param>
/// <param name="Working">Working current without it.</param>
/// <param name="Heaviest">Current of the heaviest train, which may stand in any district.</param>
internal readonly record struct LoadAmps(double Total, double Working, double Heaviest)
{
    /// <summary>The load that the circuit solver lays on the rails, by the same rule.</summary>
    public static LoadAmps Of(Layout layout)
    {
        DesignLoad load = DesignLoad.Of(layout);
        return new(load.Total.Amperes, load.Working.Amperes, load.HeaviestTrain.Amperes);
    }

    /// <summary>Design load of a district with a share of the fed track, 0 to 1.</summary>
    public double ForShare(double share) => Math.Max(Total * share, Heaviest);
}

/// <summary>Which boosters and breakers the load asks for, in ampere.</summary>
/// <param name="Load">What the railway draws.</param>
/// <param name="BoosterAmps">Rated current of each new booster.</param>
/// <param name="MostTripAmps">Highest breaker setting allowed behind such a booster on this scale.</param>
internal sealed record PowerSizing(LoadAmps Load, double BoosterAmps, double MostTripAmps)
{
    /// <summary>Largest design load of one district.</summary>
    public double MostDistrictAmps => MostTripAmps / Constants.TripOverWorking.Value;

    /// <summary>Working current that one booster may carry.</summary>
    public double MostBoosterAmps => BoosterAmps * Constants.BoosterLoading.Value;

    /// <summary>How many such boosters the whole load asks for.</summary>
    public int BoosterCount => (int)Math.Ceiling((Load.Total / MostBoosterAmps) - 1e-9);

    /// <summary>Largest share of the fed track that one district can take, above 0; 1 where the whole railway can be one district.</summary>
    public double MostShare => Load.Heaviest > MostDistrictAmps ? 0 : Math.Min(1, MostDistrictAmps / Load.Total);

    /// <summary>
    /// Sizes for a layout: the smallest booster behind which one breaker can carry everything; else the smallest that carries
    /// everything; else as many as are needed of the largest that suits the scale.
    /// </summary>
    public static PowerSizing Of(Layout layout, LoadAmps load)
    {
        double ceiling = (ScaleTable.Find(layout.Scale) ?? ScaleTable.Get("HO")).TripCeiling.Amperes;
        ImmutableArray<double> ratings = [.. DeviceTable.BoosterRatings.Select(rating => rating.Amperes)];
        double[] suited = [.. ratings.Where(rating => rating <= ceiling)];
        PowerSizing[] sizes = [.. (suited.Length > 0 ? suited : [ratings[0]]).Select(Sized)];
        return sizes.FirstOrDefault(size => size is { BoosterCount: 1, MostShare: 1 })
            ?? sizes.FirstOrDefault(size => size.BoosterCount == 1 && size.MostDistrictAmps >= load.Heaviest)
            ?? sizes.LastOrDefault(size => size.MostDistrictAmps >= load.Heaviest)
            ?? ratings.Select(Sized).FirstOrDefault(size => size.MostDistrictAmps >= load.Heaviest)
            ?? sizes[^1];

        PowerSizing Sized(double rating) => new(load, rating, MostTrip(rating, ceiling));
    }

    // Lengths of districts are rounded to millimetres; what that does to a load is no reason for the next breaker step.
    private const double RoundingAmps = 0.005;

    /// <summary>The highest breaker setting at most 0.8 of a booster's rating and not above the scale's ceiling, in ampere.</summary>
    public static double MostTrip(double boosterAmps, double ceilingAmps) => DeviceTable.BreakerTrips
        .Select(trip => trip.Amperes)
        .Where(trip => trip <= Math.Min(boosterAmps * Constants.BreakerOverBooster.Value, ceilingAmps) + 1e-9)
        .DefaultIfEmpty(DeviceTable.BreakerTrips[0].Amperes)
        .Max();

    /// <summary>The lowest breaker setting of at least 1.5 times a district's load, in ampere; the highest there is where none is enough.</summary>
    public static double TripFor(double loadAmps) => DeviceTable.BreakerTrips
        .Select(trip => trip.Amperes)
        .FirstOrDefault(trip => trip >= (loadAmps * Constants.TripOverWorking.Value) - RoundingAmps, DeviceTable.BreakerTrips[^1].Amperes);

    /// <summary>The count of boosters with the numbers put in.</summary>
    public ImmutableArray<string> Working =>
    [
        Invariant($"load of the railway with {Constants.GrowthMargin.Value:P0} for growth = {Load.Total:0.00} A"),
        Invariant($"boosters = load / ({Constants.BoosterLoading.Value} × {BoosterAmps:0.#} A) = {Load.Total / MostBoosterAmps:0.00}, rounded up: {BoosterCount}"),
        Invariant($"largest district = {MostTripAmps:0.#} A trip / {Constants.TripOverWorking.Value} = {MostDistrictAmps:0.00} A"),
    ];

    private static string Invariant(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
