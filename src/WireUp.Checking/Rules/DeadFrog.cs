using System.Collections.Immutable;
using UnitsNet;
using WireUp.Layouts;
using WireUp.Layouts.Reference;

namespace WireUp.Checking.Rules;

/// <summary>
/// Frogs without current that are longer than the wheel base over which some engine picks current up. Where the layout gives no length it
/// is estimated: see <see cref="DeadFrogLength"/>. A frog that a contact or a sensor feeds is not dead, and a live one neither.
/// </summary>
internal sealed class DeadFrog : Rule
{
    internal override FindingDescriptor Descriptor { get; } =
        Describe.Practice("WU2001", Severity.Warning, "A dead frog is longer than the shortest pick-up wheel base");

    internal override IEnumerable<Finding> Check(CheckContext context)
    {
        foreach (Piece piece in context.Layout.Control == ControlSystem.ThreeRail ? [] : context.Layout.Track)
        {
            if (DeadFrogsOf(piece) is > 0 and var count && DeadFrogLength.Of(piece, context.Scale.Gauge) is var (length, isGiven) && Stopped(context.Layout, length) is { } stopped)
            {
                string how = isGiven ? "" : ", as estimated from its number and the gauge,";
                string which = count == 1 ? $"The dead frog of {Words.Quote(piece.Id)}" : $"Each of the {count} dead frogs of {Words.Quote(piece.Id)}";
                yield return Say(
                    $"{which} is {Words.Say(length)} long{how} and {stopped}.",
                    Remedy(piece),
                    piece.Id.ToString());
            }
        }
    }

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

    /// <summary>How many frogs of a piece are dead; 0 where a contact or a sensor feeds them.</summary>
    private static int DeadFrogsOf(Piece piece) => piece switch
    {
        Piece.Turnout turnout when IsDead(turnout.Frog, turnout.Feed) => 1,
        Piece.MultiTurnout turnout when IsDead(turnout.Frog, turnout.Feed) => turnout.LegCount * (turnout.LegCount - 1) / 2,
        Piece.Crossing crossing when IsDead(crossing.Frog, crossing.Feed) => 4,
        Piece.Slip slip when IsDead(slip.Frog, slip.Feed) => 4,
        Piece.Scissors scissors when IsDead(scissors.Frog, scissors.Feed) => 8,
        _ => 0,
    };

    private static bool IsDead(FrogKind frog, FrogFeed feed) => frog == FrogKind.Insulated || (frog == FrogKind.Isolated && feed == FrogFeed.None);

    private static string Remedy(Piece piece) => piece is Piece.Turnout { Frog: FrogKind.Isolated } or Piece.MultiTurnout { Frog: FrogKind.Isolated }
        or Piece.Slip { Frog: FrogKind.Isolated } or Piece.Crossing { Frog: FrogKind.Isolated } or Piece.Scissors { Frog: FrogKind.Isolated }
        ? $"Feed the frog of {Words.Quote(piece.Id)} through a contact that moves with its points."
        : $"Keep engines that short off {Words.Quote(piece.Id)}, or lay one whose frog can be fed.";
}
