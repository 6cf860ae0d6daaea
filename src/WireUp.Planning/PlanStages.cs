using System.Collections.Immutable;
using WireUp.Layouts;
using WireUp.Layouts.Reference;
using WireUp.Planning.Blocks;
using WireUp.Planning.Buses;
using WireUp.Planning.Devices;
using WireUp.Planning.Districts;
using WireUp.Planning.Feeders;
using WireUp.Planning.Frogs;
using WireUp.Planning.Reversing;

namespace WireUp.Planning;

/// <summary>The stages of a plan, each from draft to draft.</summary>
internal sealed partial class PlanStages(PlanOptions options, IProgress<PlanProgress>? progress, CancellationToken cancel)
{
    private const int SpareBoosters = 3;

    public PlanDraft Reverse(PlanDraft draft)
    {
        ReversingPlan plan = ReversingPlanner.Plan(draft.Layout, ReversingOptions.Default with { Rework = options.Rework }, cancel);
        PlanDraft cut = (draft with { Layout = WithGaps(draft.Layout, plan.Gaps), Reversing = plan }).Add(plan.Proposals).Measure(plan.Objectives);
        return options.Rework
            ? Rework.TakeOut(Rework.Swap(cut, plan.WrongFeeders), plan.Sections.SelectMany(section => section.FeedersToMove.Select(feeder => (feeder, section.Name))))
                .Remain(plan.Remains.Except(plan.WrongFeeders.Select(ReversingWords.WrongWay)))
            : cut.Remain(plan.Remains);
    }

    public static PlanDraft Frogs(PlanDraft draft)
    {
        FrogPlan plan = FrogPlanner.Plan(draft.Layout);
        return (draft with { Layout = plan.ApplyTo(draft.Layout) }).Add(plan.Proposals).Remain(plan.Remains);
    }

    public PlanDraft Districts(PlanDraft draft)
    {
        PowerSizing sizing = PowerSizing.Of(draft.Layout, LoadAmps.Of(draft.Layout));
        DistrictPlan plan = DistrictPlanner.Plan(
            draft.Layout, [.. draft.Reversing!.Sections.Select(section => (section.Name, InsideOf(section, draft.Layout)))], sizing, options.Rework, cancel);
        return Rework.TakeOut(draft with { Layout = WithGaps(draft.Layout, plan.Gaps(draft.Layout.Control)), Districts = plan, Sizing = sizing }, plan.FeedersToMove)
            .Add(PlanWords.OfBorders(plan, draft.Layout.Control)).Measure(plan.Objectives).Remain(plan.Remains);
    }

    /// <summary>Gaps of the blocks that were asked for. Each set is exact by itself: with as many blocks, no fewer gaps will do.</summary>
    public static PlanDraft Block(PlanDraft draft)
    {
        if (draft.Layout.Wishes.Blocks is not { } wish)
        {
            return draft;
        }

        BlockPlan plan = BlockPlanner.Plan(draft.Layout, wish, draft.Reversing!.SwapAt);
        return (draft with { Layout = WithGaps(draft.Layout, plan.Gaps) })
            .Add(plan.Proposals).Measure([new("block-gaps", plan.Gaps.Length, plan.Gaps.Length)]).Remain(plan.Remains);
    }

    public PlanDraft Feed(PlanDraft draft)
    {
        FeederPlan plan = FeederPlanner.Plan(draft.Layout, cancel: cancel);
        DistrictMap map = DistrictMap.Of(draft.Layout, draft.Districts!.Districts);
        ImmutableArray<FeederSite> sites = [.. plan.Places.Select(place => new FeederSite(place, map.At(place) ?? "", null))];
        return (draft with { Feeders = [.. sites.Where(site => site.District.Length > 0)] })
            .Measure([plan.Objective])
            .Remain(plan.Remains)
            .Remain(sites.Where(site => site.District.Length == 0).Select(site => PlanWords.NoDistrict(site.At)));
    }

    /// <summary>
    /// Boosters, bus and wire together: with the fewest boosters that the load asks for, and with up to three more as long as some
    /// district is out of its limits. What keeps most districts within them with the fewest boosters is taken.
    /// </summary>
    public PlanDraft Power(PlanDraft draft)
    {
        BoosterStage stage = new(draft, DistrictMap.Of(draft.Layout, draft.Districts!.Districts));
        ImmutableArray<DistrictDemand> demands = stage.Demands();
        if (demands.IsEmpty)
        {
            return Finish(Wired(draft));
        }

        BoosterPlanner planner = new(draft.Layout, draft.Sizing!, BestOhmsPerMetre(draft.Layout));
        ImmutableArray<BuiltBooster> built = stage.Built();
        double roomAmps = built.Sum(booster => Math.Max(0, booster.RoomAmps));
        int fewest = Math.Max(0, (int)Math.Ceiling(((demands.Sum(demand => demand.WorkingAmps) - roomAmps) / draft.Sizing!.MostBoosterAmps) - 1e-6));
        return Best(draft, demands, fewest, added => planner.Plan(demands, built, added) is { } plan ? stage.Equip(plan, demands, fewest) : null);
    }

