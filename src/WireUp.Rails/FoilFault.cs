using System.Collections.Immutable;
using WireUp.Layouts;

namespace WireUp.Rails;

/// <summary>Copper foil that is not cut in a zone of a hand-laid turnout, where that joins what must be apart.</summary>
/// <param name="Turnout">The turnout.</param>
/// <param name="Zones">The zone; more than one where only together they join anything.</param>
/// <param name="Positions">The positions in which it shorts; empty for always.</param>
/// <param name="UnderWheels">
/// Whether nothing but a train makes the short: the foil ties a frog that nobody feeds to one stock rail, and the wheels bring the other.
/// </param>
public sealed record FoilFault(PieceId Turnout, TieZones Zones, ImmutableArray<string> Positions, bool UnderWheels)
{
    private static readonly ImmutableArray<TieZones> EachZone =
        [TieZones.Switch, TieZones.Closure, TieZones.FrogLeft, TieZones.FrogRight, TieZones.Beyond];

    /// <summary>Every fault of a layout, turnout by turnout. The running rails of three-rail track are one, and their foil may be too.</summary>
    internal static ImmutableArray<FoilFault> Find(Layout layout) => layout.Control == ControlSystem.ThreeRail
        ? []
        : [.. layout.Track.OfType<Piece.Turnout>().Where(turnout => turnout is { CopperClad: true, Uncut: not TieZones.None }).SelectMany(Of)];

    private static IEnumerable<FoilFault> Of(Piece.Turnout turnout)
    {
        ImmutableArray<FoilFault> alone =
            [.. EachZone.Where(zone => (turnout.Uncut & zone) != 0).Select(zone => OfZones(turnout, zone)).OfType<FoilFault>()];
        bool tellsAlways = alone.Any(fault => fault.Positions.IsEmpty);
        return !tellsAlways && OfZones(turnout, turnout.Uncut) is { Positions.IsEmpty: true } together ? [together] : alone;
    }

    private static FoilFault? OfZones(Piece.Turnout turnout, TieZones zones)
    {
        Trackwork row = TrackworkTable.Of(turnout with { Uncut = zones }, ControlSystem.Command);
        PieceNode left = new("points", RailSide.Right), right = new("points", RailSide.Left);
        ImmutableArray<string> shorted = [.. row.Positions.Where(position => AreOne(row, position, left, right))];
        if (!shorted.IsEmpty)
        {
            return new(turnout.Id, zones, shorted.Length == row.Positions.Length ? [] : shorted, UnderWheels: false);
        }

        // Nothing feeds the frog; foil ties it to the stock rail that it must not belong to in one position.
        PieceNode frog = PieceNode.Inner(TrackworkTable.Frog);
        return AreOne(row, "", frog, left) ? new(turnout.Id, zones, [turnout.LeftLeg], UnderWheels: true)
            : AreOne(row, "", frog, right) ? new(turnout.Id, zones, [turnout.RightLeg], UnderWheels: true)
            : null;
    }

    /// <summary>Whether one can pass from one conductor to the other inside the piece as it stands.</summary>
    private static bool AreOne(Trackwork row, string position, PieceNode from, PieceNode to)
    {
        ImmutableArray<(PieceNode From, PieceNode To)> metal =
        [
            .. row.Fixed.Select(bond => (bond.From, bond.To)),
            .. row.Switched.Where(bond => bond.Position == position).Select(bond => (bond.From, bond.To)),
        ];
        HashSet<PieceNode> reached = [from];
        int before;
        do
        {
            before = reached.Count;
            reached.UnionWith(metal.Where(bond => reached.Contains(bond.From) || reached.Contains(bond.To)).SelectMany(bond => new[] { bond.From, bond.To }));
        }
        while (reached.Count > before);
        return reached.Contains(to);
    }
}
