using System.Collections.Immutable;
using WireUp.Layouts;
using WireUp.Rails;

namespace WireUp.Planning.Reversing;

/// <summary>What is already wired, as far as reversing is concerned.</summary>
/// <param name="Feeders">Ordinary feeders on the map.</param>
/// <param name="Borders">Existing double gaps that bound a reversing section: polarity may differ across them.</param>
/// <param name="Junctions">Turnouts inside existing reversing sections.</param>
/// <param name="Stretches">Track of existing reversing sections.</param>
internal sealed record BuiltWiring(
    ImmutableArray<(Feeder Feeder, RunPlace At)> Feeders,
    ImmutableArray<Spot> Borders,
    ImmutableHashSet<int> Junctions,
    ImmutableArray<RunStretch> Stretches)
{
    internal static BuiltWiring Of(RunMap map)
    {
        Wiring wiring = map.Index.Layout.Wiring;
        HashSet<string> reversing = [.. wiring.Districts.Where(district => district.Reversing).Select(district => district.Name)];
        var feeders = wiring.Feeders
            .Select(feeder => (Feeder: feeder, At: map.Find(feeder.At)))
            .Where(pair => pair.At is not null)
            .Select(pair => (pair.Feeder, At: pair.At!.Value))
            .OrderBy(pair => pair.Feeder.Name, StringComparer.Ordinal)
            .ToImmutableArray();

        Spot[] gaps = [.. map.Runs.SelectMany(run => run.DoubleGaps)];
        CellMap cells = new(map, gaps.Select(gap => (gap.Run, gap.Position)));
        SignUnionWorkspace regions = new(cells.Count);
        foreach (Run run in map.Runs)
        {
            foreach ((int cell, int junction, bool differ) in cells.Meetings(run.Index))
            {
                _ = regions.Join(cell, junction, differ);
            }
        }

        ILookup<int, bool> kinds = feeders.ToLookup(
            pair => regions.Find(cells.CellBeside(pair.At.Run, pair.At.Position, before: true)).Root,
            pair => reversing.Contains(pair.Feeder.District));
        HashSet<int> swapped = [.. kinds.Where(region => region.All(kind => kind)).Select(region => region.Key)];
        bool Reversed(int cell) => swapped.Contains(regions.Find(cell).Root);
        bool Beside(Spot gap, bool before) => Reversed(cells.CellBeside(gap.Run, gap.Position, before));

        return new(
            [.. feeders.Where(pair => !reversing.Contains(pair.Feeder.District))],
            [.. gaps.Where(gap => Beside(gap, before: true) || Beside(gap, before: false))],
            [.. map.Junctions.Select(junction => junction.Index).Where(Reversed)],
            [.. map.Runs.SelectMany(run => ReversedStretches(run, cells, Reversed))]);
    }

    private static IEnumerable<RunStretch> ReversedStretches(Run run, CellMap cells, Func<int, bool> reversed)
    {
        ImmutableArray<double> cuts = cells.CutsOf(run.Index);
        for (int i = 0; i <= cuts.Length; i++)
        {
            if (reversed(cells.CellOf(run.Index, i)))
            {
                yield return new(run.Index, i == 0 ? 0 : cuts[i - 1], i == cuts.Length ? run.Length : cuts[i]);
            }
        }
    }
}

/// <summary>Part of a run, from one position to another.</summary>
internal readonly record struct RunStretch(int Run, double From, double To)
{
    /// <summary>Length in metres.</summary>
    public double Length => To - From;

    /// <summary>Whether all of another part lies on this one.</summary>
    public bool Holds(RunStretch other) =>
        Run == other.Run && From <= other.From + CellMap.SamePlaceMetres && other.To <= To + CellMap.SamePlaceMetres;

    /// <summary>Whether two parts share track, not merely a point.</summary>
    public bool Overlaps(RunStretch other) =>
        Run == other.Run && From < other.To - CellMap.SamePlaceMetres && other.From < To - CellMap.SamePlaceMetres;
}
