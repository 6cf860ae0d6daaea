using System.Collections.Immutable;
using WireUp.Layouts;

namespace WireUp.Rails;

/// <summary>A conductor of one piece: a rail at an end (outward-looking), or one inside, such as the frog.</summary>
/// <param name="Name">The end's name, or the inner conductor's.</param>
/// <param name="Side">The rail at that end, or null for an inner conductor.</param>
public readonly record struct PieceNode(string Name, RailSide? Side)
{
    /// <summary>An inner conductor.</summary>
    public static PieceNode Inner(string name) => new(name, null);
}

/// <summary>Two conductors of a piece that always conduct to each other.</summary>
/// <param name="From">One.</param>
/// <param name="To">The other.</param>
/// <param name="Share">Share of the piece's length that the current runs through, 0 to 1.</param>
public readonly record struct FixedBond(PieceNode From, PieceNode To, double Share = 1)
{
    /// <summary>Whether the copper foil of a tie makes it, where it should have been cut.</summary>
    public bool IsFoil { get; init; }
}

/// <summary>Two conductors of a piece that conduct to each other in one position only; a bond of two positions is two of these.</summary>
/// <param name="From">One.</param>
/// <param name="To">The other.</param>
/// <param name="Position">The position.</param>
/// <param name="Share">Share of the piece's length that the current runs through, 0 to 1.</param>
public readonly record struct SwitchedBond(PieceNode From, PieceNode To, string Position, double Share = 0);

/// <summary>A way a train can drive through a piece.</summary>
/// <param name="From">One end.</param>
/// <param name="To">The other end.</param>
/// <param name="Position">The position it needs, or null when it is always open; a way of two positions is two of these.</param>
public readonly record struct DrivableWay(string From, string To, string? Position);

/// <summary>
/// Ends of a piece whose polarity hangs together, whatever the position: where the left rail seen from a plus end carries A, looking
/// into the piece, it does so from every plus end, and from every minus end the right rail does.
/// </summary>
/// <param name="Plus">The plus ends.</param>
/// <param name="Minus">The minus ends.</param>
public readonly record struct PhaseGroup(ImmutableArray<string> Plus, ImmutableArray<string> Minus);

/// <summary>Why a wheel can join two conductors that no metal of the track joins.</summary>
public enum WheelBridgeKind
{
    /// <summary>It rolls over the air gap between a moving bridge and a road.</summary>
    PitEdge,

    /// <summary>Its back touches the open blade while it runs along the stock rail.</summary>
    OpenBlade,
}

/// <summary>Two conductors of a piece that a metal wheel joins as it passes, in one position.</summary>
/// <param name="From">One.</param>
/// <param name="To">The other.</param>
/// <param name="Position">The position.</param>
/// <param name="Kind">Why.</param>
public readonly record struct WheelBridge(PieceNode From, PieceNode To, string Position, WheelBridgeKind Kind);

/// <summary>
/// What one piece of track is electrically: the row of the trackwork table that a modeller can check with a meter.
/// Every kind of piece is such a declaration; the engine below it knows no kinds.
/// </summary>
/// <param name="Positions">The positions it can stand in; empty for fixed pieces. The first is the normal one.</param>
/// <param name="Fixed">What always conducts.</param>
/// <param name="Switched">What conducts in one position.</param>
/// <param name="Ways">How trains drive through it.</param>
/// <param name="Phases">Which ends hang together in polarity.</param>
public sealed record Trackwork(
    ImmutableArray<string> Positions,
    ImmutableArray<FixedBond> Fixed,
    ImmutableArray<SwitchedBond> Switched,
    ImmutableArray<DrivableWay> Ways,
    ImmutableArray<PhaseGroup> Phases)
{
    /// <summary>
    /// Moments between two positions at which something conducts that does not in either, written <c>through&gt;diverging</c>: from the
    /// one on the way to the other. Where nothing is listed, nothing switched conducts while the piece moves.
    /// </summary>
    public ImmutableArray<string> Moments { get; init; } = [];

    /// <summary>What a metal wheel joins as it passes.</summary>
    public ImmutableArray<WheelBridge> Wheels { get; init; } = [];

    /// <summary>
    /// Of a moving bridge: whether a feeder at a place of it sets the phase of its one phase group, as through a split ring: leg A at the left
    /// rail, seen from head to tail, goes with A at the left rail seen into the piece from a plus end.
    /// </summary>
    public bool BridgeInPhase { get; init; }

    /// <summary>Positions it can be put in although no train can then pass rightly, and why; empty where every position is of use.</summary>
    public ImmutableArray<string> Useless { get; init; } = [];
}
