using System.Collections.Immutable;
using UnitsNet;
using WireUp.Checking;
using WireUp.Circuits;
using WireUp.Layouts;
using WireUp.Layouts.Reference;
using WireUp.Planning.Tests.TestLayouts;
using WireUp.Rails;

namespace WireUp.Planning.Tests.Properties;

public sealed class PlanProperties
{
    public static TheoryData<string> Samples => Plans.Samples;

    public static TheoryData<string> SoundSamples => Plans.SoundSamples;

    [Theory]
    [MemberData(nameof(SoundSamples))]
    public void Every_sample_whose_wiring_is_sound_is_planned_to_the_end(string sample)
    {
        PlanResult plan = Plans.Of(sample);
        Assert.Empty(plan.Remains);
        Assert.DoesNotContain(plan.Findings, finding => finding.Severity == Severity.Error);
        Assert.True(plan.IsFinished);
        Assert.NotEmpty(plan.Power.Districts);
        Assert.All(plan.Power.Districts, district => Assert.True(district.CoinTestPasses && district.FaultOverTrip >= 2, district.District));
        Assert.All(plan.Power.Districts, district => Assert.True(district.LowestVolts.Drop <= plan.After.MaxDrop, district.District));
        Assert.Empty(plan.Power.Problems);
    }

    [Theory]
    [MemberData(nameof(SoundSamples))]
    public void The_rails_of_a_plan_never_join_what_must_not_meet_and_leave_nothing_unfed(string sample)
    {
        PolarityReport polarity = Polarity.Analyse(RailGraph.Build(Plans.Of(sample).After), cancellationToken: TestContext.Current.CancellationToken);
        Assert.Empty(polarity.OddLoops);
        Assert.Empty(polarity.Standing);
        Assert.Empty(polarity.ByPosition);
        Assert.Empty(polarity.Exchanged);
        Assert.Empty(polarity.FrogFaults);
        Assert.Empty(polarity.Unfed);
    }

    [Theory]
    [MemberData(nameof(Samples))]
    public void A_plan_is_finished_or_says_what_remains(string sample)
    {
        PlanResult plan = Plans.Of(sample);
        bool passes = plan.Power.Districts.All(district => district.CoinTestPasses)
            && plan.Findings.All(finding => finding.Severity != Severity.Error);
        Assert.Equal(plan.IsFinished, plan.Remains.IsEmpty);
        Assert.True(passes || !plan.Remains.IsEmpty);
    }

    [Theory]
    [MemberData(nameof(Samples))]
    public void Nothing_that_is_built_is_touched(string sample)
    {
        PlanResult plan = Plans.Of(sample);
        (Wiring before, Wiring after) = (plan.Before.Wiring, plan.After.Wiring);
        Assert.Equal(before.Supplies, after.Supplies.Take(before.Supplies.Length));
        Assert.Equal(before.Boosters, after.Boosters.Take(before.Boosters.Length));
        Assert.Equal(before.Districts, after.Districts.Take(before.Districts.Length));
        Assert.Equal(before.Feeders, after.Feeders.Take(before.Feeders.Length));
        Assert.Equal(before.Gaps, after.Gaps.Take(before.Gaps.Length));
        Assert.All(before.Buses.Zip(after.Buses), pair =>
        {
            Assert.Equal(pair.First.District, pair.Second.District);
            Assert.Equal(pair.First.Runs, pair.Second.Runs.Take(pair.First.Runs.Length));
        });
    }

