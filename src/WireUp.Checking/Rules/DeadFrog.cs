using System.Collections.Immutable;
using UnitsNet;
using WireUp.Layouts;
using WireUp.Layouts.Reference;

namespace WireUp.Checking.Rules;

/// <summary>
/// Frogs without current that are longer than the wheel base over which some engine picks current up. Where the layout gives no length it
/// is estimated: see <see cref="EstimateMetres"/>. A frog that a contact or a sensor feeds is not dead, and a live one neither.
/// </summary>
internal sealed class DeadFrog : Rule
{
    /// <summary>Frog number taken where none is given. Common practice, no published source.</summary>
    private const double AssumedNumber = 6;

    internal override FindingDescriptor Descriptor { get; } =
        Describe.Practice("WU2001", Severity.Warning, "A dead frog is longer than the shortest pick-up wheel base");

    internal override IEnumerable<Finding> Check(CheckContext context)
    {
        foreach (Piece piece in context.Layout.Control == ControlSystem.ThreeRail ? [] : context.Layout.Track)
        {
            if (DeadFrogsOf(piece, context.Scale) is { } frogs && Stopped(context.Layout, frogs.Length) is { } stopped)
            {
                string how = frogs.IsGiven ? "" : ", as estimated from its number and the gauge,";
                string which = frogs.Count == 1 ? $"The dead frog of {Words.Quote(piece.Id)}" : $"Each of the {frogs.Count} dead frogs of {Words.Quote(piece.Id)}";
                yield return Say(
                    $"{which} is {Words.Say(frogs.Length)} long{how} and {stopped}.",
                    Remedy(piece),
                    piece.Id.ToString());
            }
        }
    }

    /// <summary>
    /// Length over which wheels find no current: the two rails that meet at the frog run together at one in
    /// <paramref name="number"/>, so they are a given distance apart at number times that distance from the point. The dead part
    /// is taken to reach to where the rails before it and behind it are together 0.27 gauges apart.
    /// </summary>
    /// <remarks>
    /// Derived from geometry; 0.27 is fitted to a number 6 frog of 16.5 mm gauge with some 27 mm without current, from memory of
    /// usual ready-made turnouts, no published source. Measure your own: it may well be a third more or less.
    /// </remarks>
    internal static double EstimateMetres(double number, double gaugeMetres) =>
        number * gaugeMetres * Constants.Get("dead-frog-spread-over-gauge").Value;

    /// <summary>Who stops on a dead length, in words, or null when nobody does: each kind of engine, or where none is listed the shortest pick-up.</summary>
    internal static string? Stopped(Layout layout, Length dead)
    {
        ImmutableArray<Locomotive> engines = UnderWheels.Engines(layout, pickup => pickup <= dead.Meters);
        return (engines.IsEmpty, layout.ShortestPickup <= dead) switch
        {
            (false, _) => $"has no current for {Words.List(engines.Select(engine => engine.Name))}, whose pick-up wheel base is {string.Join(", ", engines.Select(engine => Words.Say(engine.Pickup)).Distinct())}",
            (true, true) => $"the shortest pick-up wheel base is {Words.Say(layout.ShortestPickup)}",
            _ => null,
        };
    }

    private static (int Count, Length Length, bool IsGiven)? DeadFrogsOf(Piece piece, ScaleRow scale) => piece switch
    {
        Piece.Turnout turnout when IsDead(turnout.Frog, turnout.Feed) => Of(1, turnout.DeadLength, turnout.Number ?? AssumedNumber, scale),
        Piece.MultiTurnout turnout when IsDead(turnout.Frog, turnout.Feed) =>
            Of(turnout.LegCount * (turnout.LegCount - 1) / 2, turnout.DeadLength, AssumedNumber, scale),
        Piece.Crossing crossing when IsDead(crossing.Frog, crossing.Feed) => Of(4, crossing.DeadLength, NumberOf(crossing.Angle), scale),
        Piece.Slip slip when IsDead(slip.Frog, slip.Feed) => Of(4, slip.DeadLength, NumberOf(slip.Angle), scale),
        Piece.Scissors scissors when IsDead(scissors.Frog, scissors.Feed) => Of(8, scissors.DeadLength, NumberOf(scissors.Angle), scale),
        _ => null,
    };

    private static bool IsDead(FrogKind frog, FrogFeed feed) => frog == FrogKind.Insulated || (frog == FrogKind.Isolated && feed == FrogFeed.None);

    private static (int, Length, bool) Of(int count, Length? given, double number, ScaleRow scale) =>
        (count, given ?? Length.FromMeters(EstimateMetres(number, scale.Gauge.Meters)), given is not null);

    /// <summary>The frog number of two tracks that cross at an angle: one over twice the tangent of half of it.</summary>
    private static double NumberOf(Angle? angle) => angle is { } known ? 1 / (2 * Math.Tan(known.Radians / 2)) : AssumedNumber;

    private static string Remedy(Piece piece) => piece is Piece.Turnout { Frog: FrogKind.Isolated } or Piece.MultiTurnout { Frog: FrogKind.Isolated }
        or Piece.Slip { Frog: FrogKind.Isolated } or Piece.Crossing { Frog: FrogKind.Isolated } or Piece.Scissors { Frog: FrogKind.Isolated }
        ? $"Feed the frog of {Words.Quote(piece.Id)} through a contact that moves with its points."
        : $"Keep engines that short off {Words.Quote(piece.Id)}, or lay one whose frog can be fed.";
}
