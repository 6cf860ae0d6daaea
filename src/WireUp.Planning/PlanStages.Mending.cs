using System.Collections.Immutable;
using WireUp.Checking;
using WireUp.Circuits;
using WireUp.Layouts;
using WireUp.Planning.Devices;
using WireUp.Planning.Districts;
using WireUp.Planning.Feeders;
using WireUp.Rails;
using static WireUp.Planning.PlanWords;

namespace WireUp.Planning;

/// <content>What the circuit asks for beyond the rules of thumb, and the verdict.</content>
internal sealed partial class PlanStages
{
    private const int MostRounds = 15, SitesPerRound = 4, Patience = 3, HopelessRound = 4, MostErrors = 12;
    private const double NearFeederMetres = 0.15, WorthwhileGain = 0.01;

    /// <summary>
    /// Adds feeders at the worst places of districts that not even the thickest usual bus brings within their limits, as long as
    /// that helps; feeders that brought nothing are taken out again.
    /// </summary>
    private PlanDraft Mended(PlanDraft draft)
    {
        WireStock stock = WireStock.Of(options, draft.Before);
        Wire thickest = stock.Thickest;
        PlanDraft now = draft;
        double best = double.PositiveInfinity, first = 0;
        for (int round = 0, idle = 0; round <= MostRounds && idle <= Patience; round++)
        {
            cancel.ThrowIfCancellationRequested();
            Layout layout = PlanAssembly.Of(now, options, stock.System, (_, _) => thickest);
            PowerReport report = PowerAnalysis.Solve(layout, PowerOptions.Default, cancel);
            DistrictPower[] failing = [.. report.Districts.Where(district =>
                now.Buses.Any(bus => bus.District == district.District) && GaugeChooser.Verdict(layout, district, thickest).Length > 0)];
            double excess = failing.Sum(district => Excess(layout, district));
            if (excess < best * (1 - WorthwhileGain))
            {
                (draft, best, idle) = (now, excess, 0);
            }

            ImmutableArray<FeederSite> sites = [.. WorstPlaces(now, layout, report, failing)];
            first = round == 0 ? excess : first;
            if (sites.IsEmpty || (round == HopelessRound && excess > first / 2))
            {
                break;
            }

            now = Relaid(now with { Feeders = [.. now.Feeders, .. sites] });
            idle++;
        }

        return draft;
    }

    /// <summary>How far a district is beyond its limits: 0 at the limit, 1 at twice the drop or half the fault current.</summary>
    private static double Excess(Layout layout, DistrictPower district) => Math.Max(
        (district.LowestVolts.Drop / layout.MaxDrop) - 1,
        Math.Log2(Layouts.Reference.Constants.FaultOverTripGood.Value / district.FaultOverTrip));

    /// <summary>Says what feeders and bus came of it, and which limits are not kept.</summary>
    private PlanDraft Finish(PlanDraft draft) => draft
        .Add(FeederProposals(draft)).Add(RunProposals(draft))
        .Measure([draft.Gauges!.Cost, new("bus-metres", Math.Round(draft.Buses.Sum(bus => bus.TrackMetres), 3), Math.Round(draft.Buses.Sum(bus => bus.BoundMetres), 3))])
        .Remain(draft.Buses.SelectMany(bus => bus.Unreached.Select(place => Unreached(place, bus.District))))
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

    private Layout Assembled(PlanDraft draft) => draft.Gauges is { } gauges
        ? PlanAssembly.Of(draft, options, WireStock.Of(options, draft.Before).System, gauges.WireOf)
        : draft.Layout;

    /// <summary>What the check calls an error, the first few in full.</summary>
    private static IEnumerable<string> Errors(ImmutableArray<Finding> findings)
    {
        Finding[] errors = [.. findings.Where(finding => finding.Severity == Severity.Error)];
        IEnumerable<string> shown = errors.Take(MostErrors).Select(error => $"{error.Code}: {error.Message} {error.Remedy}");
        return errors.Length > MostErrors ? shown.Append(Invariant($"{errors.Length - MostErrors} more errors of the check remain.")) : shown;
    }

