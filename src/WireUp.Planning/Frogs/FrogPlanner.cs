using System.Collections.Immutable;
using WireUp.Layouts;
using WireUp.Planning.Reversing;

namespace WireUp.Planning.Frogs;

/// <summary>
/// Proposes what frogs need. A live frog takes its polarity from the points and must not meet rail that is fed from elsewhere, nor
/// another live frog: a gap goes into the rail that comes from the frog wherever it would, at turnouts, crossings and slips alike. A gap is left out only where joining the rails is
/// shown to do no harm once all other track is fed.
/// </summary>
public static class FrogPlanner
{
    /// <summary>Plans the gaps and contacts of every frog. Frogs of three-rail track have no polarity and need nothing.</summary>
    /// <param name="layout">The layout, with the gaps of reversing sections already in it.</param>
    /// <param name="options">How, or null for the defaults.</param>
    public static FrogPlan Plan(Layout layout, FrogOptions? options = null)
    {
        if (layout.Control == ControlSystem.ThreeRail)
        {
            return new([], []);
        }

        options ??= FrogOptions.Default;
        LayoutIndex index = new(layout);
        ImmutableArray<HeelGap> possible = HeelGap.All(index);
        HashSet<PieceId> noGap = [.. layout.NoGap];
        FrogNetsWorkspace nets = new(
            layout with { Wiring = layout.Wiring with { Gaps = [.. layout.Wiring.Gaps, .. possible.Select(gap => gap.Gap)] } },
            options.DeadEndRoadsFollowPoints ? DeadEndRoads(index) : new HashSet<PieceId>());
        ImmutableArray<HeelGap> needed = [.. possible.Where(gap => !nets.TryJoin(gap))];
        ImmutableArray<HeelGap> cut = [.. needed.Where(gap => !Forbidden(gap, noGap))];
        double pickup = Pickup(layout);
        ImmutableArray<DeadFrog> dead = [.. DeadFrog.All(layout).Where(frog => frog.DeadMetres >= pickup)];
        return new([.. cut.Select(gap => gap.Gap)], [.. dead.Select(frog => frog.Piece.Id)])
        {
            Proposals =
            [
                .. cut.Select(gap => FrogWords.OfGap(gap, nets.IsFedBeyond(gap))),
                .. dead.Select(frog => FrogWords.OfContact(frog, pickup)),
            ],
            Remains = [.. needed.Where(gap => Forbidden(gap, noGap)).Select(FrogWords.OfForbidden)],
        };
    }

    private static bool Forbidden(HeelGap gap, HashSet<PieceId> noGap) =>
        noGap.Contains(gap.Piece.Id) && noGap.Contains(gap.Beyond.End.Piece);

    /// <summary>Sections of roads that begin at a rail from a frog and end there.</summary>
    private static HashSet<PieceId> DeadEndRoads(LayoutIndex index)
    {
        RunMap map = new RunMapBuilder(index).Build();
        HashSet<TrackEnd> fromFrogs =
        [
            .. index.Layout.Track
                .SelectMany(piece => FollowingConductor.Of(piece, index.Layout.Control))
                .SelectMany(frog => frog.Rails)
                .Select(rail => rail.Rail.End),
        ];
        return
        [
            .. map.Runs
                .Where(run => run is { Port0: { } port, Port1: null } && fromFrogs.Contains(map.EndAt(port)))
                .SelectMany(run => run.Pieces)
                .Select(piece => piece.Piece),
        ];
    }

    private static double Pickup(Layout layout) => layout.Stock.Locomotives
        .Select(locomotive => locomotive.Pickup.Meters)
        .Where(metres => metres > 0)
        .Append(layout.ShortestPickup.Meters)
        .Min();
}
