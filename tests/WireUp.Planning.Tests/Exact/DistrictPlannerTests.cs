using System.Collections.Immutable;
using UnitsNet;
using WireUp.Layouts;
using WireUp.Planning.Devices;
using WireUp.Planning.Districts;
using WireUp.Planning.Tests.TestLayouts;

namespace WireUp.Planning.Tests.Exact;

public sealed class DistrictPlannerTests
{
    // A line of 12 sections of 1 m whose load asks for three districts: cut at the joints after 4 m and 8 m.
    [Fact]
    public void A_line_is_cut_into_equal_districts_at_its_joints()
    {
        DistrictPlan plan = Plan(TrackBuilder.Line(12, 1).Build(), load: 6);
        Assert.Equal(["s3.b", "s7.b"], plan.Borders.Select(border => border.At.ToString()));
        Assert.Equal(["d1", "d2", "d3"], plan.Districts.Select(district => district.Name));
        Assert.All(plan.Districts, district => Assert.Equal(4, district.LengthMetres, 6));
    }

    // The same line with a crossing in its middle: it goes on across it, whichever of the two tracks it lies on.
    [Theory]
    [InlineData("a")]
    [InlineData("b")]
    public void A_line_goes_on_across_a_crossing_on_either_track(string track)
    {
        TrackBuilder line = new TrackBuilder().Piece(new Piece.Crossing(new("X"), Angle.FromDegrees(30), FrogKind.Insulated)).Stop("end");
        for (int i = 0; i < 12; i++)
        {
            line.Section($"s{i}", 1);
            _ = i switch
            {
                0 => line,
                6 => line.Join("s5.b", $"X.{track}1").Join($"X.{track}2", "s6.a"),
                _ => line.Join($"s{i - 1}.b", $"s{i}.a"),
            };
        }

        DistrictPlan plan = Plan(line.Build(), load: 6);
        Assert.Equal(["s3.b", "s7.b"], plan.Borders.Select(border => border.At.ToString()));
        Assert.All(plan.Districts.Where(district => district.LengthMetres > 1), district => Assert.Equal(4, district.LengthMetres, 6));
    }

    [Fact]
    public void A_light_load_leaves_the_track_one_district_without_new_gaps()
    {
        DistrictPlan plan = Plan(TrackBuilder.Line(12, 1).Build(), load: 1);
        Assert.Empty(plan.Borders);
        Assert.Equal("d1", Assert.Single(plan.Districts).Name);
    }

    [Fact]
    public void No_boundary_falls_on_a_piece_that_must_not_be_cut()
    {
        Layout layout = TrackBuilder.Line(12, 1).Build() with { NoGap = [new("s3"), new("s4")] };
        DistrictPlan plan = Plan(layout, load: 4);
        Assert.DoesNotContain(plan.Borders, border => border.At.ToString() is "s2.b" or "s3.b" or "s4.b");
        Assert.Single(plan.Borders);
    }

    [Fact]
    public void What_is_asked_for_becomes_a_district_of_its_own_name_and_stays_small()
    {
        TrackBuilder track = TrackBuilder.Line(12, 1).Turnout("T").Section("y1", 1).Section("y2", 1)
            .Join("s11.b", "T.points").Join("T.through", "y1.a").Join("y1.b", "y2.a");
        Layout layout = track.Build() with { DistrictsWanted = [new("yard", [new("y1")])] };
        DistrictPlan plan = Plan(layout, load: 1);
        PlannedDistrict yard = Assert.Single(plan.Districts, district => district.IsWish);
        Assert.Equal("yard", yard.Name);
        Assert.InRange(yard.LengthMetres, 1.4, 2.6);
        Assert.Single(plan.Borders);
        Assert.Empty(plan.Remains);
    }

    // A double main: two ends, two tracks of four sections between two turnouts. The load asks for one district.
    private static Layout DoubleMain()
    {
        TrackBuilder track = new TrackBuilder().Turnout("W").Turnout("E").Section("west", 2).Section("east", 2)
            .Join("west.b", "W.points").Join("E.points", "east.a");
        foreach ((string leg, string name) in new[] { ("through", "up"), ("diverging", "down") })
        {
            track.Section($"{name}1", 1).Section($"{name}2", 1).Section($"{name}3", 1)
                .Join($"W.{leg}", $"{name}1.a").Join($"{name}1.b", $"{name}2.a").Join($"{name}2.b", $"{name}3.a").Join($"{name}3.b", $"E.{leg}");
        }

        return track.Build();
    }

