using System.Collections.Immutable;
using UnitsNet;

namespace WireUp.Layouts;

/// <summary>What somebody asks of the power districts that are still to be planned.</summary>
public sealed record Wishes
{
    /// <summary>Nothing is asked for.</summary>
    public static readonly Wishes None = new();

    /// <summary>Tracks to keep apart.</summary>
    public ImmutableArray<ApartWish> Apart { get; init; } = [];

    /// <summary>Whether a district that is dead should leave trains a way round it, where the track allows.</summary>
    public bool WayRound { get; init; }

    /// <summary>What turnout motors, signals and lights draw together, where they are to have power of their own; null where nobody asks.</summary>
    public ElectricCurrent? Accessories { get; init; }

    /// <summary>Blocks for detection or cabs; null where none are asked for.</summary>
    public BlockWish? Blocks { get; init; }
}

/// <summary>Track to be gapped into blocks.</summary>
/// <param name="Track">A piece of each track; empty for all running track, which leads on at both ends.</param>
public sealed record BlockWish(ImmutableArray<PieceId> Track)
{
    /// <summary>Shortest block; null for the longest train.</summary>
    public Length? Length { get; init; }

    /// <summary>Whether both rails are cut. Default: the one of leg A.</summary>
    public bool BothRails { get; init; }
}

/// <summary>Tracks no two of which may share a district, as the two tracks of a double main.</summary>
/// <param name="Tracks">The pieces of each track.</param>
public sealed record ApartWish(ImmutableArray<ImmutableArray<PieceId>> Tracks);
