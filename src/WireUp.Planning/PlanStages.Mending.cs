using System.Collections.Immutable;
using WireUp.Checking;
using WireUp.Circuits;
using WireUp.Layouts;
using WireUp.Planning.Buses;
using WireUp.Planning.Devices;
using WireUp.Planning.Districts;
using WireUp.Planning.Feeders;
using static System.FormattableString;
using static WireUp.Planning.PlanWords;

namespace WireUp.Planning;

/// <content>What the circuit asks for beyond the rules of thumb, and the verdict.</content>
internal sealed partial class PlanStages
{
    private const int MostRounds = 15, Patience = 3, HopelessRound = 2, LooseRounds = 2, MostErrors = 12;
    private const double WorthwhileGain = 0.01, Tightening = 0.95;

    /// <summary>
    /// Where not even the thickest usual bus brings a district within its limits, feeders are chosen anew so that they come as near to every
    /// place of it as the circuit asks for, as long as that helps: the fewest feeders that serve all that, not feeders on top of others.
    /// </summary>
    private PlanDraft Mended(PlanDraft draft)
    {
        WireStock stock = StockFor(draft);
        PlanDraft now = draft;
        double best = double.PositiveInfinity, first = 0, tightness = 1;
        for (int round = 0, idle = 0; round <= MostRounds && idle <= Patience; round++, idle++)
        {
            cancel.ThrowIfCancellationRequested();
            Layout layout = PlanAssembly.Of(now, options, stock.System, (_, _) => stock.Thickest);
            PowerReport report = PowerAnalysis.Solve(layout, PowerOptions.Default, cancel);
            DistrictPower[] failing = [.. report.Districts.Where(district =>
                now.Buses.Any(bus => bus.District == district.District) && GaugeChooser.Verdict(layout, district, stock.Thickest).Length > 0)];
            double excess = failing.Sum(district => Excess(layout, district));
            if (round == 0 || excess < best * (1 - WorthwhileGain))
            {
                draft = now with { Failing = [.. failing.Where(district => now.Buses.Any(bus => bus.District == district.District && !bus.Runs.IsEmpty)).Select(district => district.District)] };
                (best, idle) = (excess, 0);
            }

            first = round == 0 ? excess : first;
            tightness *= round < LooseRounds ? 1 : Tightening;
            NearerFeeders nearer = new(now, layout, report);
            ImmutableArray<VoltsWish> wishes = [.. failing.SelectMany(district => nearer.In(district, tightness))];
            if (wishes.IsEmpty || (round == HopelessRound && excess > first / 2))
            {
                break;
            }

            now = Relaid(now with { Feeders = Sites(now, wishes) });
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
