using System.Collections.Immutable;
using UnitsNet;
using WireUp.Circuits.Network;
using WireUp.Circuits.Numerics;
using WireUp.Layouts;

namespace WireUp.Circuits;

/// <summary>Gathers the worst places of sections and districts.</summary>
internal sealed class PowerReportBuilder
{
    private readonly NodalModel _model;
    private readonly TrackSurvey _survey;
    private readonly DesignCase _design;
    private readonly double _coinOhms;
    private readonly (double Value, LiveSegment Live, double At)?[] _lowestVolts;
    private readonly (double Value, LiveSegment Live, double At)?[] _lowestFault;
    private readonly ImmutableArray<SectionPower>.Builder _sections = ImmutableArray.CreateBuilder<SectionPower>();

    internal PowerReportBuilder(NodalModel model, TrackSurvey survey, DesignCase design)
    {
        (_model, _survey, _design) = (model, survey, design);
        _coinOhms = model.Circuit.Graph.Layout.Defaults.Coin.Ohms;
        _lowestVolts = new (double, LiveSegment, double)?[Circuit.Districts.Length];
        _lowestFault = new (double, LiveSegment, double)?[Circuit.Districts.Length];
    }

    private Circuit Circuit => _model.Circuit;

    internal PowerReport Build()
    {
        (double Ohms, LiveSegment Live, double At)? largest = null;
        foreach (LiveSegment live in _survey.Live.Where(live => !_model.Unknowns.IsRefused(_model.Unknowns.Part(Segment(live).FirstAtStart))))
        {
            if (largest is { } before && Segment(before.Live).Section != Segment(live).Section)
            {
                AddSection(before.Live, before.At);
                largest = null;
            }

            double at = live.Ohms.Highest();
            largest = largest is { } best && best.Ohms >= live.Ohms.At(at) ? best : (live.Ohms.At(at), live, at);
            LookInDistrict(live);
        }

        if (largest is { } last)
        {
            AddSection(last.Live, last.At);
        }

        return new() { Districts = [.. Districts()], Sections = _sections.ToImmutable(), Unfed = [.. Unfed()] };
    }

    private void LookInDistrict(in LiveSegment live)
    {
        Parabola volts = _design.Volts(live);
        Keep(ref _lowestVolts[live.District], live, volts.Lowest(), volts.At(volts.Lowest()));
        double at = live.LowestFault(_coinOhms);
        Keep(ref _lowestFault[live.District], live, at, live.FaultAmps(at, _coinOhms));
    }

    private static void Keep(ref (double Value, LiveSegment Live, double At)? lowest, in LiveSegment live, double at, double value)
    {
        if (lowest is not { } before || value < before.Value)
        {
            lowest = (value, live, at);
        }
    }

    private void AddSection(in LiveSegment live, double at) =>
        _sections.Add(new(Segment(live).Section, Start(live).District.Name, PowerAt(live, at)));

    private IEnumerable<DistrictPower> Districts()
    {
        for (int d = 0; d < Circuit.Districts.Length; d++)
        {
            if (_lowestVolts[d] is { } volts && _lowestFault[d] is { } fault)
            {
                District district = Circuit.Districts[d].District;
                yield return new(
                    district.Name,
                    district.Booster,
                    Circuit.Sources[Circuit.Districts[d].Source].Booster.Volts,
                    ElectricCurrent.FromAmperes(_design.Amps[d]),
                    district.OpensFrom,
                    PowerAt(volts.Live, volts.At),
                    PowerAt(fault.Live, fault.At));
            }
        }
    }

    private PlacePower PowerAt(in LiveSegment live, double at)
    {
        double volts = _design.Volts(live).At(at), source = Circuit.Sources[Start(live).Source].Volts;
        double loop = live.Ohms.At(at) - _survey.Paths.Of(Segment(live), at).SourceOhms;
        return new(
            Segment(live).At(at),
            ElectricPotential.FromVolts(volts),
            Ratio.FromDecimalFractions((source - volts) / source),
            ElectricCurrent.FromAmperes(live.FaultAmps(at, _coinOhms)),
            ElectricResistance.FromOhms(loop));
    }

    /// <summary>Dead segments that follow each other in one section are one length of track; its middle stands for it.</summary>
    private IEnumerable<TrackPlace> Unfed()
    {
        for (int i = 0; i < _survey.Dead.Count; i++)
        {
            TrackSegment first = Circuit.Segments[_survey.Dead[i]], last = first;
            if (_model.Unknowns.IsRefused(_model.Unknowns.Part(first.FirstAtStart)))
            {
                continue;
            }

            while (i + 1 < _survey.Dead.Count && _survey.Dead[i + 1] == _survey.Dead[i] + 1
                && Circuit.Segments[_survey.Dead[i + 1]].Section == first.Section)
            {
                last = Circuit.Segments[_survey.Dead[++i]];
            }

            yield return new(first.Section, (first.FromMetres + last.ToMetres) / 2);
        }
    }

    private TrackSegment Segment(in LiveSegment live) => Circuit.Segments[live.Segment];

    private DistrictStart Start(in LiveSegment live) => Circuit.Districts[live.District];
}
