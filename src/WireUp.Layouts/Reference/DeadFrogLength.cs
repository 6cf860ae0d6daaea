using UnitsNet;

namespace WireUp.Layouts.Reference;

/// <summary>
/// How long the frogs of a piece are without current while nothing feeds them. Where the layout gives no length: the two rails that meet at a
/// frog of number n run together at one in n, so they are a given distance apart at n times that distance from its point. The dead part is
/// taken to reach to where the rails before it and behind it are together 0.27 gauges apart.
/// </summary>
/// <remarks>
/// Derived from geometry; 0.27 is fitted to a number 6 frog of 16.5 mm gauge with some 27 mm without current, from memory of
/// usual ready-made turnouts, no published source. Measure your own: it may well be a third more or less.
/// </remarks>
public static class DeadFrogLength
{
    /// <summary>Frog number taken where none is given. Common practice, no published source.</summary>
    private const double AssumedNumber = 6;

    private static readonly double SpreadOverGauge = Constants.Get("dead-frog-spread-over-gauge").Value;

    /// <summary>The length of each frog of a piece, and whether the layout gives it; null where the piece has none.</summary>
    /// <param name="piece">The piece.</param>
    /// <param name="gauge">Distance of its rails.</param>
    public static (Length Length, bool IsGiven)? Of(Piece piece, Length gauge) => piece switch
    {
        Piece.Turnout turnout => Of(turnout.DeadLength, turnout.Number ?? AssumedNumber, gauge),
        Piece.MultiTurnout turnout => Of(turnout.DeadLength, AssumedNumber, gauge),
        Piece.Crossing crossing => Of(crossing.DeadLength, NumberOf(crossing.Angle), gauge),
        Piece.Slip slip => Of(slip.DeadLength, NumberOf(slip.Angle), gauge),
        Piece.Scissors scissors => Of(scissors.DeadLength, NumberOf(scissors.Angle), gauge),
        _ => null,
    };

    private static (Length, bool) Of(Length? given, double number, Length gauge) => (given ?? (number * SpreadOverGauge * gauge), given is not null);

    /// <summary>The frog number of two tracks that cross at an angle: one over twice the tangent of half of it.</summary>
    private static double NumberOf(Angle? angle) => angle is { Radians: > 0 } known ? 1 / (2 * Math.Tan(known.Radians / 2)) : AssumedNumber;
}
