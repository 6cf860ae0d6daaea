using WireUp.Layouts;
using WireUp.Rails;

namespace WireUp.Planning.Districts;

/// <summary>What the trackwork table says of turntables and transfer tables as far as planning must know it.</summary>
internal static class MovingBridges
{
    /// <summary>Whether a piece has a bridge that gets current by wires or a ring of its own, so that feeders go to its places.</summary>
    public static bool IsFedByItself(Piece piece, ControlSystem control) =>
        piece is { PlacesMetres: not null } and not Piece.Section
        && TrackworkTable.Of(piece, control).Wheels.Any(wheel => wheel.Kind == WheelBridgeKind.PitEdge);

    /// <summary>
    /// Whether a bridge meets its roads either way round, so that it must be a reversing district of its own: fed by itself, and not in
    /// phase with its roads.
    /// </summary>
    public static bool Reverses(Piece piece, ControlSystem control) =>
        control != ControlSystem.ThreeRail && IsFedByItself(piece, control)
        && !TrackworkTable.Of(piece, control).BridgeInPhase;

    /// <summary>Whether feeders may be soldered to places of a piece: plain track, and a bridge that roads do not feed.</summary>
    public static bool TakesFeeders(Piece piece, ControlSystem control) => piece is Piece.Section || IsFedByItself(piece, control);
}
