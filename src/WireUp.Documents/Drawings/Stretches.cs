using System.Collections.Immutable;
using WireUp.Documents.Geometry;
using WireUp.Documents.Phases;
using WireUp.Layouts;
using WireUp.Rails;

namespace WireUp.Documents.Drawings;

/// <summary>A stretch of one section over which something stays the same.</summary>
/// <param name="From">Where it begins, in metres from end a.</param>
/// <param name="To">Where it ends.</param>
/// <param name="Value">What stays the same.</param>
internal readonly record struct Stretch<T>(double From, double To, T Value);

/// <summary>Cuts sections into stretches.</summary>
internal static class Stretches
{
    /// <summary>Stretches of one conductor of a section with one phase and no gap within.</summary>
    public static IEnumerable<Stretch<RailPhase>> OfRail(PlanFacts facts, PieceId section, bool first)
    {
        ImmutableArray<Station> stations = facts.Phases.Graph.Stations(section);
        return Merge(Enumerable.Range(1, stations.Length - 1).Select(i =>
        {
            int node = first ? stations[i - 1].FirstTowardsB : stations[i - 1].SecondTowardsB;
            bool gapBefore = first
                ? stations[i - 1].FirstTowardsA != stations[i - 1].FirstTowardsB
                : stations[i - 1].SecondTowardsA != stations[i - 1].SecondTowardsB;
            return (new Stretch<RailPhase>(stations[i - 1].Metres, stations[i].Metres, facts.Phases[node]), gapBefore);
        }));
    }

    /// <summary>Stretches of a section fed through one district.</summary>
    public static IEnumerable<Stretch<string?>> OfDistrict(PlanFacts facts, PieceId section)
    {
        ImmutableArray<Station> stations = facts.Phases.Graph.Stations(section);
        return Merge(Enumerable.Range(1, stations.Length - 1).Select(i =>
        {
            string? district = facts.Phases.DistrictOf(stations[i - 1].FirstTowardsB)
                ?? facts.Phases.DistrictOf(stations[i - 1].SecondTowardsB);
            return (new Stretch<string?>(stations[i - 1].Metres, stations[i].Metres, district), false);
        }));
    }

    /// <summary>The line of a stretch on the plan.</summary>
    public static ImmutableArray<PlanPoint> Line<T>(PlanFacts facts, PieceId section, Stretch<T> stretch)
    {
        PieceLine line = facts.Geometry.LinesOf(section)[0];
        double length = facts.Index.Piece(section).PlacesMetres ?? 0;
        return length > 0
            ? line.Part(Math.Clamp(stretch.From / length, 0, 1), Math.Clamp(stretch.To / length, 0, 1))
            : line.Points;
    }

    private static IEnumerable<Stretch<T>> Merge<T>(IEnumerable<(Stretch<T> Stretch, bool Cut)> parts)
    {
        Stretch<T>? open = null;
        foreach ((Stretch<T> part, bool cut) in parts)
        {
            if (open is { } run && !cut && Equals(run.Value, part.Value))
            {
                open = run with { To = part.To };
                continue;
            }

            if (open is { } done) yield return done;
            open = part;
        }

        if (open is { } last) yield return last;
    }
}
