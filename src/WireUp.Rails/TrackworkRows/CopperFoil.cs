using WireUp.Layouts;
using static WireUp.Rails.TrackworkRows.Rails;

namespace WireUp.Rails.TrackworkRows;

/// <summary>
/// Hand-laid turnouts on copper-clad ties. The foil of a tie joins everything soldered to it until it is cut; with every cut made,
/// rails and frog are those of the kind without ties. Each zone that is not cut adds bonds.
/// </summary>
internal static class CopperFoil
{
    /// <summary>What is joined by foil that is not cut.</summary>
    /// <param name="turnout">The turnout.</param>
    /// <param name="rails">Its left and right stock rail, seen from the points, and its frog.</param>
    /// <param name="legs">Its left and right leg.</param>
    internal static IEnumerable<FixedBond> Uncut(
        Piece.Turnout turnout, (PieceNode Left, PieceNode Right, PieceNode Frog) rails, (string Left, string Right) legs)
    {
        bool metalFrog = turnout.Frog != FrogKind.Insulated, liveBlades = turnout.Frog == FrogKind.Live;
        return
        [
            // Under blades and closure rails: left stock rail, blades, right stock rail. Blades not bonded to their stock rails are live.
            .. If(TieZones.Switch | TieZones.Closure, Together(rails.Left, liveBlades ? [rails.Right, rails.Frog] : [rails.Right])),
            .. metalFrog ? If(TieZones.FrogLeft, Together(rails.Left, rails.Frog)) : [],
            .. metalFrog ? If(TieZones.FrogRight, Together(rails.Right, rails.Frog)) : [],
            .. If(TieZones.Beyond, Together(OutwardLeft(legs.Left), OutwardRight(legs.Left), OutwardLeft(legs.Right), OutwardRight(legs.Right))),
        ];

        IEnumerable<FixedBond> If(TieZones zones, IEnumerable<FixedBond> bonds) =>
            turnout.CopperClad && (turnout.Uncut & zones) != 0 ? bonds.Select(bond => bond with { Share = 0, IsFoil = true }) : [];
    }
}