    [Theory]
    [MemberData(nameof(Samples))]
    public void The_bus_of_every_district_is_a_tree_from_its_booster_to_every_tap(string sample)
    {
        Wiring wiring = Plans.Of(sample).After.Wiring;
        foreach (District district in wiring.Districts)
        {
            ImmutableArray<BusRun> runs = [.. wiring.Buses.Where(bus => bus.District == district.Name).SelectMany(bus => bus.Runs)];
            HashSet<string> reached = [district.Booster];
            foreach (BusRun run in runs)
            {
                Assert.Contains(run.From, reached);
                Assert.True(reached.Add(run.To), $"'{run.To}' is reached twice");
                Assert.True(run.Length.Meters > 0);
            }

            Assert.All(wiring.Feeders.Where(feeder => feeder.District == district.Name), feeder => Assert.Contains(feeder.Tap, reached));
        }
    }

    /// <summary>Shares are worked out here from the solved circuit's sections, not as the planner does.</summary>
    [Theory]
    [MemberData(nameof(SoundSamples))]
    public void Every_new_breaker_and_booster_suits_its_load_its_fault_current_and_what_stands_before_it(string sample)
    {
        PlanResult plan = Plans.Of(sample);
        DesignLoad rule = DesignLoad.Of(plan.After);
        CoincidentLoad? meeting = CoincidentLoad.Of(plan.After);
        double ceiling = ScaleTable.Get(plan.After.Scale).TripCeiling.Amperes;
        Dictionary<string, double> shares = Shares(plan);
        foreach (DistrictPower power in plan.Power.Districts.Where(power => plan.Before.Wiring.Districts.All(built => built.Name != power.District)))
        {
            Booster booster = plan.After.Wiring.Boosters.First(each => each.Name == power.Booster);
            double share = shares[power.District], trip = power.Trip.Amperes;
            Assert.True(trip >= (1.5 * Math.Max(rule.Total.Amperes * share, rule.HeaviestTrain.Amperes)) - 0.01, $"{power.District}: rule");
            Assert.True(trip >= (meeting?.For(share).Amperes ?? 0) - 0.01, $"{power.District}: meeting");
            Assert.True(trip <= power.LowestFault.FaultCurrent.Amperes / 2, $"{power.District}: fault current");
            Assert.True(trip <= (0.8 * booster.Amps.Amperes) + 1e-9 && trip <= ceiling, $"{power.District}: booster and scale");
        }

        foreach (Booster booster in plan.After.Wiring.Boosters.Where(booster => plan.Before.Wiring.Boosters.All(built => built.Name != booster.Name)))
        {
            double share = plan.After.Wiring.Districts.Where(district => district.Booster == booster.Name).Sum(district => shares.GetValueOrDefault(district.Name));
            Supply supply = plan.After.Wiring.Supplies.First(each => each.Name == booster.Supply);
            Assert.True(rule.Total.Amperes * share <= (0.8 * booster.Amps.Amperes) + 0.01, $"{booster.Name}: rule");
            Assert.True((meeting?.For(share).Amperes ?? 0) <= booster.Amps.Amperes + 0.02, $"{booster.Name}: meeting");
            Assert.True((double)supply.Rating.Watts / supply.Output.Volts >= 1.1 * booster.Amps.Amperes, $"{booster.Name}: supply");
        }
    }

    [Theory]
    [MemberData(nameof(Samples))]
    public void New_bus_has_two_sizes_a_district_at_most_and_is_never_thicker_away_from_the_booster(string sample)
    {
        PlanResult plan = Plans.Of(sample);
        foreach (Bus bus in plan.After.Wiring.Buses)
        {
            int built = plan.Before.Wiring.Buses.FirstOrDefault(each => each.District == bus.District)?.Runs.Length ?? 0;
            BusRun[] added = [.. bus.Runs.Skip(built)];
            Dictionary<string, BusRun> byEnd = added.ToDictionary(run => run.To);
            Assert.True(added.Select(run => run.Wire).Distinct().Count() <= 2, bus.District);
            Assert.All(added.Where(run => byEnd.ContainsKey(run.From)), run => Assert.True(
                Conductors.AreaSquareMillimetres(run.Wire) <= Conductors.AreaSquareMillimetres(byEnd[run.From].Wire), $"{run.From} > {run.To}"));
            District district = plan.After.Wiring.Districts.First(each => each.Name == bus.District);
            Assert.All(plan.Remains.IsEmpty ? added : [], run => Assert.True(Conductors.AmpacityAmps(run.Wire) >= district.Trip.Amperes, run.To));
        }
    }

