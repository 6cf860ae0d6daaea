using UnitsNet;
using WireUp.Checking.Rules;
using WireUp.Circuits;
using WireUp.Layouts;
using WireUp.Rails;

namespace WireUp.Checking.Tests.Exact;

/// <summary>The sentences of rules where there is one of a kind or several, always or in some positions only.</summary>
public sealed class RuleWordTests
{
    private static readonly PieceId K = new("K");

    [Theory]
    [InlineData("b", "Feeder \"f2\" brings A and B to the track the other way round than \"f1\", \"f3\", \"f4\" and \"f5\".", "Exchange the two wires of \"f2\" at the rails.")]
    [InlineData("bc", "Feeders \"f2\" and \"f3\" bring A and B to the track the other way round than \"f1\", \"f4\" and \"f5\".", "Exchange the two wires of \"f2\" and \"f3\" at the rails.")]
    public void Feeders_with_exchanged_wires_are_told_with_those_they_contradict(string exchanged, string message, string remedy)
    {
        string[] feeders = [.. "abcde".Select(section => $"{section}@1{(exchanged.Contains(section, StringComparison.Ordinal) ? "!" : "")}")];
        Finding found = Assert.Single(Checks.Of(new PlanBuilder().Sections("a b c d e").Chain("a > b > c > d > e").Feed("d", feeders), "WU3005"));
        Assert.Equal((message, remedy), (found.Message, found.Remedy));
    }

    [Fact]
    public void Of_two_feeders_that_contradict_each_other_either_may_be_exchanged()
    {
        Finding found = Assert.Single(Checks.Of(new PlanBuilder().Sections("a b").Chain("a > b").Feed("d", "a@1", "b@1!"), "WU3005"));
        Assert.Equal("Feeders \"f1\" and \"f2\" bring A and B to the same track in opposite ways.", found.Message);
        Assert.Equal("Find out which is right and exchange the two wires of \"f2\" at the rails, or of the other.", found.Remedy);
    }

    [Theory]
    [InlineData(DistrictUse.Running, false, "WU3004", "Districts \"d\" and \"e\" are joined by a rail when \"K\" is set to closed, between feeders \"f1\" and \"f2\".")]
    [InlineData(DistrictUse.Running, true, "WU3009", "A rail joins district \"d\" to district \"e\", one of which swaps polarity when \"K\" is set to closed, between feeders \"f1\" and \"f2\".")]
    [InlineData(DistrictUse.Programming, false, "WU3022", "A rail joins programming district \"e\" to district \"d\" when \"K\" is set to closed, between feeders \"f1\" and \"f2\".")]
    public void Districts_that_a_contact_joins_are_told_with_its_position(DistrictUse use, bool reversing, string code, string message)
    {
        PlanBuilder plan = new PlanBuilder().Sections("a b").Chain("a > b").Gap("a.b", RailSet.Both, "K.closed").Switch("K", "open closed")
            .District("d").District("e", reversing, use: use).Feed("d", "a@1").Feed("e", "b@1");
        Finding found = Checks.Of(plan, code)[0];
        Assert.Equal(message, found.Message);
        Assert.Equal("closed", found.Turnouts[K]);
    }

    [Theory]
    [InlineData("west", 2, "\"west\" and \"west-2\" have current only while \"T1\" is set to through, through its blades.")]
    [InlineData("west", 1, "\"west\" has current only while \"T1\" is set to through, through its blades.")]
    public void Track_behind_blades_is_told_with_all_of_its_sections(string first, int sections, string message)
    {
        PlanBuilder plan = new PlanBuilder().Turnouts("T1", frog: FrogKind.Live).Sections($"toe east {first}").Chain("toe > T1.points").Chain($"T1.through > {first}").Chain("T1.diverging > east").Feed("d", "toe@1");
        plan = sections == 2 ? plan.Sections($"{first}-2").Chain($"{first} > {first}-2") : plan;
        Finding found = Assert.Single(Checks.Of(plan, "WU3013"), finding => finding.Turnouts[new("T1")] == "through");
        Assert.Equal((message, $"Put a feeder at \"{first}\", beyond gaps in the rails that come from the frogs."), (found.Message, found.Remedy));
    }

