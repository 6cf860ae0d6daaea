using System.Collections.Immutable;
using WireUp.Layouts;
using WireUp.Planning.Feeders;
using WireUp.Rails;
using static System.FormattableString;

namespace WireUp.Planning.Blocks;

/// <summary>The wiring of several cabs, and why.</summary>
/// <param name="Wiring">All wiring, with selectors and the bus and feeders of every cab.</param>
/// <param name="Proposals">What came on top of the plan for one cab.</param>
internal sealed record SelectorPlan(Wiring Wiring, ImmutableArray<Proposal> Proposals);

/// <summary>
/// Gives each block a selector with a position for every cab and one for none. The bus of each cab is laid like that of the first, and at
/// each feeder of the first a feeder of each other cab is soldered; every one conducts, with both wires, in its cab's position only.
/// </summary>
internal sealed class SelectorPlanner
{
    private const string Off = "off", NoCab = "no-cab";
    private const string Rule = "Each block has a selector that breaks before it makes and switches both wires, so that no common rail is needed; each cab has a bus of its own. Common practice, no published source.";

    private readonly Layout _one;
    private readonly Cabs _cabs;
    private readonly ImmutableArray<Switch> _selectors;
    private readonly ImmutableDictionary<string, Switch> _of;
    private readonly List<Proposal> _proposals = [];

    private SelectorPlanner(Layout one, Cabs cabs)
    {
        (_one, _cabs) = (one, cabs);
        (_selectors, _of) = Selectors();
    }

    /// <summary>The wiring of all cabs.</summary>
    /// <param name="one">The layout as planned for the first cab, with feeders and bus.</param>
    /// <param name="cabs">The cabs.</param>
    /// <returns>Null where the first cab does not feed all of it, or a reversing section is in it.</returns>
    public static SelectorPlan? Plan(Layout one, Cabs cabs) =>
        one.Wiring.Districts.Where(district => district.Use == DistrictUse.Running).All(district => district.Booster == cabs.First.Name && !district.Reversing)
            ? new SelectorPlanner(one, cabs).Plan()
            : null;

    private SelectorPlan Plan()
    {
        Wiring wiring = _one.Wiring;
        _proposals.AddRange(_selectors.Select(OfSelector));
        Wiring all = wiring with
        {
            Switches = [.. wiring.Switches, .. _selectors],
            Feeders = [.. wiring.Feeders.Select(feeder => feeder with { When = Position(feeder, _cabs.First) })],
        };
        foreach (Booster cab in _cabs.Others)
        {
            all = WithCab(all, cab);
        }

        return new(all, [.. _proposals]);
    }

    /// <summary>One selector for each piece of rail of leg A between cuts; pieces fed at several places have one for all of them.</summary>
    private (ImmutableArray<Switch> Selectors, ImmutableDictionary<string, Switch> Of) Selectors()
    {
        FeedableTrack track = new(RailGraph.Build(_one with { Wiring = _one.Wiring with { Feeders = [] } }), new FeederOptions().MarginMetres);
        ImmutableArray<string> positions = [.. _cabs.Names, _cabs.Names.Contains(Off) ? NoCab : Off];
        HashSet<string> taken = [.. _one.Track.Select(piece => piece.Id.Name), .. _one.Wiring.Switches.Select(each => each.Name.Name)];
        var blocks = _one.Wiring.Feeders
            .GroupBy(BlockOf)
            .Zip(Free("B", taken), (block, name) => (Selector: new Switch(new(name), positions), Feeders: block.ToArray()))
            .ToArray();
        return ([.. blocks.Select(block => block.Selector)], blocks
            .SelectMany(block => block.Feeders.Select(feeder => (feeder.Name, block.Selector)))
            .ToImmutableDictionary(pair => pair.Name, pair => pair.Selector));

        int BlockOf(Feeder feeder)
        {
            (int first, int second) = track.LinksAt(feeder.At);
            return track.IslandOf[track.Graph.Links[feeder.Swap ? second : first].From];
        }
    }

    private Setting Position(Feeder feeder, Booster cab) => new(_of[feeder.Name].Name, cab.Name);

