using System.Collections.Immutable;
using System.Globalization;
using UnitsNet;
using WireUp.Layouts;

namespace WireUp.Documents;

/// <summary>
/// A pair of bus wires as it is laid: one length of cable through several taps, its insulation opened at each. The layout file
/// lists runs from tap to tap; nobody cuts the cable at every tap.
/// </summary>
/// <param name="Name">Its name on paper: <c>east:3</c>, the third line of district east.</param>
/// <param name="Runs">The runs it is made of, in order; all of one wire.</param>
/// <param name="Points">The points it passes, from its first to its last; one more than there are runs.</param>
internal sealed record BusLine(string Name, ImmutableArray<BusRun> Runs, ImmutableArray<string> Points)
{
    /// <summary>Its wire.</summary>
    public Wire Wire => Runs[0].Wire;

    /// <summary>Its length.</summary>
    public Length Length => Length.FromMeters(Runs.Sum(run => run.Length.Meters));

    /// <summary>The taps between its ends with their distance from its start.</summary>
    public IEnumerable<BusTap> Taps()
    {
        double metres = 0;
        for (int i = 0; i < Runs.Length - 1; i++)
        {
            metres += Runs[i].Length.Meters;
            yield return new(Points[i + 1], Length.FromMeters(metres));
        }
    }
}

/// <summary>A place on a line of bus where its insulation is opened.</summary>
/// <param name="Point">The tap's name.</param>
/// <param name="FromStart">Distance from the start of the line.</param>
public sealed record BusTap(string Point, Length FromStart);

/// <summary>The lines of every bus of a layout.</summary>
internal sealed class BusLines
{
    private readonly Dictionary<string, HashSet<BusRun>> _built;

    /// <param name="before">The layout as built, or null where nothing is.</param>
    public BusLines(Layout? before) => _built = (before?.Wiring.Buses ?? [])
        .GroupBy(bus => bus.District).ToDictionary(group => group.Key, group => group.SelectMany(bus => bus.Runs).ToHashSet());

    /// <summary>The lines of one bus. What is built and what is new are never one cable.</summary>
    public ImmutableArray<BusLine> Of(Bus bus) => new BusLineWorkspace(bus, (one, other) => IsBuilt(bus, one) == IsBuilt(bus, other)).Lines();

    /// <summary>Whether a run was there before.</summary>
    public bool IsBuilt(Bus bus, BusRun run) => _built.TryGetValue(bus.District, out HashSet<BusRun>? runs) && runs.Contains(run);
}

/// <summary>Finds the lines of one bus.</summary>
internal sealed class BusLineWorkspace
{
    private readonly Bus _bus;
    private readonly ILookup<string, int> _from;
    private readonly bool[] _used;
    private readonly double[] _beyond;
    private readonly Func<BusRun, BusRun, bool> _belongTogether;

    /// <param name="bus">The bus.</param>
    /// <param name="belongTogether">Whether two runs may be one cable besides being of one wire.</param>
    public BusLineWorkspace(Bus bus, Func<BusRun, BusRun, bool> belongTogether)
    {
        (_bus, _belongTogether) = (bus, belongTogether);
        _from = bus.Runs.Index().ToLookup(run => run.Item.From, run => run.Index);
        _used = new bool[bus.Runs.Length];
        _beyond = [.. bus.Runs.Select(_ => double.NaN)];
        for (int run = 0; run < _beyond.Length; run++) Measure(run);
    }

    /// <summary>
    /// The lines: each goes on as long as a run of the same wire does, at a fork along the longer way; the other ways begin lines of
    /// their own there.
    /// </summary>
    public ImmutableArray<BusLine> Lines()
    {
        ImmutableArray<BusLine>.Builder lines = ImmutableArray.CreateBuilder<BusLine>();
        for (int first = 0; first < _used.Length; first++)
        {
            if (_used[first]) continue;
            List<BusRun> runs = [];
            for (int? run = first; run is { } next; run = Following(next))
            {
                _used[next] = true;
                runs.Add(_bus.Runs[next]);
            }

            string name = string.Create(CultureInfo.InvariantCulture, $"{_bus.District}:{lines.Count + 1}");
            lines.Add(new(name, [.. runs], [runs[0].From, .. runs.Select(run => run.To)]));
        }

        return lines.ToImmutable();
    }

    private int? Following(int run)
    {
        int[] ways = [.. Ways(run).Where(way => !_used[way])];
        return ways.Length == 0 ? null : ways.MaxBy(way => _beyond[way]);
    }

    private IEnumerable<int> Ways(int run) => _from[_bus.Runs[run].To].Where(way =>
        way != run && _bus.Runs[way].Wire == _bus.Runs[run].Wire && _belongTogether(_bus.Runs[run], _bus.Runs[way]));

    /// <summary>
    /// Length of each run and the longest way on from it, without recursion: a hostile file may chain runs without end. A ring counts
    /// once round.
    /// </summary>
    private void Measure(int start)
    {
        Stack<(int Run, bool Done)> work = new([(start, false)]);
        HashSet<int> open = [];
        while (work.TryPop(out (int Run, bool Done) step))
        {
            if (!double.IsNaN(_beyond[step.Run])) continue;
            if (step.Done)
            {
                double longest = Ways(step.Run).Select(way => double.IsNaN(_beyond[way]) ? 0 : _beyond[way]).DefaultIfEmpty(0).Max();
                _beyond[step.Run] = _bus.Runs[step.Run].Length.Meters + longest;
                continue;
            }

            if (!open.Add(step.Run)) continue;
            work.Push((step.Run, true));
            foreach (int way in Ways(step.Run).Where(way => double.IsNaN(_beyond[way]))) work.Push((way, false));
        }
    }
}
