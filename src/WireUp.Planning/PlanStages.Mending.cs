using System.Collections.Immutable;
using WireUp.Checking;
using WireUp.Circuits;
using WireUp.Layouts;
using WireUp.Planning.Buses;
using WireUp.Planning.Devices;
using WireUp.Planning.Districts;
using WireUp.Planning.Feeders;
using WireUp.Rails;
using static WireUp.Planning.PlanWords;

namespace WireUp.Planning;

/// <content>What the circuit asks for beyond the rules of thumb, and the verdict.</content>
internal sealed partial class PlanStages
{
    private const int MostRounds = 15, Patience = 3, HopelessRound = 2, MostErrors = 12;
    private const double NearFeederMetres = 0.1, FarMetres = 10, LeastMetres = 0.02, WorthwhileGain = 0.01;

    /// <summary>
    /// Where not even the thickest usual bus brings a district within its limits, feeders are chosen anew so that one comes nearer to each
    /// place that is out of them, as long as that helps: the fewest feeders that serve all that, not feeders on top of others.
    /// </summary>
    private PlanDraft Mended(PlanDraft draft)
    {
        WireStock stock = StockFor(draft);
        Wire thickest = stock.Thickest;
        PlanDraft now = draft;
        List<VoltsWish> wishes = [];
        double best = double.PositiveInfinity, first = 0;
        for (int round = 0, idle = 0; round <= MostRounds && idle <= Patience; round++)
        {
            cancel.ThrowIfCancellationRequested();
            Layout layout = PlanAssembly.Of(now, options, stock.System, (_, _) => thickest);
            PowerReport report = PowerAnalysis.Solve(layout, PowerOptions.Default, cancel);
            DistrictPower[] failing = [.. report.Districts.Where(district =>
                now.Buses.Any(bus => bus.District == district.District) && GaugeChooser.Verdict(layout, district, thickest).Length > 0)];
            double excess = failing.Sum(district => Excess(layout, district));
            if (round == 0 || excess < best * (1 - WorthwhileGain))
            {
                draft = now with { Failing = [.. failing.Where(district => now.Buses.Any(bus => bus.District == district.District && !bus.Runs.IsEmpty)).Select(district => district.District)] };
                (best, idle) = (excess, 0);
            }

            first = round == 0 ? excess : first;
            ImmutableArray<VoltsWish> added = [.. WishesOf(now, layout, report, failing)];
            if (added.IsEmpty || (round == HopelessRound && excess > first / 2))
            {
                break;
            }

            wishes.AddRange(added);
            HashSet<string> again = [.. added.Select(wish => wish.District)];
            now = Relaid(now with { Feeders = Sites(now, [.. wishes.Where(wish => again.Contains(wish.District))]) });
            idle++;
        }

        return draft;
    }

    private ImmutableArray<FeederSite> Sites(PlanDraft draft, IReadOnlyList<VoltsWish> wishes)
    {
        ILookup<TrackPlace, FeederSite> known = draft.Feeders.ToLookup(site => site.At);
        DistrictMap map = DistrictMap.Of(draft.Layout, draft.Districts!.Districts);
        return [.. FeederPlanner.Replan(draft.Layout, draft.Feeders.Select(site => site.At), [.. wishes.Select(wish => wish.Wish)], Feeding, cancel)
            .Select(feeder => new FeederSite(
                feeder.At,
                map.At(feeder.At) ?? "",
                feeder.For is { } wish ? wishes[wish].Reason : feeder.Why ?? known[feeder.At].FirstOrDefault()?.Why))
            .Where(site => site.District.Length > 0)];
    }

    /// <summary>How far a district is beyond its limits: 0 at the limit, 1 at twice the drop or half the fault current.</summary>
    private static double Excess(Layout layout, DistrictPower district) => Math.Max(
        (district.LowestVolts.Drop / layout.MaxDrop) - 1,
        Math.Log2(Layouts.Reference.Constants.FaultOverTripGood.Value / district.FaultOverTrip));