    [Theory]
    [InlineData("T1", "The open blade of \"T1\" has the polarity opposite to its stock rail: ")]
    [InlineData("T1 T2", "The open blade of \"T1\" and \"T2\" has the polarity opposite to the stock rail of each: ")]
    public void Open_blades_are_told_together(string turnouts, string start)
    {
        PlanBuilder plan = new PlanBuilder().Turnouts(turnouts, frog: FrogKind.Live);
        foreach (string name in turnouts.Split(' '))
        {
            plan.Sections($"toe-{name}").Chain($"toe-{name} > {name}.points").Feed("d", $"toe-{name}@1");
        }

        Assert.StartsWith(start, Assert.Single(Checks.Of(plan, "WU3017")).Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(ControlSystem.Command, "its feeders behind an auto-reverser.")]
    [InlineData(ControlSystem.Direct, "its feeders behind a reversing switch.")]
    public void A_loop_is_walked_past_its_trackwork_and_wants_the_device_of_its_control_system(ControlSystem control, string device)
    {
        // Round the loop by T2: 2 m of one section and 2 m of the next.
        PlanBuilder plan = new PlanBuilder { Control = control }.Turnouts("T1 T2").Sections("spur out back side")
            .Chain("T1.points > spur").Chain("T1.through > out > T2.points").Chain("T2.through > back > T1.diverging").Chain("T2.diverging > side");
        Finding found = Assert.Single(Checks.Of(plan, "WU3003"));
        Assert.StartsWith("Walking 4 m along the track from \"T1.through\" by \"T2\" to \"T1.diverging\" brings the left rail back as the right one, ", found.Message, StringComparison.Ordinal);
        Assert.EndsWith(device, found.Remedy, StringComparison.Ordinal);
    }

    [Fact]
    public void A_gap_that_several_cabs_meet_at_names_all_of_them()
    {
        PlanBuilder plan = new PlanBuilder { Control = ControlSystem.Direct }.Sections("b1 b2").Chain("b1 > b2").Gap("b1.b").Switch("B", "a c");
        foreach (string cab in new[] { "cab-a", "cab-b", "cab-c" }) plan.Booster(cab).District(cab, booster: cab);
        Finding found = Assert.Single(Checks.Of(plan.Feed("cab-a", "b1@1?B.a").Feed("cab-c", "b1@1.5?B.c").Feed("cab-b", "b2@1"), "WU3020"));
        Assert.StartsWith("A train that crosses the gap \"b1.b\" always passes from cabs \"cab-a\" and \"cab-c\" to cab \"cab-b\": ", found.Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("f1@1!?S.on f2@1.5!", 1)]
    [InlineData("f1@1?S.on f2@1.5", 1)]
    [InlineData("f1@1!?S.on f2@1.5", 0)] // the other brings A where the switched one brings B: that is exchanged wires
    public void A_switched_feeder_is_defeated_by_one_whose_wires_lie_the_same_way_round(string feeders, int told)
    {
        string[] places = [.. feeders.Split(' ').Select(feeder => $"siding{feeder[2..]}")];
        Assert.Equal(told, Checks.Of(new PlanBuilder().Sections("siding").Switch("S", "on off").Feed("d", places), "WU5004").Length);
    }

    [Fact]
    public void A_live_frog_that_joins_the_rails_beyond_it_wants_a_gap_in_either_of_its_rails()
    {
        // The insulated turnout at the other end of the passing loop bonds both inner rails to its stock rails.
        Finding found = Assert.Single(Checks.Of(new PlanBuilder().Turnouts("T1", TurnoutHand.Right, FrogKind.Live).Turnouts("T2", TurnoutHand.Left).Sections("ring main siding")
            .Chain("T1.through > main > T2.through").Chain("T1.diverging > siding > T2.diverging").Chain("T2.points > ring > T1.points"), "WU2004"));
        Assert.Equal("Cut gaps in the rails \"T1.through/right\" and \"T1.diverging/left\", just beyond the frog.", found.Remedy);
    }

    [Theory]
    [InlineData(60, 1)] // the shortest pick-up wheel base is 60 mm: as long as the dead frog, it finds no current
    [InlineData(59, 0)]
    public void A_dead_frog_as_long_as_the_shortest_wheel_base_stops_it(double millimetres, int told)
    {
        Layout layout = new PlanBuilder().Piece(new Piece.Turnout(new("T1"), TurnoutHand.Left, FrogKind.Insulated) { DeadLength = Length.FromMillimeters(millimetres) }).Build();
        Assert.Equal(told, Checks.Of(layout).Count(finding => finding.Code == "WU2001"));
    }

    // The rails of a number n frog spread by one in n. An insulated one is dead while they are less than 0.27 of the gauge apart: n × 16.5 mm × 0.27.
    // A crossing of 30 degrees is one in 1 / (2 tan 15°) = 1.866.
    [Theory]
    [InlineData(8.0, 35.64)]
    [InlineData(null, 26.73)] // a number 6 where none is given
    public void The_dead_length_of_a_frog_is_estimated_from_its_number(double? number, double millimetres)
    {
        Piece turnout = new Piece.Turnout(new("T1"), TurnoutHand.Left, FrogKind.Insulated) { Number = number };
        Assert.Equal([false, true], Stops(turnout, millimetres));
    }

    [Fact]
    public void The_dead_length_of_a_crossing_is_estimated_from_its_angle() =>
        Assert.Equal([false, true], Stops(new Piece.Crossing(new("X"), Angle.FromDegrees(30), FrogKind.Insulated), 1.8660 * 16.5 * 0.27));

    [Fact]
    public void A_standing_short_that_passes_no_frog_is_to_be_cut_along_its_path()
    {
        CheckContext context = Context(new PlanBuilder().Sections("a b").Chain("a > b").Feed("d", "a@1", "b@1"));
        RailMeeting meeting = new(MeetingKind.Short, new("f1", "d", Leg.A), new("f2", "d", Leg.B), [new RailPoint.AtEnd(new(new(new("a"), "b"), RailSide.Left))]);
        Finding found = Assert.Single(new StandingShort().Check(context with { Polarity = context.Polarity with { Standing = [meeting] } }));
        Assert.Equal("Feeder \"f1\" and feeder \"f2\" short each other through the rails, whatever way the turnouts lie.", found.Message);
        Assert.Equal("Cut a gap in the rail along the path where it should not conduct.", found.Remedy);
        Assert.Equal(["f1", "f2"], found.Places);
    }

    [Fact]
    public void What_the_circuit_has_no_figures_for_is_told_with_its_place()
    {
        CheckContext context = Context(new PlanBuilder().Sections("a").Feed("d", "a@1"));
        CheckContext given = context with { Power = context.Power with { Problems = [new CircuitProblem.NotDefinite("f1")] } };
        Finding found = Assert.Single(new LimitsNotChecked().Check(given));
        Assert.StartsWith("Part of the circuit has no figures: ", found.Message, StringComparison.Ordinal);
        Assert.False(found.Message.EndsWith("..", StringComparison.Ordinal));
        Assert.Equal(["f1"], found.Places);
    }

    /// <summary>Whether the piece stops engines a tenth of a millimetre longer and shorter than that.</summary>
    private static IEnumerable<bool> Stops(Piece piece, double millimetres) =>
        from pickup in new[] { millimetres + 0.1, millimetres - 0.1 }
        let layout = new PlanBuilder().Piece(piece).Build() with { Scale = "HO", ShortestPickup = Length.FromMillimeters(pickup) }
        select Checks.Of(layout).Any(finding => finding.Code == "WU2001" && finding.Message.Contains(", as estimated from its number and the gauge,", StringComparison.Ordinal));

    private static CheckContext Context(PlanBuilder plan)
    {
        RailGraph graph = plan.Graph();
        return new(graph, Polarity.Analyse(graph, cancellationToken: TestContext.Current.CancellationToken), TrackGraph.Of(graph.Index), new PowerReport());
    }
}
