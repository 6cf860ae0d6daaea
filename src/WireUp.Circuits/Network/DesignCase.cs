using WireUp.Circuits.Numerics;

namespace WireUp.Circuits.Network;

/// <summary>
/// The design load laid on the rails: in every district a part spread evenly over its track, and the heaviest train at whatever
/// place is looked at. The rule is set out in docs/physics.md, "Design load".
/// </summary>
internal sealed class DesignCase
{
    private readonly NodalModel _model;
    private readonly TrackSurvey _survey;
    private readonly double[] _length;
    private readonly double[] _spreadAmps;
    private readonly double[] _othersDropVolts;

    internal DesignCase(NodalModel model, TrackSurvey survey, DesignLoad load, PowerOptions options)
    {
        (_model, _survey) = (model, survey);
        int count = model.Circuit.Districts.Length;
        (_length, Amps, TrainAmps) = (new double[count], new double[count], new double[count]);
        (_spreadAmps, _othersDropVolts) = (new double[count], new double[count]);
        foreach (LiveSegment live in survey.Live)
        {
            _length[live.District] += Segment(live).LengthMetres;
        }

        Share(load, options);
        Loads = [.. Spread()];
        Potentials = model.Potentials(Loads);
    }

    /// <summary>Design load of every district, ampere.</summary>
    internal double[] Amps { get; }

    /// <summary>The part of it that stands at the place looked at, ampere.</summary>
    internal double[] TrainAmps { get; }

    /// <summary>The spread parts, as loads at the stations.</summary>
    internal NodeLoad[] Loads { get; }

    /// <summary>Potentials of the unknowns under <see cref="Loads"/>.</summary>
    internal double[] Potentials { get; }

    /// <summary>Volts along a segment, higher conductor against lower, with the heaviest train of its district at each place in turn.</summary>
    internal Parabola Volts(in LiveSegment live)
    {
        TrackSegment segment = Segment(live);
        double start = live.Sign * Between(segment.FirstAtStart, segment.SecondAtStart);
        double end = live.Sign * Between(segment.FirstAtEnd, segment.SecondAtEnd);
        double train = TrainAmps[live.District];

        // A load spread over the segment itself sags by R·I/2·t(1−t) below the line between its ends.
        double sag = SegmentAmps(live) * segment.Ohms / 2;
        return new(
            start - _othersDropVolts[live.District] - (train * live.Ohms.C0),
            end - start - sag - (train * live.Ohms.C1),
            sag - (train * live.Ohms.C2));
    }

    private void Share(DesignLoad load, PowerOptions options)
    {
        double all = _length.Sum();
        double[] elsewhere = new double[_length.Length];
        for (int d = 0; d < _length.Length; d++)
        {
            if (_length[d] > 0)
            {
                double share = _length[d] / all;
                double? given = options.DistrictLoads.TryGetValue(Start(d).District.Name, out UnitsNet.ElectricCurrent amps) ? amps.Amperes : null;
                Amps[d] = given ?? load.ForDistrict(share, Start(d).District.Use).Amperes;
                TrainAmps[d] = Math.Min(load.HeaviestTrain.Amperes, Amps[d]);
                _spreadAmps[d] = Amps[d] - TrainAmps[d];
                elsewhere[d] = Math.Max(0, (given ?? load.Total.Amperes * share) - _spreadAmps[d]);
            }
        }

        for (int d = 0; d < _length.Length; d++)
        {
            double others = Enumerable.Range(0, _length.Length).Where(o => o != d && Start(o).Source == Start(d).Source).Sum(o => elsewhere[o]);
            _othersDropVolts[d] = others * _model.Circuit.Sources[Start(d).Source].Booster.Resistance.Ohms;
        }
    }

    private IEnumerable<NodeLoad> Spread()
    {
        foreach (LiveSegment live in _survey.Live)
        {
            double half = live.Sign * SegmentAmps(live) / 2;
            TrackSegment segment = Segment(live);
            yield return new(segment.FirstAtStart, segment.SecondAtStart, half);
            yield return new(segment.FirstAtEnd, segment.SecondAtEnd, half);
        }
    }

    /// <summary>A district may feed a single point of track, between two gaps at one place: no length, no load.</summary>
    private double SegmentAmps(in LiveSegment live) => _length[live.District] > 0
        ? _spreadAmps[live.District] * Segment(live).LengthMetres / _length[live.District]
        : 0;

    private TrackSegment Segment(in LiveSegment live) => _model.Circuit.Segments[live.Segment];

    private DistrictStart Start(int district) => _model.Circuit.Districts[district];

    private double Between(int first, int second) => _model.VoltsBetween(first, second, Potentials);
}
