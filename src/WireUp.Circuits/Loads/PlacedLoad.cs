using UnitsNet;
using WireUp.Layouts;

namespace WireUp.Circuits;

/// <summary>A load that somebody puts on the rails.</summary>
/// <param name="At">The place.</param>
/// <param name="Demand">What it draws.</param>
public sealed record PlacedLoad(TrackPlace At, LoadDemand Demand)
{
    /// <summary>A load of constant current.</summary>
    /// <param name="at">The place.</param>
    /// <param name="current">The current, ampere; 0 or more.</param>
    public PlacedLoad(TrackPlace at, ElectricCurrent current)
        : this(at, new LoadDemand.Current(current))
    {
    }

    /// <summary>A locomotive of the stock that runs at a place, or the lit cars and all locomotives of a train.</summary>
    /// <param name="at">The place; of a train all of it.</param>
    /// <param name="name">Name of the locomotive or train.</param>
    /// <param name="layout">The layout; the currents of its stock are meant at the open-circuit volts of its first booster.</param>
    /// <returns>One load an engine, and one for the lit cars; empty where there is no such locomotive or train.</returns>
    public static IEnumerable<PlacedLoad> OfStock(TrackPlace at, string name, Layout layout)
    {
        Stock stock = layout.Stock;
        Train? train = stock.Trains.FirstOrDefault(train => train.Name == name);
        IEnumerable<string> engines = train is null ? [name] : train.Locomotives;
        foreach (Locomotive engine in engines.SelectMany(wanted => stock.Locomotives.Where(kind => kind.Name == wanted).Take(1)))
        {
            yield return new(at, LoadDemand.Of(engine.Draw, engine.Running, layout));
        }

        if (train is { LitCars: > 0 })
        {
            yield return new(at, train.LitCars * train.LitCarCurrent);
        }
    }
}

/// <summary>What a load draws.</summary>
public abstract record LoadDemand
{
    private LoadDemand()
    {
    }

    /// <summary>The same current at any volts.</summary>
    /// <param name="Amps">The current, 0 or more.</param>
    public sealed record Current(ElectricCurrent Amps) : LoadDemand;

    /// <summary>The same power at any volts: more current as the volts drop.</summary>
    /// <param name="Watts">The power, 0 or more.</param>
    public sealed record Power(UnitsNet.Power Watts) : LoadDemand;

    /// <summary>Current in proportion to the volts.</summary>
    /// <param name="Ohms">The resistance, above 0.</param>
    public sealed record Resistance(ElectricResistance Ohms) : LoadDemand;

    internal static LoadDemand Of(LoadKind kind, ElectricCurrent atTrackVolts, Layout layout)
    {
        ElectricPotential volts = layout.Wiring.Boosters.IsEmpty
            ? Layouts.Reference.ScaleTable.FindOrUsual(layout.Scale).TrackVolts(layout.Control)
            : layout.Wiring.Boosters[0].Volts;
        return kind switch
        {
            LoadKind.Power => new Power(volts * atTrackVolts),
            LoadKind.Resistance when atTrackVolts.Amperes > 0 => new Resistance(volts / atTrackVolts),
            _ => new Current(atTrackVolts),
        };
    }
}
