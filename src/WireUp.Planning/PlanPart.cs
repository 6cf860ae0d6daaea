using System.Collections.Immutable;
using WireUp.Layouts;

namespace WireUp.Planning;

/// <summary>
/// A part of a plan to accept by itself: some proposals, and what they cannot be without. A feeder needs its tap, the bus up to it, its
/// district and booster; a district its booster; a booster its supply; a reversing section all that belongs to it; a selector the gaps
/// between blocks and the feeders that it switches, and each of these the selector.
/// </summary>
public static class PlanPart
{
    /// <summary>The layout as it was, with these proposals and what they need.</summary>
    /// <param name="plan">A plan that changes nothing that is built.</param>
    /// <param name="ids">Ids of proposals of it; others are passed over. A terminal strip adds nothing to a layout.</param>
    /// <exception cref="ArgumentException">One of the proposals changes something that is built.</exception>
    public static Layout Of(PlanResult plan, IEnumerable<string> ids)
    {
        HashSet<string> asked = new(ids, StringComparer.OrdinalIgnoreCase);
        PlanPartBuilder part = new(plan);
        foreach (Proposal proposal in plan.Proposals.Where(proposal => asked.Contains(proposal.Id)))
        {
            part.Add(proposal);
        }

        return part.Build();
    }
}

/// <summary>Collects what of a plan is accepted.</summary>
internal sealed class PlanPartBuilder(PlanResult plan)
{
    private readonly Wiring _after = plan.After.Wiring;
    private readonly HashSet<string> _supplies = [], _boosters = [], _districts = [], _feeders = [];
    private readonly HashSet<(string District, string From, string To)> _runs = [];
    private readonly HashSet<Gap> _gaps = [];
    private readonly HashSet<PieceId> _contacts = [], _selectors = [];

    public void Add(Proposal proposal)
    {
        switch (proposal.Kind)
        {
            case ProposalKind.Gap:
                _gaps.UnionWith(_after.Gaps.Where(proposal.AsksFor));
                break;
            case ProposalKind.ReversingSection:
                AddSection(proposal.Id);
                break;
            case ProposalKind.District:
                AddDistrict(proposal.Id);
                break;
            case ProposalKind.Booster:
                AddBooster(proposal.Id);
                break;
            case ProposalKind.Supply:
                _supplies.Add(proposal.Id);
                break;
            case ProposalKind.Feeder:
                AddFeeder(proposal.Id);
                break;
            case ProposalKind.BusRun:
                foreach ((Bus bus, BusRun run) in Runs().Where(pair => $"{pair.Run.From} > {pair.Run.To}" == proposal.At)) AddRun(bus.District, run);
                break;
            case ProposalKind.FrogContact:
                _contacts.Add(new(proposal.At));
                break;
            case ProposalKind.Selector:
                AddSelector(new(proposal.Id));
                break;
            case ProposalKind.TerminalStrip:
                break;
            case ProposalKind.Rework:
                throw new ArgumentException($"'{proposal.Id}' changes something that is built and cannot be added by itself", nameof(proposal));
            default:
                throw new ArgumentOutOfRangeException(nameof(proposal), proposal.Kind, "not a kind of proposal");
        }
    }

    public Layout Build()
    {
        Wiring before = plan.Before.Wiring;
        return plan.Before with
        {
            Track = [.. plan.Before.Track.Select(piece => _contacts.Contains(piece.Id) ? plan.After.Track.First(after => after.Id == piece.Id) : piece)],
            Wiring = before with
            {
                Supplies = Grown(before.Supplies, _after.Supplies, supply => _supplies.Contains(supply.Name)),
                Boosters = Grown(before.Boosters, _after.Boosters, booster => _boosters.Contains(booster.Name)),
                Districts = Grown(before.Districts, _after.Districts, district => _districts.Contains(district.Name)),
                Feeders = Grown(before.Feeders, _after.Feeders, feeder => _feeders.Contains(feeder.Name)),
                Gaps = Grown(before.Gaps, _after.Gaps, _gaps.Contains),
                Buses = Buses(before.Buses),
                Switches = Grown(before.Switches, _after.Switches, selector => _selectors.Contains(selector.Name)),
            },
        };
    }

    private void AddSection(string name)
    {
        AddGapsOf(name);
        AddDistrict(name);
        foreach (Feeder feeder in _after.Feeders.Where(feeder => feeder.District == name)) AddFeeder(feeder.Name);
    }

    private void AddSelector(PieceId name)
    {
        if (!_selectors.Add(name)) return;
        AddGapsOf("block");
        foreach (Feeder feeder in _after.Feeders.Where(feeder => feeder.When?.Owner == name)) AddFeeder(feeder.Name);
    }

    private void AddGapsOf(string name)
    {
        foreach (Proposal gap in plan.Proposals.Where(each => each.Kind == ProposalKind.Gap && each.Id.StartsWith(name + "-gap-", StringComparison.Ordinal)))
        {
            Add(gap);
        }
    }

    private void AddDistrict(string name)
    {
        if (!_districts.Add(name)) return;
        foreach (District district in _after.Districts.Where(district => district.Name == name)) AddBooster(district.Booster);
    }

    private void AddBooster(string name)
    {
        _boosters.Add(name);
        _supplies.UnionWith(_after.Boosters.Where(booster => booster.Name == name).Select(booster => booster.Supply).OfType<string>());
    }

    private void AddFeeder(string name)
    {
        if (_after.Feeders.FirstOrDefault(feeder => feeder.Name == name) is not { } feeder || !_feeders.Add(name)) return;
        AddDistrict(feeder.District);
        AddRunsTo(feeder.District, feeder.Tap);
        if (feeder.When is { Owner: var owner } && plan.Proposals.Any(each => each.Kind == ProposalKind.Selector && each.Id == owner.Name)) AddSelector(owner);
    }

    private void AddRun(string district, BusRun run)
    {
        if (!_runs.Add((district, run.From, run.To))) return;
        AddDistrict(district);
        AddRunsTo(district, run.From);
    }

    private void AddRunsTo(string district, string point)
    {
        foreach ((Bus bus, BusRun run) in Runs().Where(pair => pair.Bus.District == district && pair.Run.To == point)) AddRun(bus.District, run);
    }

    private IEnumerable<(Bus Bus, BusRun Run)> Runs() => _after.Buses.SelectMany(bus => bus.Runs.Select(run => (bus, run)));

    private ImmutableArray<Bus> Buses(ImmutableArray<Bus> before)
    {
        Dictionary<string, Bus> built = before.ToDictionary(bus => bus.District);
        return
        [
            .. _after.Buses
                .Select(bus => bus with { Runs = Grown(built.GetValueOrDefault(bus.District)?.Runs ?? [], bus.Runs, run => _runs.Contains((bus.District, run.From, run.To))) })
                .Where(bus => !bus.Runs.IsEmpty || built.ContainsKey(bus.District)),
        ];
    }

    private static ImmutableArray<T> Grown<T>(ImmutableArray<T> before, ImmutableArray<T> after, Func<T, bool> isAccepted)
    {
        HashSet<T> had = [.. before];
        return [.. before, .. after.Where(thing => !had.Contains(thing) && isAccepted(thing))];
    }
}
