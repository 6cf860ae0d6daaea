using System.Collections.Immutable;

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
}

/// <summary>Tracks no two of which may share a district, as the two tracks of a double main.</summary>
/// <param name="Tracks">The pieces of each track.</param>
public sealed record ApartWish(ImmutableArray<ImmutableArray<PieceId>> Tracks);
