using System.Collections.Immutable;
using WireUp.Layouts;

namespace WireUp.Documents;

/// <summary>One place where the foil of copper-clad ties must be cut through.</summary>
/// <param name="Turnout">The hand-laid turnout.</param>
/// <param name="Where">Which ties.</param>
/// <param name="Between">What the cut keeps apart.</param>
/// <param name="IsCut">Whether the layout says that it is cut.</param>
public sealed record FoilCut(PieceId Turnout, string Where, string Between, bool IsCut);

/// <summary>The foil cuts of hand-laid turnouts. Where they must be is common practice, no published source: no tie may join two rails that can differ.</summary>
public static class FoilCuts
{
    private static readonly ImmutableArray<(TieZones Zone, string Where, string Between, bool MetalFrogOnly)> Zones =
    [
        (TieZones.Switch, "under the blades, and in the tie bar", "stock rail and stock rail, blade and blade", false),
        (TieZones.Closure, "between blades and frog", "each closure rail and the stock rail beside it, and both closure rails of an insulated or isolated frog", false),
        (TieZones.FrogLeft, "at the frog, to the left seen from the points", "frog and left stock rail", true),
        (TieZones.FrogRight, "at the frog, to the right seen from the points", "frog and right stock rail", true),
        (TieZones.Beyond, "beyond the frog", "the two rails of each leg", false),
    ];

    /// <summary>The cuts of a layout, turnout by turnout from the points to the heel.</summary>
    public static ImmutableArray<FoilCut> Of(Layout layout) =>
    [
        .. from turnout in layout.Track.OfType<Piece.Turnout>()
           where turnout.CopperClad
           from zone in Zones
           where !zone.MetalFrogOnly || turnout.Frog != FrogKind.Insulated
           select new FoilCut(turnout.Id, zone.Where, zone.Between, (turnout.Uncut & zone.Zone) == 0),
    ];
}
