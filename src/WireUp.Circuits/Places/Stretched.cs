using WireUp.Circuits.Network;
using WireUp.Circuits.Numerics;

namespace WireUp.Circuits.Places;

/// <summary>Writes what a survey found as closed forms, one length of track after the other.</summary>
internal static class Stretched
{
    internal static IEnumerable<FedStretch> Of(NodalModel model, TrackSurvey survey, DesignCase design)
    {
        double coin = model.Circuit.Graph.Layout.Defaults.Coin.Ohms;
        StretchFeed[] feeds = [.. model.Circuit.Districts.Select(start => Feed(start, model.Circuit.Sources[start.Source], coin))];
        foreach (LiveSegment live in survey.Live)
        {
            TrackSegment segment = model.Circuit.Segments[live.Segment];
            if (!model.Unknowns.IsRefused(model.Unknowns.Part(segment.FirstAtStart)))
            {
                yield return new(segment.Section, segment.FromMetres, segment.ToMetres, feeds[live.District], new(
                    live, design.Volts(live), SourceOhms(survey.Paths, segment)));
            }
        }
    }

    private static StretchFeed Feed(DistrictStart start, CircuitSource source, double coinOhms) =>
        new(start.District.Name, start.District.Booster, source.Volts, start.District.OpensFrom.Amperes, coinOhms);

    /// <summary>A share of a short is linear along a length of track, its square quadratic: three values give the curve.</summary>
    private static Parabola SourceOhms(SourcePaths paths, in TrackSegment segment) => Parabola.Through(
        paths.Of(segment, 0).SourceOhms, paths.Of(segment, 0.5).SourceOhms, paths.Of(segment, 1).SourceOhms);
}