    /// <summary>The wiring with what one more cab needs: the districts, bus and feeders of the first once more, under names of their own.</summary>
    private Wiring WithCab(Wiring all, Booster cab)
    {
        Wiring one = _one.Wiring;
        District[] districts = [.. one.Districts.Where(district => district.Booster == _cabs.First.Name)];
        HashSet<string> mirrored = [.. districts.Select(district => district.Name)];
        Bus[] buses = [.. one.Buses.Where(bus => mirrored.Contains(bus.District))];
        Dictionary<string, string> district = Renamed(districts.Select(each => each.Name), "d", all.Districts.Select(each => each.Name));
        Dictionary<string, string> point = Renamed(
            buses.SelectMany(bus => bus.Runs).Select(run => run.To).Distinct(),
            "P",
            all.Buses.SelectMany(bus => bus.Runs).SelectMany(run => new[] { run.From, run.To }).Concat(_cabs.Names));
        point[_cabs.First.Name] = cab.Name;
        Dictionary<string, string> name = Renamed(one.Feeders.Select(feeder => feeder.Name), "f", all.Feeders.Select(feeder => feeder.Name));
        Feeder[] feeders = [.. one.Feeders.Select(feeder => feeder with
        {
            Name = name[feeder.Name],
            District = district[feeder.District],
            Tap = point[feeder.Tap],
            When = Position(feeder, cab),
        })];
        Bus[] laid = [.. buses.Select(bus => bus with
        {
            District = district[bus.District],
            Runs = [.. bus.Runs.Select(run => run with { From = point[run.From], To = point[run.To] })],
        })];
        Propose(cab, districts, district, laid, feeders, name);
        return all with
        {
            Districts = [.. all.Districts, .. districts.Select(each => each with { Name = district[each.Name], Booster = cab.Name })],
            Buses = [.. all.Buses, .. laid],
            Feeders = [.. all.Feeders, .. feeders],
        };
    }

    private void Propose(
        Booster cab, District[] districts, Dictionary<string, string> district, Bus[] buses, Feeder[] feeders, Dictionary<string, string> name)
    {
        _proposals.AddRange(districts.Select(each => new Proposal(
            district[each.Name], ProposalKind.District, district[each.Name], Invariant($"What '{each.Name}' is for cab '{_cabs.First.Name}', '{district[each.Name]}' is for cab '{cab.Name}': the same track, where selectors give it to that cab. Its breaker trips at {each.Trip.Amperes:0.#} A."), Rule, Cost: 10)));
        int number = _proposals.Count(proposal => proposal.Kind == ProposalKind.BusRun);
        _proposals.AddRange(buses.SelectMany(bus => bus.Runs.Select(run => (bus.District, run))).Select((pair, i) => new Proposal(
            Invariant($"cab-bus-{number + i + 1}"), ProposalKind.BusRun, Invariant($"{pair.run.From} > {pair.run.To}"), Invariant($"Bus of cab '{cab.Name}' from {pair.run.From} to {pair.run.To}: {pair.run.Length.Meters:0.00} m of {pair.run.Wire}, beside that of cab '{_cabs.First.Name}'."), Rule, Cost: Math.Round(pair.run.Length.Meters, 2))));
        Dictionary<string, string> like = name.ToDictionary(pair => pair.Value, pair => pair.Key);
        _proposals.AddRange(feeders.Select(feeder => new Proposal(
            feeder.Name, ProposalKind.Feeder, feeder.At.ToString(), Invariant($"Beside feeder {like[feeder.Name]}: the same rails from cab '{cab.Name}', at tap {feeder.Tap}, while selector {feeder.When!.Value.Owner} stands at {feeder.When.Value.Position}."), Rule, Cost: 1)));
    }

    private Proposal OfSelector(Switch selector)
    {
        string[] feeders = [.. _one.Wiring.Feeders.Where(feeder => _of[feeder.Name] == selector).Select(feeder => Invariant($"{feeder.Name} at {feeder.At}"))];
        return new(
            selector.Name.Name,
            ProposalKind.Selector,
            selector.Name.Name,
            Invariant($"The block fed by {string.Join(", ", feeders)} is given to one cab or to none here: {string.Join(", ", selector.Positions)}."),
            Rule,
            Cost: 5);
    }

    private static Dictionary<string, string> Renamed(IEnumerable<string> names, string letter, IEnumerable<string> taken) =>
        names.Zip(Free(letter, [.. taken])).ToDictionary(pair => pair.First, pair => pair.Second);

    private static IEnumerable<string> Free(string letter, HashSet<string> taken) =>
        Enumerable.Range(1, int.MaxValue - 1).Select(number => Invariant($"{letter}{number}")).Where(name => !taken.Contains(name));
}
