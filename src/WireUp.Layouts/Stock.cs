using System.Collections.Immutable;
using UnitsNet;

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
    int Count);

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
