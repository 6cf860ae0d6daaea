using System.Collections.Immutable;
using WireUp.Layouts;
using WireUp.Layouts.Reference;
using WireUp.Planning.Reversing;

namespace WireUp.Planning.Frogs;

/// <summary>
/// Proposes what frogs need. A live frog takes its polarity from the points and must not meet rail that is fed from elsewhere, nor
/// another live frog: a gap goes into the inner rail of a leg wherever it would. A gap is left out only where joining the rails is
/// shown to do no harm once all other track is fed.
/// </summary>
public static class FrogPlanner
{
    private const double UsualFrogNumber = 6;

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
        ImmutableArray<Piece.Turnout> contacts = [.. DeadFrogs(layout)];
        return new([.. cut.Select(gap => gap.Gap)], [.. contacts.Select(turnout => turnout.Id)])
        {
            Proposals =
            [
                .. cut.Select(gap => FrogWords.OfGap(gap, nets.IsFedBeyond(gap))),
                .. contacts.Select(turnout => FrogWords.OfContact(turnout, DeadLengthMetres(turnout, layout), Pickup(layout))),
            ],
            Remains = [.. needed.Where(gap => Forbidden(gap, noGap)).Select(FrogWords.OfForbidden)],
        };
    }

    private static bool Forbidden(HeelGap gap, HashSet<PieceId> noGap) =>
        noGap.Contains(gap.Turnout.Id) && noGap.Contains(gap.Beyond.End.Piece);

    /// <summary>Sections of roads that begin at a leg of a live turnout and end there.</summary>
    private static HashSet<PieceId> DeadEndRoads(LayoutIndex index)
    {
        RunMap map = new RunMapBuilder(index).Build();
        return
        [
            .. map.Runs
                .Where(run => run is { Port0.IsPoints: false, Port1: null }
                    && map.Junctions[run.Port0.Value.Junction].Turnout.Frog == FrogKind.Live)
                .SelectMany(run => run.Pieces)
                .Select(piece => piece.Piece),
        ];
    }

    private static IEnumerable<Piece.Turnout> DeadFrogs(Layout layout) => layout.Track
        .OfType<Piece.Turnout>()
        .Where(turnout => turnout is { Frog: FrogKind.Isolated, Feed: FrogFeed.None })
        .Where(turnout => DeadLengthMetres(turnout, layout) >= Pickup(layout))
        .OrderBy(turnout => turnout.Id);

    private static double Pickup(Layout layout) => layout.Stock.Locomotives
        .Select(locomotive => locomotive.Pickup.Meters)
        .Where(metres => metres > 0)
        .Append(layout.ShortestPickup.Meters)
        .Min();

    /// <summary>As given, or from the frog's number and the gauge.</summary>
    private static double DeadLengthMetres(Piece.Turnout turnout, Layout layout) => turnout.DeadLength?.Meters
        ?? (turnout.Number ?? UsualFrogNumber)
            * ScaleTable.Get(layout.Scale).Gauge.Meters
            * Constants.Get("dead-frog-spread-over-gauge").Value;
}
