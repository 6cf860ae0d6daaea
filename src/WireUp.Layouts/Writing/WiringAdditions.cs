using System.Collections.Immutable;

namespace WireUp.Layouts.Writing;

/// <summary>What one wiring has more than another, ready to be written: a path of keys, and what is new there.</summary>
internal sealed class WiringAdditions(ControlSystem control, Wiring before, Wiring after)
{
    private readonly WiringText _text = new(control);

    /// <summary>The wire that a bus of the file names for all its runs, by district, as text.</summary>
    public required IReadOnlyDictionary<string, string> BusWires { get; init; }

    /// <summary>The additions, one for each mapping or list that grows.</summary>
    /// <exception cref="ArgumentException">Something of <c>before</c> is missing or different in <c>after</c>.</exception>
    public ImmutableArray<(ImmutableArray<string> Path, Snippet Added)> All()
    {
        List<(ImmutableArray<string> Path, Snippet Added)> all = [];
        AddNew(all, "supplies", Named(before.Supplies, supply => supply.Name, WiringText.Of), Named(after.Supplies, supply => supply.Name, WiringText.Of));
        AddNew(all, "boosters", Named(before.Boosters, booster => booster.Name, WiringText.Of), Named(after.Boosters, booster => booster.Name, WiringText.Of));
        AddNew(all, "districts", Named(before.Districts, district => district.Name, WiringText.Of), Named(after.Districts, district => district.Name, WiringText.Of));
        AddBuses(all);
        AddNew(all, "switches", Switches(before), Switches(after));
        AddNew(all, "feeders", Feeders(before), Feeders(after));
        AddGaps(all);
        return [.. all];
    }

    private static ImmutableArray<(string Name, Snippet Text)> Named<T>(IEnumerable<T> things, Func<T, string> name, Func<T, Snippet.Map> text) =>
        [.. things.Select(thing => (name(thing), (Snippet)text(thing)))];

    private static ImmutableArray<(string Name, Snippet Text)> Switches(Wiring wiring) =>
        [.. wiring.Switches.Select(hand => (hand.Name.Name, (Snippet)WiringText.Of(hand)))];

    private ImmutableArray<(string Name, Snippet Text)> Feeders(Wiring wiring) =>
        Named(wiring.Feeders, feeder => feeder.Name, feeder => WiringText.Of(feeder, after.Boosters));

    private static void AddNew(
        List<(ImmutableArray<string> Path, Snippet Added)> all,
        string key,
        ImmutableArray<(string Name, Snippet Text)> old,
        ImmutableArray<(string Name, Snippet Text)> now)
    {
        Dictionary<string, string> known = old.ToDictionary(thing => thing.Name, thing => thing.Text.Flow, StringComparer.Ordinal);
        foreach ((string name, Snippet text) in now)
        {
            if (known.Remove(name, out string? was) && was != text.Flow)
            {
                throw new ArgumentException($"'{name}' of '{key}' is {was} in the file and cannot become {text.Flow} by adding", nameof(now));
            }
        }

        NothingLost(key, known.Keys);
        HashSet<string> had = [.. old.Select(thing => thing.Name)];
        ImmutableArray<(string, Snippet)> added =
            [.. now.Where(thing => !had.Contains(thing.Name)).Select(thing => (ScalarText.Write(thing.Name), thing.Text))];
        if (!added.IsEmpty)
        {
            all.Add((["wiring", key], new Snippet.Map(added)));
        }
    }

    private void AddBuses(List<(ImmutableArray<string> Path, Snippet Added)> all)
    {
        Dictionary<string, Bus> known = before.Buses.ToDictionary(bus => bus.District, StringComparer.Ordinal);
        NothingLost("bus", known.Keys.Except(after.Buses.Select(bus => bus.District)));
        foreach (Bus bus in after.Buses.Where(bus => known.ContainsKey(bus.District)))
        {
            ImmutableArray<string> runs = NewRuns(known[bus.District], bus);
            if (!runs.IsEmpty)
            {
                all.Add((["wiring", "bus", bus.District, "runs"], new Snippet.List(runs)));
            }
        }

        ImmutableArray<(string, Snippet)> added = [.. after.Buses.Where(bus => !known.ContainsKey(bus.District))
            .Select(bus => (ScalarText.Write(bus.District), (Snippet)WiringText.Of(bus)))];
        if (!added.IsEmpty)
        {
            all.Add((["wiring", "bus"], new Snippet.Map(added)));
        }
    }

    private ImmutableArray<string> NewRuns(Bus old, Bus now)
    {
        HashSet<string> fresh = [.. New(old.Runs.Select(Identity), now.Runs.Select(Identity), $"bus {now.District}")];
        string? usual = BusWires.GetValueOrDefault(now.District);
        return [.. now.Runs.Where(run => fresh.Contains(Identity(run))).Select(run => WiringText.Run(run, run.Wire.ToString() == usual ? run.Wire : null))];
    }

    /// <summary>A run with its wire, the same from whichever end it is written.</summary>
    private static string Identity(BusRun run) => WiringText.Run(
        string.CompareOrdinal(run.From, run.To) <= 0 ? run : run with { From = run.To, To = run.From }, null);

    private void AddGaps(List<(ImmutableArray<string> Path, Snippet Added)> all)
    {
        ImmutableArray<string> added = New(before.Gaps.Select(_text.Of), after.Gaps.Select(_text.Of), "gaps");
        if (!added.IsEmpty)
        {
            all.Add((["wiring", "gaps"], new Snippet.List(added)));
        }
    }

    private static ImmutableArray<string> New(IEnumerable<string> old, IEnumerable<string> now, string what)
    {
        HashSet<string> known = [.. old];
        ImmutableArray<string> all = [.. now];
        NothingLost(what, known.Except(all, StringComparer.Ordinal));
        return [.. all.Where(text => !known.Contains(text))];
    }

    private static void NothingLost(string what, IEnumerable<string> lost)
    {
        if (lost.FirstOrDefault() is { } first)
        {
            throw new ArgumentException($"'{first}' of '{what}' is in the file and not in what it should become: adding takes nothing away", nameof(lost));
        }
    }
}