    /// <summary>Says what feeders and bus came of it, and which limits are not kept.</summary>
    private PlanDraft Finish(PlanDraft draft) => draft
        .Add(FeederProposals(draft)).Add(RunProposals(draft)).Add(TerminalStrips.Of(draft.Before.Wiring, Assembled(draft).Wiring))
        .Measure([draft.Gauges!.Cost, new("bus-metres", Math.Round(draft.Buses.Sum(bus => bus.TrackMetres), 3), Math.Round(draft.Buses.Sum(bus => bus.BoundMetres), 3))])
        .Remain(draft.Buses.SelectMany(bus => bus.Unreached.Select(place => Unreached(place, bus.District, draft.Layout))))
        .Remain(draft.Gauges!.Districts.Where(gauges => gauges.Verdict.Length > 0).Select(NotKept));

    /// <summary>The plan as it is, checked as anybody's layout would be; an error that the check finds is something that remains.</summary>
    public PlanResult Verify(PlanDraft draft)
    {
        Layout after = Assembled(draft);
        CheckReport check = Checker.Check(after, CancellationToken.None);
        PlanResult result = Result(draft, after);
        ProtectionWords words = new(after, check.Power);
        return result with
        {
            Proposals = [.. result.Proposals.Select(words.With)],
            Findings = check.Findings,
            Power = check.Power,
            Remains = [.. draft.Remains, .. Errors(check.Findings), .. check.Power.Problems.Select(problem => problem.Message)],
        };
    }

    /// <summary>What was settled before a stage that was stopped.</summary>
    public PlanResult Unfinished(PlanDraft draft, string stage) => Result(draft, Assembled(draft)) with
    {
        Remains = [.. draft.Remains, $"Stopped on request during '{stage}': what comes after it is not planned, and nothing is checked."],
    };

    private static PlanResult Result(PlanDraft draft, Layout after) => new(draft.Before, after)
    {
        Proposals = draft.Proposals,
        Objectives = draft.Gauges is null ? draft.Objectives : [.. draft.Objectives.Select(objective => AsLaid(objective, draft.Layout, after))],
        Gauges = draft.Gauges?.Rows ?? [],
    };

    /// <summary>Feeders that the circuit asked for on top of the cover count as well; the bound stays that of the cover.</summary>
    private static Objective AsLaid(Objective objective, Layout before, Layout after) => objective.Name == "feeders"
        ? objective with { Value = after.Wiring.Feeders.Length - before.Wiring.Feeders.Length }
        : objective;

    private Layout Assembled(PlanDraft draft) => draft.WithSelectors is { } wiring ? draft.Layout with { Wiring = wiring }
        : draft.Gauges is { } gauges
        ? PlanAssembly.Of(draft, options, StockFor(draft).System, gauges.WireOf)
        : draft.Layout;

    /// <summary>What the check calls an error, the first few in full.</summary>
    private static IEnumerable<string> Errors(ImmutableArray<Finding> findings)
    {
        Finding[] errors = [.. findings.Where(finding => finding.Severity == Severity.Error)];
        IEnumerable<string> shown = errors.Take(MostErrors).Select(error => $"{error.Code}: {error.Message} {error.Remedy}");
        return errors.Length > MostErrors ? shown.Append(Invariant($"{errors.Length - MostErrors} more errors of the check remain.")) : shown;
    }

    /// <summary>
    /// A feeder wanted nearer than it is, at the worst place of every section that is out of its limits; none where there is one beside
    /// it already, or where none may be.
    /// </summary>
    private static IEnumerable<VoltsWish> WishesOf(PlanDraft draft, Layout layout, PowerReport report, IEnumerable<DistrictPower> failing)
    {
        FeedableTrack track = new(RailGraph.Build(layout), new FeederOptions().MarginMetres);
        DistrictMap map = DistrictMap.Of(draft.Layout, draft.Districts!.Districts);
        ILookup<string?, FeedSpan> spans = track.Spans.ToLookup(span => map.At(new(span.Section, span.MiddleMetres)));
        ILookup<string, SectionPower> sections = report.Sections.ToLookup(section => section.District);
        return from district in failing
               let feeders = layout.Wiring.Feeders.Where(feeder => feeder.District == district.District).Select(feeder => feeder.At).ToArray()
               from worst in sections[district.District].Select(section => section.LargestLoop).Prepend(district.LowestFault).Prepend(district.LowestVolts)
               where IsOut(layout, district, worst)
               let place = Nearest(spans[district.District], worst.At)
               where place is not null
               let metres = FeederWishes.NearestMetres(track, place.Value, feeders, FarMetres)
               let within = metres - Math.Max(LeastMetres, MetresTooMany(layout, report.DesignLoad!, district, worst))
               where within > NearFeederMetres && metres < FarMetres
               select new VoltsWish(district.District, new(place.Value, within), Reason(layout, district, worst, place.Value, within));
    }

