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
public readonly record struct FixedBond(PieceNode From, PieceNode To, double Share = 1);

/// <summary>Two conductors of a piece that conduct to each other in one position only.</summary>
/// <param name="From">One.</param>
/// <param name="To">The other.</param>
/// <param name="Position">The position.</param>
/// <param name="Share">Share of the piece's length that the current runs through, 0 to 1.</param>
public readonly record struct SwitchedBond(PieceNode From, PieceNode To, string Position, double Share = 0);

/// <summary>A way a train can drive through a piece.</summary>
/// <param name="From">One end.</param>
/// <param name="To">The other end.</param>
/// <param name="Position">The position it needs, or null when it is always open.</param>
public readonly record struct DrivableWay(string From, string To, string? Position);

/// <summary>
/// What one piece of track is electrically: the row of the trackwork table that a modeller can check with a meter.
/// Every kind of piece is such a declaration; the engine below it knows no kinds.
/// </summary>
/// <param name="Positions">The positions it can stand in; empty for fixed pieces. The first is the normal one.</param>
/// <param name="Fixed">What always conducts.</param>
/// <param name="Switched">What conducts in one position.</param>
/// <param name="Ways">How trains drive through it.</param>
public sealed record Trackwork(
    ImmutableArray<string> Positions,
    ImmutableArray<FixedBond> Fixed,
    ImmutableArray<SwitchedBond> Switched,
    ImmutableArray<DrivableWay> Ways);
