using System.Collections.Immutable;
using UnitsNet;
using WireUp.Circuits;
using WireUp.Layouts;
using WireUp.Layouts.Reference;
using static System.FormattableString;

namespace WireUp.Planning.Devices;

/// <summary>What a railway draws at one time, in ampere.</summary>
/// <param name="Total">Working current with the margin for growth.</param>
/// <param name="Working">Working current without it.</param>
/// <param name="Heaviest">Current of the heaviest train, which may stand in any district.</param>
internal readonly record struct LoadAmps(double Total, double Working, double Heaviest)
{
    /// <summary>The load that the circuit solver lays on the rails, by the same rule: where a cab drives one train at a time it is that train.</summary>
    public static LoadAmps Of(Layout layout)
    {
        DesignLoad load = DesignLoad.Of(layout);
        double one = load.HeaviestTrain.Amperes;
        return load.IsByCab ? new(one, one, one) : new(load.Total.Amperes, load.Working.Amperes, load.HeaviestTrain.Amperes) { Meeting = CoincidentLoad.Of(layout) };
    }

    /// <summary>What trains draw where chance brings them together, or null where that is no more than the heaviest of them.</summary>
    public CoincidentLoad? Meeting { get; init; }

    /// <summary>Design load of a district with a share of the fed track, 0 to 1.</summary>
    public double ForShare(double share) => Math.Max(Total * share, Heaviest);

    /// <summary>What trains that meet draw on a share of the fed track, 0 to 1.</summary>
    public double MeetingOn(double share) => Meeting?.For(share).Amperes ?? 0;

    /// <summary>Largest share of the fed track, 0 to 1, on which trains that meet draw no more than a current.</summary>
    public double MostShareFor(double amps) => Meeting?.MostShare(ElectricCurrent.FromAmperes(amps)) ?? 1;
}

/// <summary>Which boosters and breakers the load asks for, in ampere.</summary>
/// <param name="Load">What the railway draws.</param>
/// <param name="BoosterAmps">Rated current of each new booster.</param>
/// <param name="MostTripAmps">Highest breaker setting allowed behind such a booster on this scale.</param>
/// <param name="Breakers">The breakers to choose from.</param>
internal sealed record PowerSizing(LoadAmps Load, double BoosterAmps, double MostTripAmps, BreakerSizes Breakers)
{
    /// <summary>Largest design load of one district.</summary>
    public double MostDistrictAmps => MostTripAmps / Constants.TripOverWorking.Value;

    /// <summary>Working current that one booster may carry.</summary>
    public double MostBoosterAmps => BoosterAmps * Constants.BoosterLoading.Value;

    /// <summary>Largest share of the fed track that one such booster can carry, above 0.</summary>
    public double MostBoosterShare { get; } = BoosterShare(Load, BoosterAmps);

    /// <summary>How many such boosters the whole load asks for.</summary>
    public int BoosterCount => (int)Math.Ceiling((1 / MostBoosterShare) - 1e-9);

    /// <summary>Largest share of the fed track that one district can take, above 0; 1 where the whole railway can be one district.</summary>
    public double MostShare { get; } = Load.Heaviest > MostTripAmps / Constants.TripOverWorking.Value
        ? 0
        : Math.Min(Math.Min(1, MostTripAmps / Constants.TripOverWorking.Value / Load.Total), Load.MostShareFor(MostTripAmps));

    /// <summary>
    /// Largest share of the fed track that a booster can carry: by rule it works at four fifths of its rating or less, and trains that meet
    /// draw no more than its rating.
    /// </summary>
    public static double BoosterShare(LoadAmps load, double boosterAmps) => Math.Max(
        1e-3, Math.Min(boosterAmps * Constants.BoosterLoading.Value / load.Total, load.MostShareFor(boosterAmps)));

    /// <summary>
    /// Sizes for a layout: the smallest booster behind which one breaker can carry everything; else the smallest that carries
    /// everything; else as many as are needed of the largest that suits the scale.
    /// </summary>
    public static PowerSizing Of(Layout layout, LoadAmps load, BreakerSizes breakers)
    {
        double ceiling = ScaleTable.FindOrUsual(layout.Scale).TripCeiling.Amperes;
        ImmutableArray<double> ratings = [.. DeviceTable.BoosterRatings.Select(rating => rating.Amperes)];
        double[] suited = [.. ratings.Where(rating => rating <= ceiling)];
        PowerSizing[] sizes = [.. (suited.Length > 0 ? suited : [ratings[0]]).Select(Sized)];
        return sizes.FirstOrDefault(size => size is { BoosterCount: 1, MostShare: 1 })
            ?? sizes.FirstOrDefault(size => size.BoosterCount == 1 && size.MostDistrictAmps >= load.Heaviest)
            ?? sizes.LastOrDefault(size => size.MostDistrictAmps >= load.Heaviest)
            ?? ratings.Select(Sized).FirstOrDefault(size => size.MostDistrictAmps >= load.Heaviest)
            ?? sizes[^1];

        PowerSizing Sized(double rating) => new(load, rating, breakers.MostBehind(rating, ceiling), breakers);
    }

    /// <summary>The count of boosters with the numbers put in.</summary>
    public ImmutableArray<string> Working =>
    [
        Invariant($"load of the railway with {Constants.GrowthMargin.Value:P0} for growth = {Load.Total:0.00} A"),
        Invariant($"by rule: load / ({Constants.BoosterLoading.Value} × {BoosterAmps:0.#} A) = {Load.Total / MostBoosterAmps:0.00} boosters"),
        .. Load.Meeting is null ? (string[])[] :
        [
            Invariant($"trains that meet draw no more than {BoosterAmps:0.#} A for {CoincidentLoad.Part:P0} of the time on {Load.MostShareFor(BoosterAmps):P0} of the track or less"),
        ],
        Invariant($"so one booster carries {MostBoosterShare:P0} of the track at most: boosters = 1 / {MostBoosterShare:0.000}, rounded up: {BoosterCount}"),
        Invariant($"largest district by rule = {MostTripAmps:0.#} A trip / {Constants.TripOverWorking.Value} = {MostDistrictAmps:0.00} A; {MostShare:P0} of the track at most"),
    ];
}