    [Fact]
    public void Both_tracks_of_a_double_main_come_into_districts_of_their_own_when_asked()
    {
        Layout layout = DoubleMain();
        Assert.Single(Plan(layout, load: 1).Districts);
        DistrictPlan plan = Plan(layout with { Wishes = new() { Apart = [new([[new("up2")], [new("down2")]])] } }, load: 1);
        Assert.Equal(2, plan.Districts.Length);
        Assert.Equal(new Objective("districts", 2, 2), plan.Objectives[0]);
        Assert.Empty(plan.Remains);
        string Of(string piece) => plan.Districts.Single(district => district.Landmarks.Any(mark => mark.Place?.Section.Name == piece)).Name;
        Assert.NotEqual(Of("up2"), Of("down2"));
    }

    [Fact]
    public void Tracks_that_no_gap_can_part_remain()
    {
        Layout layout = DoubleMain() with { Wishes = new() { Apart = [new([[new("W")], [new("W")]])] } };
        Assert.Contains("'W' and 'W' are to be kept apart, but district 'd1' holds both", Assert.Single(Plan(layout, load: 1).Remains), StringComparison.Ordinal);
    }

    // A ring of 12 m with a branch of 6 m, three districts of 8.4 m at most. In about equal lengths the branch is a district beyond its first
    // metre, and cut off while the one before it is dead; with the wish it goes with its turnout: 8, 5 and 5 m.
    [Fact]
    public void A_way_round_is_kept_where_the_track_allows()
    {
        TrackBuilder ring = TrackBuilder.Line(12, 1).Turnout("T").Join("s11.b", "T.points").Join("T.through", "s0.a");
        for (int i = 0; i < 6; i++)
        {
            ring.Section($"b{i}", 1).Join(i == 0 ? "T.diverging" : $"b{i - 1}.b", $"b{i}.a");
        }

        Layout layout = ring.Build();
        Assert.Contains(Plan(layout, load: 5).Borders, border => border.At.ToString() == "b0.b");
        DistrictPlan plan = Plan(layout with { Wishes = new() { WayRound = true } }, load: 5);
        Assert.Equal(3, plan.Districts.Length);
        Assert.Equal(0, plan.Districts.Sum(district => district.CutOffMetres!.Value), 6);
    }

    // Four districts of 3 m in a row: either of those in the middle parts one from the other two.
    [Fact]
    public void The_plan_says_how_much_track_a_dead_district_cuts_off()
    {
        Layout line = TrackBuilder.Line(12, 1).Build() with
        {
            Wishes = new() { WayRound = true },
            Stock = new()
            {
                Locomotives = [new("heavy", ElectricCurrent.FromAmperes(1), ElectricCurrent.FromAmperes(0.1), ElectricCurrent.FromAmperes(2), ElectricCurrent.FromAmperes(2), Length.FromMillimeters(60), 6)],
            },
        };
        PlanResult plan = Planner.Plan(line, cancel: TestContext.Current.CancellationToken);
        string[] reasons = [.. plan.Proposals.Where(proposal => proposal.Kind == ProposalKind.District).Select(proposal => proposal.Reason)];
        Assert.Equal(["trains can go round it.", "3.0 m of other track are cut off.", "3.0 m of other track are cut off.", "trains can go round it."], reasons.Select(reason => reason[(reason.LastIndexOfAny([',', ':']) + 2)..]));
    }

    [Fact]
    public void Districts_do_not_end_where_trains_stop()
    {
        Layout layout = TrackBuilder.Line(12, 1).Build() with { Stops = [new("s3"), new("s8")] };
        DistrictPlan plan = Plan(layout, load: 5);
        Assert.Equal(2, plan.Borders.Length);
        Assert.DoesNotContain(plan.Borders, border => border.At.ToString() is "s2.b" or "s3.b" or "s7.b" or "s8.b");
    }

    [Fact]
    public void A_ring_is_parted_by_two_boundaries()
    {
        DistrictPlan plan = Plan(TrackBuilder.Line(8, 1).Join("s7.b", "s0.a").Build(), load: 4);
        Assert.Equal(2, plan.Borders.Length);
        Assert.All(plan.Districts, district => Assert.Equal(4, district.LengthMetres, 6));
    }

    // 240 turnouts in a ring, 600 m of track: the load asks for six districts of 116 m at most. Single track costs one boundary,
    // a passing loop two, so six boundaries part the ring.
    [Fact]
    public void A_ring_of_many_passing_loops_is_divided_in_single_track_and_proved()
    {
        TrackBuilder ring = new();
        for (int i = 0; i < 120; i++)
        {
            ring.Turnout($"w{i}").Turnout($"e{i}").Section($"s{i}", 1.6).Section($"m{i}", 1.7).Section($"l{i}", 1.7)
                .Join($"w{i}.through", $"m{i}.a").Join($"m{i}.b", $"e{i}.through")
                .Join($"w{i}.diverging", $"l{i}.a").Join($"l{i}.b", $"e{i}.diverging")
                .Join($"e{i}.points", $"s{i}.a").Join($"s{i}.b", $"w{(i + 1) % 120}.points");
        }

        DistrictPlan plan = Plan(ring.Build(), load: 12);
        Assert.Equal(6, plan.Borders.Length);
        Assert.All(plan.Borders, border => Assert.StartsWith("s", border.At.ToString(), StringComparison.Ordinal));
        Assert.All(plan.Districts, district => Assert.InRange(district.LengthMetres, 80, 600 * 2.3334 / 12));
        Assert.All(plan.Objectives, objective => Assert.True(objective.IsOptimal, objective.ToString()));
    }