    /// <summary>How many metres of rail, there and back, have as much resistance as must go to bring a place within its limits.</summary>
    private static double MetresTooMany(Layout layout, DesignLoad load, DistrictPower district, PlacePower place)
    {
        double volts = district.SourceVolts.Volts;
        double trainAmps = Math.Min(load.HeaviestTrain.Amperes, district.DesignLoad.Amperes);
        double forVolts = (place.Drop - layout.MaxDrop).DecimalFractions * volts / trainAmps;
        double forFault = (volts / place.FaultCurrent.Amperes) - (volts / (district.Trip.Amperes * Layouts.Reference.Constants.FaultOverTripGood.Value));
        RailMaterial rail = layout.Track.OfType<Piece.Section>().FirstOrDefault(section => section.Id == place.At.Section)?.Rail ?? layout.Defaults.Rail;
        double conductors = layout.Control == ControlSystem.ThreeRail ? 1.5 : 2;
        return Math.Max(forVolts, forFault) / (conductors * Layouts.Reference.RailTable.OhmsPerMetre(rail, layout.Defaults.Temperature));
    }

    private static bool IsOut(Layout layout, DistrictPower district, PlacePower place) => place.Drop > layout.MaxDrop
        || place.FaultCurrent < district.Trip * Layouts.Reference.Constants.FaultOverTripGood.Value;

    /// <summary>The place nearest to one where a feeder may be soldered on the same section; null where none may be.</summary>
    private static TrackPlace? Nearest(IEnumerable<FeedSpan> spans, TrackPlace place) => spans
        .Where(span => span.Section == place.Section)
        .Select(span => place with { MetresFromA = Math.Round(Math.Clamp(place.MetresFromA, span.FromMetres, span.ToMetres), 3) })
        .OrderBy(each => Math.Abs(each.MetresFromA - place.MetresFromA))
        .Select(each => (TrackPlace?)each)
        .FirstOrDefault();

    private static string Reason(Layout layout, DistrictPower district, PlacePower worst, TrackPlace place, double within) =>
        Invariant($"It is wanted within {within:0.00} m of {place}: ") + (worst.Drop > layout.MaxDrop
            ? Invariant($"with feeders farther off the volts there would drop by {worst.Drop.Percent:0.0} % under the design load.")
            : Invariant($"with feeders farther off only {worst.FaultCurrent.Amperes:0.0} A would flow through a coin there, and the breaker of '{district.District}' trips at {district.Trip.Amperes:0.#} A."));

    private readonly record struct VoltsWish(string District, FeederWish Wish, string Reason);

    private IEnumerable<Proposal> FeederProposals(PlanDraft draft) => Assembled(draft).Wiring.Feeders
        .Skip(draft.Layout.Wiring.Feeders.Length)
        .Select(feeder => OfFeeder(feeder, draft.Feeders.First(site => site.At == feeder.At), draft.Layout));

    private IEnumerable<Proposal> RunProposals(PlanDraft draft)
    {
        HashSet<BusRun> built = [.. draft.Before.Wiring.Buses.SelectMany(bus => bus.Runs)];
        ILookup<string, GaugeRow> rows = draft.Gauges!.Rows.ToLookup(row => row.District);
        bool byPrice = StockFor(draft).HasPrices;
        ILookup<string, DistrictGauges> gauges = draft.Gauges!.Districts.ToLookup(each => each.District);
        return Assembled(draft).Wiring.Buses
            .SelectMany(bus => bus.Runs.Where(run => !built.Contains(run))
                .Zip(draft.Buses.Where(planned => planned.District == bus.District).SelectMany(planned => planned.Runs), (run, planned) => (bus.District, run, planned.Corridors)))
            .Select((pair, i) => OfRun(pair.District, pair.run, pair.Corridors, Invariant($"bus-{i + 1}"), gauges[pair.District].FirstOrDefault()?.Power, draft.Layout) with
            {
                Alternatives = [.. OtherSizes(rows[pair.District], byPrice)],
            });
    }
}
