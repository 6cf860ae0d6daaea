using WireUp.Circuits;
using WireUp.Planning.Devices;
using WireUp.Planning.Tests.TestLayouts;

namespace WireUp.Planning.Tests.Exact;

/// <summary>How little a place follows a run at least, from what two circuits say of the current in it.</summary>
public sealed class LeastSlopeTests
{
    private const double Train = 1.6;

    // On the way: j² in each leg, and j·(I·j + s), with the current of the circuit that passes the run by.
    [Fact]
    public void A_run_on_the_way_counts_with_the_current_that_is_left_where_it_is_passed_by()
    {
        RunFlow thick = new(0.9, -0.9, 0.2, -0.2), passedBy = new(0.6, -0.5, 0.1, -0.1);
        Assert.Equal(0.36 + 0.25, LeastSlope.OfLoop(thick, passedBy), 1e-12);
        Assert.Equal((0.6 * ((Train * 0.6) + 0.1)) + (0.5 * ((Train * 0.5) + 0.1)), LeastSlope.OfDrop(thick, passedBy, Train), 1e-12);
    }

    // Between 0.03 one way and 0.17 the other way lies no current at all; the train's drop is then least at j = −s/2I.
    [Fact]
    public void A_run_in_which_current_turns_round_counts_for_nothing()
    {
        RunFlow thick = new(0.03, -0.03, 0.02, -0.02), passedBy = new(-0.17, 0.17, 0.01, -0.01);
        Assert.Equal(0, LeastSlope.OfLoop(thick, passedBy));
        Assert.Equal(-2 * 0.02 * 0.02 / (4 * Train), LeastSlope.OfDrop(thick, passedBy, Train), 1e-12);
    }

    [Fact]
    public void A_run_that_has_more_current_where_it_should_be_passed_by_counts_for_nothing() =>
        Assert.Equal(0, LeastSlope.OfLoop(new(-0.1, 0.1, 0, 0), new(-0.2, 0.2, 0, 0)));

    [Fact]
    public void Nothing_passes_by_the_last_run_of_a_branch_whatever_the_rounding() =>
        Assert.Equal(2, LeastSlope.OfLoop(new(1, -1, 0, 0), new(1 + 1e-14, -1 - 1e-14, 0, 0)), 1e-9);

    // Taken with the current there without its sign, a district of the club had a bound above a choice that keeps every limit: only what the
    // thinnest wire costs, far below, would then be told.
    [Fact]
    public void On_the_club_no_choice_of_wire_that_passes_costs_less_than_the_bound()
    {
        Objective copper = Plans.Of("tarrow-valley").Objectives.Single(objective => objective.Name == "bus-copper");
        Assert.InRange(copper.Bound, 0.95 * copper.Value, copper.Value);
    }
}