    // 30 m of line, 9.33 m at most in a district: length alone would allow four. Each of five tracks of 5 m must not be cut, and two of them
    // with the metre between are 11 m.
    [Fact]
    public void The_fewest_districts_are_proved_where_length_alone_would_allow_fewer()
    {
        TrackBuilder line = new();
        for (int i = 0; i < 5; i++)
        {
            line.Section($"x{i}", 5).Section($"a{i}", 0.5).Section($"b{i}", 0.5).Join($"a{i}.b", $"x{i}.a").Join($"x{i}.b", $"b{i}.a");
            _ = i == 0 ? line : line.Join($"b{i - 1}.b", $"a{i}.a");
        }

        ImmutableArray<PieceId> whole = [.. Enumerable.Range(0, 5).Select(i => new PieceId($"x{i}"))];
        DistrictPlan plan = Plan(line.Build() with { NoGap = whole }, load: 7.5);
        Assert.Equal(new Objective("districts", 5, 5), plan.Objectives[0]);
    }

    [Fact]
    public void New_track_joined_to_wired_track_goes_to_its_district_while_the_breaker_carries_it()
    {
        Layout layout = Wired(TrackBuilder.Line(4, 1).Build(), tripAmps: 4);
        DistrictPlan plan = Plan(layout, load: 1);
        Assert.True(Assert.Single(plan.Districts) is { Name: "old", IsBuilt: true });
        Assert.Empty(plan.Borders);
    }

    [Fact]
    public void New_track_gets_its_own_district_where_the_old_breaker_cannot_carry_it()
    {
        Layout layout = Wired(TrackBuilder.Line(10, 1).Build(), tripAmps: 1);
        DistrictPlan plan = Plan(layout, load: 2);
        Assert.Contains(plan.Districts, district => district is { Name: "old", IsBuilt: true });
        Assert.Contains(plan.Districts, district => district is { Name: "d1", IsBuilt: false });
        Assert.Single(plan.Borders);
    }

    [Fact]
    public void Pieces_asked_for_in_two_districts_at_once_remain()
    {
        Layout layout = TrackBuilder.Line(1, 0.5).Build() with { DistrictsWanted = [new("one", [new("s0")]), new("two", [new("s0")])] };
        Assert.Contains("cannot be parted", Assert.Single(Plan(layout, load: 1).Remains), StringComparison.Ordinal);
    }

    [Fact]
    public void Three_rail_track_is_parted_in_the_centre_conductor_only()
    {
        Layout layout = TrackBuilder.Line(12, 1).Build() with { Control = ControlSystem.ThreeRail };
        ImmutableArray<Gap> gaps = [.. Plan(layout, load: 6).Gaps(ControlSystem.ThreeRail)];
        Assert.Equal(2, gaps.Length);
        Assert.All(gaps, gap => Assert.Equal(RailSet.Left, gap.Rails));
    }

    [Fact]
    public void Once_the_gaps_are_cut_every_zone_is_one_district()
    {
        Layout layout = TrackBuilder.Line(12, 1).Build();
        DistrictPlan plan = Plan(layout, load: 6);
        Layout cut = layout with { Wiring = layout.Wiring with { Gaps = [.. plan.Gaps(layout.Control)] } };
        DistrictMap map = DistrictMap.Of(cut, plan.Districts);
        Assert.Equal(["d1", "d2", "d3"], map.Lengths.Select(length => length.District).Distinct());
        Assert.Equal("d2", map.At(new(new("s5"), 0.2)));
    }

    /// <summary>Five-ampere boosters, breakers up to 3.5 A: a district carries 2.33 A at most.</summary>
    private static DistrictPlan Plan(Layout layout, double load) =>
        DistrictPlanner.Plan(layout, [], new(new LoadAmps(load, load, 0.5), BoosterAmps: 5, MostTripAmps: 3.5, BreakerSizes.Usual));

    private static Layout Wired(Layout layout, double tripAmps) => layout with
    {
        Wiring = layout.Wiring with
        {
            Boosters = [new("main", ElectricPotential.FromVolts(15), ElectricCurrent.FromAmperes(5), ElectricResistance.FromOhms(0.1))],
            Districts = [new("old", "main", ElectricCurrent.FromAmperes(tripAmps), ElectricResistance.FromOhms(0.05))],
            Feeders = [new("f1", new(new("s0"), 0.5), "old", "P1", new Wire.Metric(0.5), Length.FromMillimeters(250))],
        },
    };
}
