using System.Collections.Immutable;

namespace WireUp.Layouts;

/// <summary>What the railway stands on, as far as its wiring is concerned. Whoever states any of it has stated the path of every section.</summary>
public sealed record Benchwork
{
    /// <summary>Nothing is said about the benchwork.</summary>
    public static readonly Benchwork None = new();

    /// <summary>The boards, each with its outline. Drawn only.</summary>
    public ImmutableArray<PlanOutline> Boards { get; init; } = [];

    /// <summary>Where bus can be laid; empty: along the track. They hang together.</summary>
    public ImmutableArray<BusCorridor> Corridors { get; init; } = [];

    /// <summary>Areas where no hand comes to from below: no feeder is soldered and no wire joined there.</summary>
    public ImmutableArray<PlanOutline> OutOfReach { get; init; } = [];

    /// <summary>Whether nothing is said.</summary>
    public bool IsEmpty => Boards.IsEmpty && Corridors.IsEmpty && OutOfReach.IsEmpty;
}

/// <summary>An area of the plan.</summary>
/// <param name="Name">Its name.</param>
/// <param name="Corners">Its corners in order, three or more; the last is joined to the first.</param>
public sealed record PlanOutline(string Name, ImmutableArray<PlanPoint> Corners);

/// <summary>A line under the benchwork along which bus can be laid, as along a joist. It meets others where they cross or an end touches.</summary>
/// <param name="Name">Its name.</param>
/// <param name="Path">Its points in order, two or more.</param>
public sealed record BusCorridor(string Name, ImmutableArray<PlanPoint> Path)
{
    /// <summary>Whether its last point is joined to its first.</summary>
    public bool Closed { get; init; }
}
