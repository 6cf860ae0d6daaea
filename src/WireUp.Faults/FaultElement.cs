using WireUp.Layouts;

namespace WireUp.Faults;

/// <summary>From where somebody works at a part.</summary>
public enum Reach
{
    /// <summary>From above, at the rails.</summary>
    Above,

    /// <summary>From below, under the benchwork.</summary>
    Below,
}

/// <summary>One physical part that can fail.</summary>
/// <param name="Kind">What it is.</param>
/// <param name="Place">
/// Where, in words as the layout file writes places: <c>joint T4.through–main-7.a, left rail</c>, <c>feeder f12, leg A</c>,
/// <c>bus yard P3–P4, wire B</c>. Unique in a layout.
/// </param>
/// <param name="Reach">From where it is reached.</param>
public sealed record FaultElement(FaultElementKind Kind, string Place, Reach Reach)
{
    /// <summary>The end of a piece where it is, as for a joint or a gap in one; else null.</summary>
    public TrackEnd? End { get; init; }

    /// <summary>The place of the track where it is, as for a feeder or a cut; else null.</summary>
    public TrackPlace? Track { get; init; }

    /// <summary>The piece of track it belongs to, or null for a part of the wiring.</summary>
    public PieceId? Piece { get; init; }

    /// <summary>The district of a bus wire, bus point or breaker; else null.</summary>
    public string? District { get; init; }

    /// <summary>The bus point where it is, or that a bus wire leads to; else null.</summary>
    public string? BusPoint { get; init; }
}
