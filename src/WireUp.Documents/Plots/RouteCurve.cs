using System.Collections.Immutable;
using WireUp.Circuits.Places;

namespace WireUp.Documents.Plots;

/// <summary>A figure along a route as lines: one line as long as the track goes on in one district, with a step at a joint that costs something.</summary>
internal static class RouteCurve
{
    /// <summary>The curves are parabolas and quotients of such: so many chords a length of track cannot be told from them.</summary>
    private const int Chords = 16;

    /// <summary>The lines over metres from the start of the route.</summary>
    /// <param name="fed">Lengths of track with power, in order.</param>
    /// <param name="value">The figure at metres from end a.</param>
    /// <param name="bridged">Whether the line goes on over trackwork, inside which nothing is known.</param>
    public static IEnumerable<ImmutableArray<(double X, double Y)>> Of(RouteStretch[] fed, Func<FedStretch, double, double> value, bool bridged = false)
    {
        ImmutableArray<(double X, double Y)>.Builder line = ImmutableArray.CreateBuilder<(double X, double Y)>();
        RouteStretch? before = null;
        foreach (RouteStretch stretch in fed)
        {
            if (before is not null && !Continues(before, stretch, bridged))
            {
                yield return line.ToImmutable();
                line.Clear();
            }

            for (int i = 0; i <= Chords; i++)
            {
                double x = stretch.FromMetres + ((stretch.ToMetres - stretch.FromMetres) * i / Chords);
                line.Add((x, value(stretch.Track!, Math.Clamp(stretch.PlaceMetres(x)!.Value, stretch.Track!.FromMetres, stretch.Track.ToMetres))));
            }

            before = stretch;
        }

        if (line.Count > 0) yield return line.ToImmutable();
    }

    private static bool Continues(RouteStretch before, RouteStretch next, bool bridged)
    {
        const double SamePlaceMetres = 1e-6, LongestTrackworkMetres = 0.6;
        return before.Track!.District == next.Track!.District
            && next.FromMetres - before.ToMetres <= (bridged ? LongestTrackworkMetres : SamePlaceMetres);
    }
}
