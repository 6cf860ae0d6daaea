using System.Collections.Immutable;
using UnitsNet;
using WireUp.Layouts;

namespace WireUp.Documents;

/// <summary>One wire to cut, label and connect.</summary>
/// <param name="Id">Its name, the same on the label at both ends: <c>f12/A</c>, <c>east:3/B</c>, <c>T1:frog</c>.</param>
/// <param name="Kind">What it is for.</param>
/// <param name="District">The power district, or empty where it belongs to none.</param>
/// <param name="From">Where it starts.</param>
/// <param name="To">Where it ends.</param>
/// <param name="Wire">Its size.</param>
public sealed record ScheduledWire(string Id, WireKind Kind, string District, string From, string To, Wire Wire)
{
    /// <summary>Leg A, leg B, or F for a frog that is one or the other as the points lie.</summary>
    public required string Leg { get; init; }

    /// <summary>Letters of its colour: those of the layout's papers, else by IEC 60757.</summary>
    public required string Colour { get; init; }

    /// <summary>Length along its way, as the plan calculates with it.</summary>
    public required Length Length { get; init; }

    /// <summary>Length to cut: with slack and ends, rounded up.</summary>
    public required Length CutLength { get; init; }

    /// <summary>Where a bus wire is tapped between its ends, from its start on; empty for other wires.</summary>
    public ImmutableArray<BusTap> Taps { get; init; } = [];

    /// <summary>Whether it was there before the plan.</summary>
    public bool IsBuilt { get; init; }
}

/// <summary>What a wire is for.</summary>
public enum WireKind
{
    /// <summary>One wire of a bus, from its booster or a fork through its taps to its last.</summary>
    Bus,

    /// <summary>One wire of a feeder.</summary>
    Feeder,

    /// <summary>A wire between a frog, its changeover contact and a rail.</summary>
    Frog,
}