    private PlanDraft Best(PlanDraft draft, ImmutableArray<DistrictDemand> demands, int fewest, Func<int, PlanDraft?> equip)
    {
        PlanDraft? best = null;
        try
        {
            for (int added = fewest, last = demands.Length; added <= last && (best is null || best.Gauges!.Failing.Any()); added++)
            {
                cancel.ThrowIfCancellationRequested();
                progress?.Report(new(PlanWords.Trying(added), Planner.PowerPercent + (8 * Math.Min(added - fewest, SpareBoosters))));
                if (equip(added) is { } equipped)
                {
                    last = best is null ? Math.Min(last, added + SpareBoosters) : last;
                    PlanDraft wired = Wired(equipped);
                    best = best is null || wired.Gauges!.Failing.Count() < best.Gauges!.Failing.Count() ? wired : best;
                }
            }
        }
        catch (OperationCanceledException) when (best is not null)
        {
            // What was found so far is a plan, if not the best one; the caller sees the request and says so.
            return Finish(best);
        }

        return best is not null ? Finish(best) : WithoutBooster(draft, demands);
    }

    /// <summary>What is left to plan when no booster can carry the new districts: feeders of districts that are there.</summary>
    private PlanDraft WithoutBooster(PlanDraft draft, ImmutableArray<DistrictDemand> demands)
    {
        HashSet<string> unfed = [.. demands.Select(demand => demand.Name)];
        return Finish(Wired(draft with { Feeders = [.. draft.Feeders.Where(site => !unfed.Contains(site.District))] }))
            .Remain([PlanWords.NoBooster(demands, draft.Sizing!)]);
    }

    /// <summary>The draft with bus and wire, and with further feeders where the circuit asks for them.</summary>
    private PlanDraft Wired(PlanDraft draft) => ChooseWire(Mended(Relaid(draft)));

    /// <summary>The draft with its bus laid to the feeders it has now; bus whose feeders are as they were stays as it is.</summary>
    private PlanDraft Relaid(PlanDraft draft)
    {
        Wiring wiring = draft.Layout.Wiring;
        BoosterStage stage = new(draft, DistrictMap.Of(draft.Layout, draft.Districts!.Districts));
        Dictionary<string, TrackPlace> beside = wiring.Boosters.ToDictionary(
            booster => booster.Name, booster => booster.Beside ?? stage.PlaceOf(booster.Name));
        IEnumerable<BusTask> tasks = wiring.Districts
            .Where(district => draft.Feeders.Any(site => site.District == district.Name))
            .Select(district => new BusTask(
                district.Name,
                district.Booster,
                beside[district.Booster],
                [.. wiring.Feeders.Where(feeder => feeder.District == district.Name).Select(feeder => (feeder.Tap, feeder.At))],
                [.. draft.Feeders.Where(site => site.District == district.Name).Select(site => site.At).Order()]));
        BusRules rules = new(
            options.BusSlack.DecimalFractions,
            options.BoosterLead.Meters,
            Math.Max(0, Constants.FeederLengthMost.Value - options.FeederLength.Meters));
        return draft with { Buses = [.. tasks.Select(Lay)] };

        PlannedBus Lay(BusTask task)
        {
            cancel.ThrowIfCancellationRequested();
            return draft.Buses.FirstOrDefault(bus => bus.Task.IsSameAs(task)) ?? BusPlanner.Lay(draft.Layout, task, rules);
        }
    }

    /// <summary>New runs of a bus that is there are not thinner than it.</summary>
    private PlanDraft ChooseWire(PlanDraft draft) => draft with
    {
        Gauges = GaugeChooser.Choose(
            [.. draft.Buses.Where(bus => !bus.Runs.IsEmpty).Select(bus => (bus.District, draft.Layout.Wiring.Buses
                .Where(built => built.District == bus.District)
                .SelectMany(built => built.Runs)
                .Select(run => Conductors.AreaSquareMillimetres(run.Wire))
                .DefaultIfEmpty(0).Max()))],
            SizesOf(draft.Before),
            wire => PlanAssembly.Of(draft, options, SizesOf(draft.Before), _ => wire),
            cancel),
    };

    private double BestOhmsPerMetre(Layout layout) =>
        Conductors.OhmsPerMetre(GaugeChooser.Thickest(SizesOf(layout)), layout.Defaults.Temperature);

    /// <summary>The sizes asked for; else those of the wire that is there; else metric.</summary>
    private WireSystem SizesOf(Layout layout)
    {
        IEnumerable<Wire> built = layout.Wiring.Buses.SelectMany(bus => bus.Runs).Select(run => run.Wire)
            .Concat(layout.Wiring.Feeders.Select(feeder => feeder.Wire));
        return options.WireSystem ?? (built.FirstOrDefault() is Wire.Awg ? WireSystem.Awg : WireSystem.Metric);
    }

    private static TrackLandmark InsideOf(ReversingSection section, Layout layout)
    {
        if (section.Stretches.IsEmpty)
        {
            return new(new LayoutIndex(layout).Piece(section.Turnouts[0]).Ends.First(), null);
        }

        TrackStretch longest = section.Stretches.MaxBy(stretch => Math.Round(stretch.ToMetres - stretch.FromMetres, 6));
        return new(null, new(longest.Section, (longest.FromMetres + longest.ToMetres) / 2));
    }

    private static Layout WithGaps(Layout layout, IEnumerable<Gap> gaps) =>
        layout with { Wiring = layout.Wiring with { Gaps = [.. layout.Wiring.Gaps, .. gaps] } };
}
