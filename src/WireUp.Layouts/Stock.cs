using System.Collections.Immutable;
using UnitsNet;
using WireUp.Layouts.Reference;

namespace WireUp.Layouts;

/// <summary>What runs on the railway.</summary>
public sealed record Stock
{
    /// <summary>Nothing is said about what runs.</summary>
    public static readonly Stock None = new();

    /// <summary>Locomotives, one entry a kind.</summary>
    public ImmutableArray<Locomotive> Locomotives { get; init; } = [];

    /// <summary>Trains.</summary>
    public ImmutableArray<Train> Trains { get; init; } = [];

    /// <summary>How many locomotives move at the same time, or null when all of them may.</summary>
    public int? MovingAtOnce { get; init; }
}

/// <summary>A kind of locomotive and what it draws.</summary>
/// <param name="Name">Its name.</param>
/// <param name="Running">Current while it pulls its train.</param>
/// <param name="Stopped">Current while it stands with sound and light.</param>
/// <param name="Starting">Current while it starts.</param>
/// <param name="Stalled">Current with its wheels held at full voltage.</param>
/// <param name="Pickup">Wheel base over which it picks up current.</param>
/// <param name="Count">How many of them are on the railway; at least 1.</param>
public sealed record Locomotive(
    string Name,
    ElectricCurrent Running,
    ElectricCurrent Stopped,
    ElectricCurrent Starting,
    ElectricCurrent Stalled,
    Length Pickup,
    int Count)
{
    /// <summary>How the current that it draws follows the volts.</summary>
    public LoadKind Draw { get; init; } = LoadKind.Current;

    /// <summary>Capacitors that keep it alive over dirty track, or null where nothing is said of any.</summary>
    public ElectricCapacitance? StayAlive { get; init; }

    /// <summary>The resistance these charge through.</summary>
    public ElectricResistance Charging { get; init; } = DeviceTable.ChargingResistance;
}

/// <summary>How the current of a load follows the volts between its wheels.</summary>
public enum LoadKind
{
    /// <summary>It draws the same current at any volts, as a motor does that pulls the same train.</summary>
    Current,

    /// <summary>It draws the same power, more current at fewer volts, as a converter does that keeps its own output steady.</summary>
    Power,

    /// <summary>It draws current in proportion to the volts, as lamps and heaters roughly do.</summary>
    Resistance,
}

/// <summary>A train.</summary>
/// <param name="Name">Its name.</param>
/// <param name="Locomotives">The kinds of its locomotives, one entry an engine.</param>
/// <param name="LitCars">How many of its cars carry lights.</param>
/// <param name="LitCarCurrent">What each of those draws.</param>
/// <param name="Length">First to last metal wheel.</param>
public sealed record Train(
    string Name,
    ImmutableArray<string> Locomotives,
    int LitCars,
    ElectricCurrent LitCarCurrent,
    Length Length);