    [Theory]
    [MemberData(nameof(Samples))]
    public void Every_proposal_has_a_name_of_its_own_and_explains_itself(string sample)
    {
        PlanResult plan = Plans.Of(sample);
        Assert.Equal(plan.Proposals.Length, plan.Proposals.Select(proposal => (proposal.Kind, proposal.Id)).Distinct().Count());
        Assert.All(plan.Proposals, proposal =>
        {
            Assert.False(string.IsNullOrWhiteSpace(proposal.Reason) || string.IsNullOrWhiteSpace(proposal.At), proposal.Id);
            Assert.Matches("(?i)source|standard|NEC|NEM|IEC", proposal.Rule);
        });
        Assert.All(plan.Objectives, objective => Assert.True(objective.Bound <= objective.Value, objective.Name));
        Assert.All(plan.Objectives, objective => Assert.NotEmpty(ObjectiveMeaning.Of(objective.Name)));
        string[] added = [.. plan.After.Wiring.Feeders.Select(feeder => feeder.Name).Except(plan.Before.Wiring.Feeders.Select(feeder => feeder.Name))];
        Assert.All(added, name => Assert.Equal(ProposalKind.Feeder, plan.Find(name)?.Kind));
    }

    [Theory]
    [InlineData("balloon-loop")]
    [InlineData("home-yard")]
    [InlineData("wye")]
    public void Two_plans_of_one_layout_are_the_same_to_the_letter(string sample)
    {
        PlanResult again = Planner.Plan(Plans.Read(sample), cancel: TestContext.Current.CancellationToken);
        Assert.Equal(LayoutFile.Write(Plans.Of(sample).After), LayoutFile.Write(again.After));
        Assert.Equal(Text(Plans.Of(sample)), Text(again));
    }

    [Theory]
    [InlineData("home-yard")]
    [InlineData("oval-with-cut-off")]
    [InlineData("three-rail")]
    public void The_order_of_the_file_changes_no_objective(string sample)
    {
        Layout layout = Plans.Read(sample);
        Layout turned = layout with { Track = [.. layout.Track.Reverse()], Joints = [.. layout.Joints.Reverse()] };
        PlanResult plan = Planner.Plan(turned, cancel: TestContext.Current.CancellationToken);
        Assert.Equal(
            Plans.Of(sample).Objectives.Select(objective => (objective.Name, Value: Math.Round(objective.Value, 2))),
            plan.Objectives.Select(objective => (objective.Name, Value: Math.Round(objective.Value, 2))));
    }

    [Fact]
    public void A_finished_plan_needs_nothing_more_when_planned_again()
    {
        PlanResult again = Planner.Plan(Plans.Of("home-yard").After, cancel: TestContext.Current.CancellationToken);
        Assert.Empty(again.Proposals);
        Assert.Equal(LayoutFile.Write(again.Before), LayoutFile.Write(again.After));
    }

    [Fact]
    public void A_plan_that_is_stopped_hands_back_what_it_has_and_is_not_finished()
    {
        using CancellationTokenSource source = new();
        StopAt stop = new("districts", source);
        PlanResult plan = Planner.Plan(Plans.Read("balloon-loop"), PlanOptions.Default, stop, source.Token);
        Assert.False(plan.IsFinished);
        Assert.Contains("Stopped on request", Assert.Single(plan.Remains), StringComparison.Ordinal);
        Assert.NotEmpty(plan.After.Wiring.Gaps);
        Assert.Empty(plan.After.Wiring.Feeders);
    }