    private static IEnumerable<FeederSite> WorstPlaces(PlanDraft draft, Layout layout, PowerReport report, IEnumerable<DistrictPower> failing)
    {
        FeedableTrack track = new(RailGraph.Build(layout), new FeederOptions().MarginMetres);
        DistrictMap map = DistrictMap.Of(draft.Layout, draft.Districts!.Districts);
        ILookup<string?, FeedSpan> spans = track.Spans.ToLookup(span => map.At(new(span.Section, span.MiddleMetres)));
        ILookup<string, SectionPower> sections = report.Sections.ToLookup(section => section.District);
        return failing.SelectMany(district => sections[district.District]
            .Select(section => section.LargestLoop)
            .OrderByDescending(place => Math.Round(place.Drop.Percent, 6)).ThenBy(place => place.At)
            .Prepend(district.LowestFault).Prepend(district.LowestVolts)
            .Select(place => Site(layout, spans[district.District], district, place))
            .OfType<FeederSite>()
            .DistinctBy(site => site.At.Section)
            .Take(SitesPerRound));
    }

    /// <summary>A feeder as near as may be to a place that is out of its limits; null where there is one already, or none may be.</summary>
    private static FeederSite? Site(Layout layout, IEnumerable<FeedSpan> spans, DistrictPower district, PlacePower worst)
    {
        bool drops = worst.Drop > layout.MaxDrop;
        FeedSpan? span = spans.Where(each => each.Section == worst.At.Section)
            .OrderBy(each => each.Holds(worst.At.MetresFromA)
                ? 0
                : Math.Min(Math.Abs(each.FromMetres - worst.At.MetresFromA), Math.Abs(each.ToMetres - worst.At.MetresFromA)))
            .Select(each => (FeedSpan?)each)
            .FirstOrDefault();
        if (span is not { } allowed || !(drops || worst.FaultCurrent < district.Trip * Layouts.Reference.Constants.FaultOverTripGood.Value))
        {
            return null;
        }

        TrackPlace place = worst.At with { MetresFromA = Math.Round(Math.Clamp(worst.At.MetresFromA, allowed.FromMetres, allowed.ToMetres), 3) };
        bool isNear = layout.Wiring.Feeders.Any(feeder =>
            feeder.District == district.District && feeder.At.Section == place.Section && Math.Abs(feeder.At.MetresFromA - place.MetresFromA) < NearFeederMetres);
        return isNear ? null : new(place, district.District, Reason(district, worst, place, drops));
    }

    private static string Reason(DistrictPower district, PlacePower worst, TrackPlace place, bool drops) => drops
        ? Invariant($"Without it the volts near {place} would drop by {worst.Drop.Percent:0.0} % under the design load.")
        : Invariant($"Without it only {worst.FaultCurrent.Amperes:0.0} A would flow through a coin near {place}, and the breaker of '{district.District}' trips at {district.Trip.Amperes:0.#} A.");

    private IEnumerable<Proposal> FeederProposals(PlanDraft draft) => Assembled(draft).Wiring.Feeders
        .Skip(draft.Layout.Wiring.Feeders.Length)
        .Select(feeder => OfFeeder(feeder, draft.Feeders.First(site => site.At == feeder.At), draft.Layout));

    private IEnumerable<Proposal> RunProposals(PlanDraft draft)
    {
        HashSet<BusRun> built = [.. draft.Before.Wiring.Buses.SelectMany(bus => bus.Runs)];
        ILookup<string, DistrictGauges> gauges = draft.Gauges!.Districts.ToLookup(each => each.District);
        return Assembled(draft).Wiring.Buses
            .SelectMany(bus => bus.Runs.Where(run => !built.Contains(run)).Select(run => (bus.District, run)))
            .Select((pair, i) => OfRun(pair.District, pair.run, Invariant($"bus-{i + 1}"), gauges[pair.District].FirstOrDefault()?.Power, draft.Layout));
    }
}
