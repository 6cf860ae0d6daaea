using WireUp.Circuits.Numerics;

namespace WireUp.Circuits.Network;

/// <summary>A fed length of track, all sources on, no load.</summary>
/// <param name="Segment">Index of the segment.</param>
/// <param name="District">Index of the district that feeds it.</param>
/// <param name="Sign">+1 where the first conductor is the higher one, −1 where the second is.</param>
/// <param name="StartVolts">Open-circuit volts at the start, times <paramref name="Sign"/>.</param>
/// <param name="EndVolts">Open-circuit volts at the end, times <paramref name="Sign"/>.</param>
/// <param name="Ohms">
/// Resistance seen between the two conductors along the segment, sources and breakers included: with w = (1−t, t, −(1−t), −t) over
/// first start, first end, second start, second end, it is wᵀ·Z·w + R·t·(1−t), R the resistance of both conductors of the segment.
/// </param>
internal readonly record struct LiveSegment(int Segment, int District, int Sign, double StartVolts, double EndVolts, Parabola Ohms)
{
    /// <summary>Stands for a fault current that nothing limits: neither source nor rails nor coin have any resistance.</summary>
    private const double MostFaultAmps = 1e6;

    internal double OpenVolts(double t) => StartVolts + (t * (EndVolts - StartVolts));

    /// <summary>Current through a coin of that resistance at the fraction t.</summary>
    internal double FaultAmps(double t, double coinOhms) => Math.Min(MostFaultAmps, Math.Abs(OpenVolts(t)) / (Ohms.At(t) + coinOhms));

    /// <summary>
    /// The fraction where a coin draws least. Where the rails are shorted to each other the open-circuit volts can pass through zero: no
    /// coin draws anything there.
    /// </summary>
    internal double LowestFault(double coinOhms) => StartVolts * EndVolts < 0
        ? StartVolts / (StartVolts - EndVolts)
        : Ohms.LowestRatio(StartVolts, EndVolts - StartVolts, coinOhms);

    /// <summary>The part from one fraction to another as a length of its own.</summary>
    internal LiveSegment Between(double from, double to) =>
        this with { StartVolts = OpenVolts(from), EndVolts = OpenVolts(to), Ohms = Ohms.Between(from, to) };
}

/// <summary>Finds what every length of track gets and what resistance it sees.</summary>
internal sealed class TrackSurvey
{
    /// <summary>Below this, volt, two conductors are at one potential: both on the same side of the source.</summary>
    private const double DeadVolts = 1e-6;

    private readonly NodalModel _model;

    internal TrackSurvey(NodalModel model, double[] openCircuit)
    {
        (_model, Open) = (model, openCircuit);
        Paths = new SourcePaths(model);
        model.SelectInverse();
        List<LiveSegment> live = new(model.Circuit.Segments.Length);
        List<int> dead = [];
        for (int i = 0; i < model.Circuit.Segments.Length; i++)
        {
            TrackSegment segment = model.Circuit.Segments[i];
            if (model.Unknowns.AreFedTogether(segment.FirstAtStart, segment.SecondAtStart) && Look(i, segment) is { } found)
            {
                live.Add(found);
            }
            else
            {
                dead.Add(i);
            }
        }

        (Live, Dead) = (live, dead);
    }

    /// <summary>Potentials of the unknowns without load.</summary>
    internal double[] Open { get; }

    internal SourcePaths Paths { get; }

    /// <summary>Fed segments, in the order of the circuit's.</summary>
    internal IReadOnlyList<LiveSegment> Live { get; }

    /// <summary>Indices of the others.</summary>
    internal IReadOnlyList<int> Dead { get; }

    /// <summary>+1 or −1 as the first of two nodes is the higher or the lower one without load; 0 where the two get nothing.</summary>
    internal int SignBetween(int first, int second)
    {
        if (!_model.Unknowns.AreFedTogether(first, second))
        {
            return 0;
        }

        double volts = Between(first, second);
        return Math.Abs(volts) < DeadVolts ? 0 : Math.Sign(volts);
    }

    private LiveSegment? Look(int index, in TrackSegment segment)
    {
        double start = Between(segment.FirstAtStart, segment.SecondAtStart), end = Between(segment.FirstAtEnd, segment.SecondAtEnd);
        double larger = Math.Abs(end) > Math.Abs(start) ? end : start;
        if (Math.Abs(larger) < DeadVolts || Paths.Of(segment, 0.5).District is var district && district < 0)
        {
            return null;
        }

        int sign = Math.Sign(larger);
        return new(index, district, sign, sign * start, sign * end, Resistance(segment));
    }

    private Parabola Resistance(in TrackSegment s)
    {
        double start = Loop(s.FirstAtStart, s.SecondAtStart), end = Loop(s.FirstAtEnd, s.SecondAtEnd);
        double across = _model.Inverse(s.FirstAtStart, s.FirstAtEnd) + _model.Inverse(s.SecondAtStart, s.SecondAtEnd)
            - _model.Inverse(s.FirstAtStart, s.SecondAtEnd) - _model.Inverse(s.SecondAtStart, s.FirstAtEnd);
        return new(start, (2 * (across - start)) + s.Ohms, start - (2 * across) + end - s.Ohms);
    }

    private double Loop(int first, int second) =>
        _model.Inverse(first, first) + _model.Inverse(second, second) - (2 * _model.Inverse(first, second));

    private double Between(int first, int second) => _model.VoltsBetween(first, second, Open);
}
