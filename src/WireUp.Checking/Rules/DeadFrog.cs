using UnitsNet;
using WireUp.Layouts;
using WireUp.Layouts.Reference;

namespace WireUp.Checking.Rules;

/// <summary>
/// A frog without current that is longer than the wheel base over which the shortest engine picks current up. Where the layout
/// gives no length it is estimated: see <see cref="EstimateMetres"/>.
/// </summary>
internal sealed class DeadFrog : Rule
{
    /// <summary>Frog number taken where none is given. Common practice, no published source.</summary>
    private const double AssumedNumber = 6;

    internal override FindingDescriptor Descriptor { get; } =
        Describe.Practice("WU2001", Severity.Warning, "A dead frog is longer than the shortest pick-up wheel base");

    internal override IEnumerable<Finding> Check(CheckContext context)
    {
        Length pickup = ShortestPickup(context.Layout);
        foreach (Piece piece in context.Layout.Control == ControlSystem.ThreeRail ? [] : context.Layout.Track)
        {
            if (DeadLength(piece, context.Scale) is { } dead && dead.Length >= pickup)
            {
                string how = dead.IsGiven ? "" : ", as estimated from its number and the gauge,";
                yield return Say(
                    $"The dead frog of {Words.Quote(piece.Id)} is {Words.Say(dead.Length)} long{how} and the shortest pick-up wheel base is {Words.Say(pickup)}.",
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

    private static Length ShortestPickup(Layout layout) => layout.Stock.Locomotives
        .Select(locomotive => locomotive.Pickup)
        .Where(pickup => pickup > Length.Zero)
        .Append(layout.ShortestPickup)
        .Min();

    private static (Length Length, bool IsGiven)? DeadLength(Piece piece, ScaleRow scale) => piece switch
    {
        Piece.Turnout { Frog: FrogKind.Live } or Piece.Turnout { Frog: FrogKind.Isolated, Feed: FrogFeed.Contact } => null,
        Piece.Turnout turnout => Given(turnout.DeadLength) ?? Estimate(turnout.Number ?? AssumedNumber, scale),
        Piece.Crossing crossing => Given(crossing.DeadLength) ?? Estimate(NumberOf(crossing.Angle), scale),
        _ => null,
    };

    private static (Length, bool)? Given(Length? length) => length is { } given ? (given, true) : null;

    private static (Length, bool)? Estimate(double number, ScaleRow scale) =>
        (Length.FromMeters(EstimateMetres(number, scale.Gauge.Meters)), false);

    /// <summary>The frog number of two tracks that cross at an angle: one over twice the tangent of half of it.</summary>
    private static double NumberOf(Angle angle) => 1 / (2 * Math.Tan(angle.Radians / 2));

    private static string Remedy(Piece piece) => piece is Piece.Turnout { Frog: FrogKind.Isolated }
        ? $"Feed the frog of {Words.Quote(piece.Id)} through a contact that moves with its points."
        : $"Keep engines that short off {Words.Quote(piece.Id)}, or lay one whose frog can be fed.";
}