    [Fact]
    public void A_plan_that_is_stopped_late_keeps_the_wiring_it_has()
    {
        using CancellationTokenSource source = new();
        // With so little drop allowed a third booster is not enough.
        StopAt stop = new("boosters, bus and wire: 4 new boosters", source);
        Layout strict = Plans.Read("tarrow-valley") with { MaxDrop = Ratio.FromPercent(3.5) };
        PlanResult plan = Planner.Plan(strict, PlanOptions.Default, stop, source.Token);
        Assert.False(plan.IsFinished);
        Assert.Contains(plan.Remains, remains => remains.StartsWith("Stopped on request", StringComparison.Ordinal));
        Assert.Equal(3, plan.After.Wiring.Boosters.Length);
        Assert.NotEmpty(plan.After.Wiring.Feeders);
    }

    [Fact]
    public void A_plan_that_is_stopped_while_fewer_feeders_are_looked_for_keeps_those_it_has()
    {
        using CancellationTokenSource source = new();
        PlanResult plan = Planner.Plan(Truth.FewestFeedersTests.Track(0), PlanOptions.Default, new StopAt("boosters, bus and wire: fewer feeders", source), source.Token);
        Assert.True(source.IsCancellationRequested);
        Assert.Contains(plan.Remains, remains => remains.StartsWith("Stopped on request", StringComparison.Ordinal));
        DistrictPower district = Assert.Single(PowerAnalysis.Solve(plan.After, PowerOptions.Default, TestContext.Current.CancellationToken).Districts);
        Assert.True(district.LowestVolts.Drop <= plan.After.MaxDrop && district.FaultOverTrip >= 2);
    }

    [Fact]
    public void A_plan_that_is_stopped_while_wire_is_chosen_keeps_boosters_feeders_and_bus_in_wire_that_will_do()
    {
        using CancellationTokenSource source = new();
        PlanResult plan = Planner.Plan(Plans.Read("home-yard"), PlanOptions.Default, new StopAt("wire of the bus", source), source.Token);
        Assert.Contains(plan.Remains, remains => remains.StartsWith("Stopped on request", StringComparison.Ordinal));
        PlanResult whole = Plans.Of("home-yard");
        Assert.Equal(whole.After.Wiring.Feeders.Select(feeder => feeder.At), plan.After.Wiring.Feeders.Select(feeder => feeder.At));
        Assert.Equal(
            whole.After.Wiring.Buses.SelectMany(bus => bus.Runs).Select(run => (run.From, run.To, run.Length)),
            plan.After.Wiring.Buses.SelectMany(bus => bus.Runs).Select(run => (run.From, run.To, run.Length)));
        Assert.All(
            PowerAnalysis.Solve(plan.After, PowerOptions.Default, TestContext.Current.CancellationToken).Districts,
            district => Assert.True(district.LowestVolts.Drop <= plan.After.MaxDrop && district.FaultOverTrip >= 2, district.District));
    }

    private static Dictionary<string, double> Shares(PlanResult plan)
    {
        Dictionary<PieceId, double> lengths = plan.After.Track.ToDictionary(piece => piece.Id, piece => piece.PlacesMetres ?? 0);
        ILookup<string, double> metres = plan.Power.Sections.ToLookup(section => section.District, section => lengths[section.Section]);
        double all = metres.Sum(district => district.Sum());
        return metres.ToDictionary(district => district.Key, district => district.Sum() / all);
    }

    private static string Text(PlanResult plan) => string.Join('\n', plan.Proposals.Select(proposal =>
        $"{proposal.Id}|{proposal.Kind}|{proposal.At}|{proposal.Reason}|{proposal.Rule}|{proposal.Cost}|{string.Join('/', proposal.Working)}"));

    private sealed class StopAt(string stage, CancellationTokenSource source) : IProgress<PlanProgress>
    {
        public void Report(PlanProgress value)
        {
            if (value.Stage == stage)
            {
                source.Cancel();
            }
        }
    }
}
