using System.Collections.Immutable;

namespace WireUp.Planning.Reversing;

/// <summary>Which candidates come too near each other without sharing a turnout or track.</summary>
internal static class Touching
{
    /// <summary>Pairs of candidates, smaller number first, in order.</summary>
    internal static IEnumerable<(int One, int Other)> PairsOf(ImmutableArray<Candidate> candidates)
    {
        ILookup<int, (RunStretch Stretch, int Candidate)> inside = candidates
            .SelectMany(candidate => candidate.Stretches.Select(stretch => (Stretch: stretch, candidate.Index)))
            .ToLookup(pair => pair.Stretch.Run, pair => (pair.Stretch, pair.Index));
        ILookup<int, int> atTurnout = candidates
            .SelectMany(candidate => candidate.Junctions.Select(junction => (Junction: junction, candidate.Index)))
            .ToLookup(pair => pair.Junction, pair => pair.Index);
        SortedSet<(int, int)> pairs = [];
        foreach (Candidate candidate in candidates)
        {
            IEnumerable<int> byTrack = candidate.Halo.SelectMany(halo =>
                inside[halo.Run].Where(other => other.Stretch.Overlaps(halo)).Select(other => other.Candidate));
            IEnumerable<int> byTurnout = candidate.HaloJunctions.SelectMany(junction => atTurnout[junction]);
            foreach (int other in byTrack.Concat(byTurnout).Distinct().Where(other => !candidate.Overlaps(candidates[other])))
            {
                _ = pairs.Add((Math.Min(candidate.Index, other), Math.Max(candidate.Index, other)));
            }
        }

        return pairs;
    }
}
