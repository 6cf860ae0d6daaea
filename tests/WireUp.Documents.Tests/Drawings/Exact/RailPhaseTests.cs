using WireUp.Documents.Phases;
using WireUp.Layouts;

namespace WireUp.Documents.Tests.Drawings.Exact;

public sealed class RailPhaseTests
{
    [Fact]
    public void Feeders_say_which_rail_is_A()
    {
        RailPhases phases = RailPhases.Of(TestLayouts.Balloon);
        Assert.Equal(RailPhase.A, At(phases, "T1", "points", RailSide.Right)); // the spur's left rail
        Assert.Equal(RailPhase.B, At(phases, "T1", "points", RailSide.Left));
        Assert.Equal("east", phases.DistrictOf(phases.Graph.NodeAt(new(new(new("T1"), "points"), RailSide.Left))));
    }

    [Fact]
    public void A_swapped_feeder_swaps_its_rails()
    {
        Layout balloon = TestLayouts.Balloon;
        Layout layout = balloon with
        {
            Wiring = balloon.Wiring with { Feeders = balloon.Wiring.Feeders.SetItem(0, balloon.Wiring.Feeders[0] with { Swap = true }) },
        };
        Assert.Equal(RailPhase.B, At(RailPhases.Of(layout), "T1", "points", RailSide.Right));
    }

    [Fact]
    public void Both_legs_on_one_rail_are_a_short()
    {
        Layout balloon = TestLayouts.Balloon;
        Layout layout = balloon with { Wiring = balloon.Wiring with { Gaps = [] } };
        Assert.Equal(RailPhase.Both, At(RailPhases.Of(layout), "T1", "points", RailSide.Right));
    }

    [Fact]
    public void A_live_frog_that_no_feeder_reaches_follows_the_points()
    {
        Layout crossover = TestLayouts.Crossover;
        Layout layout = crossover with
        {
            Wiring = Wiring.None with
            {
                Feeders = [TestLayouts.Balloon.Wiring.Feeders[0] with { At = new(new("south-2"), 0.3) }],
                Gaps =
                [
                    new(new GapPlace.InJoint(new(new("T2"), "through")), RailSet.Both),
                    new(new GapPlace.InJoint(new(new("T2"), "diverging")), RailSet.Both),
                ],
            },
        };

        RailPhases phases = RailPhases.Of(layout);

        Assert.Equal(RailPhase.Switched, phases[phases.Graph.NodeInside(new("T2"), "frog")!.Value]);
        Assert.Equal(RailPhase.Unfed, At(phases, "T1", "points", RailSide.Left));
    }

    [Fact]
    public void Without_feeders_the_letters_are_carried_on_from_the_first_section()
    {
        RailPhases phases = RailPhases.Of(TestLayouts.Crossover);

        Assert.False(phases.FromFeeders);
        Assert.Equal(RailPhase.A, At(phases, "north-1", "b", RailSide.Left));
        Assert.Equal(RailPhase.B, At(phases, "north-1", "b", RailSide.Right));
        foreach (string section in new[] { "north-2", "south-1", "south-2" })
        {
            RailPhase left = At(phases, section, "b", RailSide.Left), right = At(phases, section, "b", RailSide.Right);
            Assert.NotEqual(left, right);
            Assert.Subset(new HashSet<RailPhase> { RailPhase.A, RailPhase.B }, new HashSet<RailPhase> { left, right });
        }
    }

    [Fact]
    public void Track_beyond_a_lift_out_section_has_the_letters_that_reach_it_through_its_contacts()
    {
        Layout track = TrackKit.EveryKind().Single(layout => layout.Name == "lift-out");
        RailPhases phases = RailPhases.Of(Fed(track, new Tap("west", 0.5)));
        Assert.Equal(RailPhase.A, At(phases, "east", "b", RailSide.Left));
        Assert.Equal(RailPhase.B, At(phases, "east", "b", RailSide.Right));
        Assert.Equal("d1", phases.DistrictOf(phases.Graph.NodeAt(new(new(new("east"), "b"), RailSide.Left))));
    }

    [Fact]
    public void A_block_behind_a_reversing_switch_follows_it_and_one_behind_an_isolating_switch_does_not()
    {
        Layout track = TrackKit.Of("block", [], "block 2");
        Setting forward = new(new("B1"), "forward"), back = new(new("B1"), "back");
        Assert.Equal(RailPhase.A, At(RailPhases.Of(Fed(track, new Tap("block", 1) { When = forward })), "block", "b", RailSide.Left));
        RailPhases reversing = RailPhases.Of(Fed(track, new Tap("block", 1) { When = forward }, new Tap("block", 1) { When = back, Swap = true }));
        Assert.Equal(RailPhase.Switched, At(reversing, "block", "b", RailSide.Left));
    }

    [Fact]
    public void The_inner_rail_of_a_power_routed_siding_has_the_letter_of_its_stock_rail()
    {
        Layout track = TrackKit.Of("route", [new Piece.Turnout(new("T1"), TurnoutHand.Left, FrogKind.Insulated) { PowerRouting = true }], "lead 1 T1.points", "T1.diverging siding 1");
        RailPhases phases = RailPhases.Of(Fed(track, new Tap("lead", 0.5)));
        Assert.Equal(RailPhase.A, At(phases, "siding", "b", RailSide.Left));
        Assert.Equal(RailPhase.B, At(phases, "siding", "b", RailSide.Right));
    }

    [Fact]
    public void A_stock_rail_without_current_gets_none_through_its_frog()
    {
        Layout track = TrackKit.Of("gapped", [new Piece.Turnout(new("T1"), TurnoutHand.Left, FrogKind.Live)], "lead 1 T1.points", "T1.through main 1");
        Layout cut = track with { Wiring = new() { Gaps = [new(new GapPlace.InSection(new(new("lead"), 0.8)), RailSet.Left)] } };
        RailPhases phases = RailPhases.Of(Fed(cut, new Tap("lead", 0.5)));
        Assert.Equal(RailPhase.Unfed, At(phases, "T1", "points", RailSide.Right));
        Assert.Equal(RailPhase.Switched, At(phases, "main", "a", RailSide.Right));
    }

    [Fact]
    public void Letters_without_feeders_go_through_turnouts_whose_rails_all_move()
    {
        Layout track = TrackKit.Of("stub", [new Piece.Turnout(new("T1"), TurnoutHand.Left, FrogKind.Insulated) { Stub = true }], "lead 1 T1.points", "T1.diverging siding 1", "T1.through main 1");
        RailPhases phases = RailPhases.Of(track);
        Assert.False(phases.LettersClash);
        Assert.All(new[] { "siding", "main" }, section => Assert.Equal(RailPhase.A, At(phases, section, "b", RailSide.Left)));
    }

    private sealed record Tap(string Section, double Metres)
    {
        public Setting? When { get; init; }

        public bool Swap { get; init; }
    }

    private static Layout Fed(Layout track, params Tap[] taps) => track with
    {
        Wiring = track.Wiring with
        {
            Switches = [new(new("B1"), ["forward", "back"])],
            Feeders =
            [
                .. taps.Select((tap, i) => new Feeder($"f{i}", new(new(tap.Section), tap.Metres), "d1", "P1", new Wire.Metric(0.5), UnitsNet.Length.FromMeters(0.3))
                {
                    When = tap.When,
                    Swap = tap.Swap,
                }),
            ],
        },
    };

    private static RailPhase At(RailPhases phases, string piece, string end, RailSide side) =>
        phases[phases.Graph.NodeAt(new(new(new(piece), end), side))];
}
