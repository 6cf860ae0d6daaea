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
        ReversingPlan plan = ReversingPlanner.Plan(draft.Layout, ReversingOptions.Default with { Rework = options.Rework, NextBest = options.SearchAlternatives }, cancel);
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
        PowerSizing sizing = PowerSizing.Of(draft.Layout, LoadAmps.Of(draft.Layout), BreakerSizes.Of(options));
        DistrictPlan plan = DistrictPlanner.Plan(
            draft.Layout, [.. draft.Reversing!.Sections.Select(section => (section.Name, InsideOf(section, draft.Layout)))], sizing, options.Rework, cancel);
        return Rework.TakeOut(draft with { Layout = WithGaps(draft.Layout, plan.Gaps(draft.Layout.Control)), Districts = plan, Sizing = sizing }, plan.FeedersToMove)
            .Add(PlanWords.OfBorders(plan, draft.Layout.Control)).Measure(plan.Objectives).Remain(plan.Remains);
    }

    private FeederOptions Feeding => new() { Robust = options.Robust };

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
        FeederPlan plan = FeederPlanner.Plan(draft.Layout, Feeding, cancel);
        DistrictMap map = DistrictMap.Of(draft.Layout, draft.Districts!.Districts);
        ImmutableArray<FeederSite> sites = [.. plan.Places.Select(place => new FeederSite(place, map.At(place) ?? "", plan.Why.GetValueOrDefault(place)))];
        return (draft with { Feeders = [.. sites.Where(site => site.District.Length > 0)] })
            .Measure([plan.Objective])
            .Remain(plan.Remains)
            .Remain(sites.Where(site => site.District.Length == 0).Select(site => PlanWords.NoDistrict(site.At)));
    }

    /// <summary>
    /// Boosters, bus and wire together: with the fewest boosters that can carry the districts, and with up to three more as long as some
    /// district is out of its limits, or the feeders that keep it within them cost more than a booster. What keeps most districts within
    /// them is taken, and among such the cheapest.
    /// </summary>
    public PlanDraft Power(PlanDraft draft)
    {
        BoosterStage stage = new(draft, DistrictMap.Of(draft.Layout, draft.Districts!.Districts));
        ImmutableArray<DistrictDemand> demands = stage.Demands();
        if (demands.IsEmpty)
        {
            return Finish(ChooseWire(Wired(draft)));
        }

        BoosterPlanner planner = new(draft.Layout, draft.Sizing!, BestOhmsPerMetre(draft));
        ImmutableArray<BuiltBooster> built = stage.Built();
        BoosterPlaces places = new(draft.Layout, demands, stage.Drops(options, StockFor(draft)));
        int fewest = new BoosterPacking(demands, built, draft.Sizing!).Fewest();
        return Best(draft, demands, fewest, added => planner.Plan(demands, built, added) is { } plan ? stage.Equip(places.Improve(plan), demands, fewest) : null);
    }

    private PlanDraft Best(PlanDraft draft, ImmutableArray<DistrictDemand> demands, int fewest, Func<int, PlanDraft?> equip)
    {
        PlanDraft? best = null;
        List<string> lost = [];
        try
        {
            for (int added = fewest, last = demands.Length; added <= last && (best is null || !best.Failing.IsEmpty || IsMendedAtAPrice(best, draft)); added++)
            {
                cancel.ThrowIfCancellationRequested();
                progress?.Report(new(PlanWords.Trying(added), Planner.PowerPercent + (8 * Math.Min(added - fewest, SpareBoosters))));
                if (equip(added) is not { } equipped)
                {
                    lost.Add(PlanWords.CannotCarry(added));
                    continue;
                }

                last = best is null ? Math.Min(last, added + SpareBoosters) : last;
                PlanDraft wired = Wired(equipped);
                bool isBetter = best is null || wired.Failing.Length < best.Failing.Length
                    || (wired.Failing.Length == best.Failing.Length && PriceOf(wired) < PriceOf(best));
                lost.AddRange(isBetter ? best is null ? [] : [PlanWords.Lost(best)] : [PlanWords.Lost(wired)]);
                best = isBetter ? wired : best;
            }
        }
        catch (OperationCanceledException) when (best is not null)
        {
            // What was found so far is a plan, if not the best one; the caller sees the request and says so.
        }

        return best is not null ? Finish(ChooseWire(PlanWords.WithLost(Fewer(best, draft), lost))) : WithoutBooster(draft, demands);
    }

    /// <summary>With fewer feeders where volts asked for more than the distance does, and with a bound that knows the volts.</summary>
    private PlanDraft Fewer(PlanDraft mended, PlanDraft fed)
    {
        ImmutableArray<(string District, int Least)> more = [.. mended.Feeders.CountBy(site => site.District).OrderBy(pair => pair.Key, StringComparer.Ordinal)
            .Select(pair => (pair.Key, Value: pair.Value, Least: fed.Feeders.Count(site => site.District == pair.Key)))
            .Where(each => each.Value > each.Least && mended.Buses.Any(bus => bus.District == each.Key && !bus.Runs.IsEmpty) && !mended.Failing.Contains(each.Key))
            .Select(each => (each.Key, each.Least))];
        if (more.IsEmpty || options.Robust)
        {
            return mended;
        }

        progress?.Report(new(PlanWords.FewerFeeders, Planner.WirePercent - 1));
        try
        {
            FewerFeeders fewer = new(mended, options, StockFor(mended), Relaid, cancel);
            ImmutableArray<(FewestFeeders Found, int Least)> found = [.. more.AsParallel().AsOrdered().WithCancellation(cancel).Select(each => (fewer.In(each.District), each.Least))];
            return Relaid(mended with
            {
                Feeders = [.. mended.Feeders.Where(site => !more.Any(each => each.District == site.District)).Concat(found.SelectMany(each => each.Found.Feeders)).OrderBy(site => site.At)],
                Objectives = [.. mended.Objectives.Select(objective => objective.Name == "feeders"
                    ? objective with { Bound = objective.Bound + found.Sum(each => Math.Max(0, each.Found.Bound - each.Least)) }
                    : objective)],
            });
        }
        catch (OperationCanceledException) when (cancel.IsCancellationRequested)
        {
            // Only fewer feeders could have been found.
            return mended;
        }
    }

    /// <summary>Whether the volts asked for so many feeders more than the distance does that another booster may cost less.</summary>
    private static bool IsMendedAtAPrice(PlanDraft mended, PlanDraft fed) =>
        (mended.Feeders.Length - fed.Feeders.Length) * Prices.Feeder > Prices.Booster + Prices.Supply;

    private static double PriceOf(PlanDraft draft) =>
        (draft.Layout.Wiring.Boosters.Length * (Prices.Booster + Prices.Supply)) + (draft.Feeders.Length * Prices.Feeder);

    /// <summary>What is left to plan when no booster can carry the new districts: feeders of districts that are there.</summary>
    private PlanDraft WithoutBooster(PlanDraft draft, ImmutableArray<DistrictDemand> demands)
    {
        HashSet<string> unfed = [.. demands.Select(demand => demand.Name)];
        return Finish(ChooseWire(Wired(draft with { Feeders = [.. draft.Feeders.Where(site => !unfed.Contains(site.District))] })))
            .Remain([PlanWords.NoBooster(demands, draft.Sizing!)]);
    }

    /// <summary>The draft with bus, with further feeders where the circuit asks for them, and judged with the thickest wire.</summary>
    private PlanDraft Wired(PlanDraft draft) => Mended(Relaid(draft));

    private WireStock StockFor(PlanDraft draft) => WireStock.Of(options, draft.Before);

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

    /// <summary>The wire of every new run; the best so far when a stop is asked for.</summary>
    private PlanDraft ChooseWire(PlanDraft draft)
    {
        WireStock stock = StockFor(draft);
        ImmutableArray<BusRuns> buses = [.. draft.Buses.Where(bus => !bus.Runs.IsEmpty).Select(bus => BusRuns.Of(bus, draft.Layout))];
        progress?.Report(new("wire of the bus", Planner.WirePercent));
        GaugeChooser chooser = new(buses, stock, wireOf => PlanAssembly.Of(draft, options, stock.System, wireOf), cancel);
        return draft with { Gauges = chooser.Choose() };
    }

    /// <summary>Selectors, bus and feeders of the other cabs. What was minimised for one cab is needed, and cannot be less, for each.</summary>
    public PlanDraft Select(PlanDraft draft, Cabs cabs)
    {
        Layout one = Assembled(draft);
        PlanDraft whole = cabs.Restore(draft);
        if (SelectorPlanner.Plan(one, cabs) is not { } plan)
        {
            return whole.Remain([PlanWords.NoSelectors(cabs)]);
        }

        return (whole with
        {
            WithSelectors = cabs.Restore(one with { Wiring = plan.Wiring }).Wiring,
            Objectives = [.. whole.Objectives.Select(objective => objective.Name is "feeders" or "bus-metres" or "bus-copper" or "bus-price"
                ? objective with { Value = objective.Value * cabs.Names.Length, Bound = objective.Bound * cabs.Names.Length }
                : objective)],
        }).Add(plan.Proposals);
    }

    private double BestOhmsPerMetre(PlanDraft draft) =>
        Conductors.OhmsPerMetre(StockFor(draft).Thickest, draft.Layout.Defaults.Temperature);

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
