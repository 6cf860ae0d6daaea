using WireUp.Circuits.Network;

namespace WireUp.Circuits.Trains;

/// <summary>A place on fed track: a length of track by its index among the live ones, and how far along it.</summary>
internal readonly record struct LiveSpot(int Live, double Fraction);

/// <summary>
/// Transfer resistances from one place to every other: volts by which an ampere drawn there lowers the place, and the other way round
/// (reciprocity). One solution of the circuit.
/// </summary>
/// <remarks>
/// An ampere drawn at the fraction t of a length of track acts outside it as (1 − t) at its start and t at its end, so between stations
/// the resistance runs straight; within the length itself it is higher by R·min(t, u)·(1 − max(t, u)).
/// </remarks>
internal sealed class TransferColumn
{
    private readonly NodalModel _model;
    private readonly IReadOnlyList<LiveSegment> _live;
    private readonly double[] _response;
    private readonly int _sign;

    internal TransferColumn(NodalModel model, IReadOnlyList<LiveSegment> live, LiveSpot spot)
    {
        (_model, _live, Spot, _sign) = (model, live, spot, live[spot.Live].Sign);
        TrackSegment segment = model.Circuit.Segments[live[spot.Live].Segment];
        double t = spot.Fraction;
        _response = model.Response(
        [
            (segment.FirstAtStart, 1 - t), (segment.FirstAtEnd, t),
            (segment.SecondAtStart, t - 1), (segment.SecondAtEnd, -t),
        ]);
    }

    /// <summary>The place.</summary>
    internal LiveSpot Spot { get; }

    /// <summary>Transfer resistance to a place, ohm, volts counted at either place from the higher conductor to the lower.</summary>
    internal double At(LiveSpot spot)
    {
        (double start, double end) = Ends(spot.Live);
        double straight = start + (spot.Fraction * (end - start));
        if (spot.Live != Spot.Live)
        {
            return straight;
        }

        double t = Spot.Fraction, u = spot.Fraction;
        return straight + (_model.Circuit.Segments[_live[spot.Live].Segment].Ohms * Math.Min(t, u) * (1 - Math.Max(t, u)));
    }

    /// <summary>The straight line over a length of track by its values at start and end; without what its own length adds at the place itself.</summary>
    internal (double Start, double End) Ends(int live)
    {
        TrackSegment segment = _model.Circuit.Segments[_live[live].Segment];
        double sign = _sign * _live[live].Sign;
        return (sign * (Value(segment.FirstAtStart) - Value(segment.SecondAtStart)), sign * (Value(segment.FirstAtEnd) - Value(segment.SecondAtEnd)));
    }

    /// <summary>Two places of different circuits do not act on each other: the response is zero there.</summary>
    private double Value(int node) => _model.ValueOf(node, _response);
}
