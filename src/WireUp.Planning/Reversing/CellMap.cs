using System.Collections.Immutable;

namespace WireUp.Planning.Reversing;

/// <summary>
/// The map cut into cells: every junction is one, and every run is as many as the given places cut it into. Cells are numbered
/// junctions first, then run by run.
/// </summary>
internal sealed class CellMap
{
    /// <summary>Places closer than this on one run are one place.</summary>
    internal const double SamePlaceMetres = 1e-6;

    private readonly RunMap _map;
    private readonly ImmutableArray<int> _first;
    private readonly ImmutableArray<ImmutableArray<double>> _cuts;

    internal CellMap(RunMap map, IEnumerable<(int Run, double Position)> places)
    {
        _map = map;
        ILookup<int, double> byRun = places.ToLookup(place => place.Run, place => place.Position);
        _cuts = [.. map.Runs.Select(run => Distinct(byRun[run.Index]))];
        List<int> first = [];
        int next = map.Junctions.Length;
        foreach (ImmutableArray<double> cuts in _cuts)
        {
            first.Add(next);
            next += cuts.Length + 1;
        }

        _first = [.. first];
        Count = next;
    }

    /// <summary>How many cells there are.</summary>
    internal int Count { get; }

    /// <summary>The places that cut a run, in order.</summary>
    internal ImmutableArray<double> CutsOf(int run) => _cuts[run];

    /// <summary>The cell of a run after its first <paramref name="cuts"/> cuts.</summary>
    internal int CellOf(int run, int cuts) => _first[run] + cuts;

    /// <summary>The cell on one side of a place: towards the start of the run, or towards its end.</summary>
    internal int CellBeside(int run, double position, bool before)
    {
        double edge = before ? position - SamePlaceMetres : position + SamePlaceMetres;
        return CellOf(run, _cuts[run].Count(cut => cut < edge));
    }

    /// <summary>Which cut of its run lies at a place.</summary>
    internal int CutAt(int run, double position) => _cuts[run].Count(cut => cut < position - SamePlaceMetres);

    /// <summary>Where runs meet junctions: cells that always conduct to each other, and whether their frames differ.</summary>
    internal IEnumerable<(int Cell, int Junction, bool Differ)> Meetings(int run)
    {
        for (int side = 0; side < 2; side++)
        {
            Tip tip = new(run, side);
            if (_map.PortAt(tip) is { } port)
            {
                yield return (CellOf(run, side == 0 ? 0 : _cuts[run].Length), port.Junction, !_map.SameFrame(tip));
            }
        }
    }

    private static ImmutableArray<double> Distinct(IEnumerable<double> positions)
    {
        List<double> kept = [];
        foreach (double position in positions.Order())
        {
            if (kept.Count == 0 || position - kept[^1] > SamePlaceMetres)
            {
                kept.Add(position);
            }
        }

        return [.. kept];
    }
}
