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

    private static RailPhase At(RailPhases phases, string piece, string end, RailSide side) =>
        phases[phases.Graph.NodeAt(new(new(new(piece), end), side))];
}
