using UnitsNet;
using WireUp.Layouts;

namespace WireUp.Rails.Tests.Exact;

/// <summary>
/// Crossings, slips and scissors held to the handbook's answers: which gap or cut prevents a short in which position. Seen from the west;
/// ends are a1 north-west, b1 south-west, and in the east a2 and b2. The answers are common practice, no published source, found by
/// tracing rails by hand.
/// </summary>
public sealed class CrossingVectorTests
{
    private static readonly string[] SameGaps = ["a1 R", "b1 L", "a2 L", "b2 R"], OppositeGaps = ["a1 L", "b2 R", "b1 L", "a2 R"];

    private static FedPiece Crossing(FrogKind frog, bool opposite = false) => new(
        new Piece.Crossing(new("X"), Angle.FromDegrees(30), frog) { Feed = FrogFeed.Contact, OppositePhase = opposite }, opposite ? "a1 b2" : "a1 b1");

    private static Piece.Slip SlipOf(bool @double, SlipDrive drive = SlipDrive.OtherEnd, FrogKind frog = FrogKind.Live) =>
        new(new("X"), @double, frog) { Feed = FrogFeed.Contact, Drive = drive };

    private static FedPiece Slip(bool @double, SlipDrive drive = SlipDrive.OtherEnd, FrogKind frog = FrogKind.Live) => new(SlipOf(@double, drive, frog), "a1 b1");

    [Theory]
    [InlineData("a1 R", "b")]
    [InlineData("b1 L", "a")]
    [InlineData("a2 L", "b")]
    [InlineData("b2 R", "a")]
    public void Live_crossing_of_one_phase_needs_a_gap_at_each_acute_vee(string gap, string shortIn)
    {
        Assert.Equal("", Crossing(FrogKind.Live).ShortIn(SameGaps));
        Assert.Equal(shortIn, Crossing(FrogKind.Live).ShortWithout(gap, SameGaps));
    }

    /// <summary>In the handbook's frame, looking east: north-west left, north-east left, south-west right, south-east right.</summary>
    [Theory]
    [InlineData("a1 L", "b")]
    [InlineData("b2 R", "a")]
    [InlineData("b1 L", "a")]
    [InlineData("a2 R", "b")]
    public void Live_crossing_of_opposite_phase_needs_a_gap_at_each_obtuse_frog(string gap, string shortIn)
    {
        Assert.Equal("", Crossing(FrogKind.Live, opposite: true).ShortIn(OppositeGaps));
        Assert.Equal(shortIn, Crossing(FrogKind.Live, opposite: true).ShortWithout(gap, OppositeGaps));
    }

    public static TheoryData<bool, string, string, string> InternalCuts => new()
    {
        { false, "frog-west", "frog-left", "a" }, { false, "frog-west", "frog-right", "b" },
        { false, "frog-east", "frog-left", "b" }, { false, "frog-east", "frog-right", "a" },
        { true, "frog-west", "frog-left", "a" }, { true, "frog-west", "frog-right", "b" },
        { true, "frog-east", "frog-left", "b" }, { true, "frog-east", "frog-right", "a" },
    };

    [Theory]
    [MemberData(nameof(InternalCuts))]
    public void Live_crossing_needs_each_of_its_four_inner_cuts(bool opposite, string from, string to, string shortIn)
    {
        Piece crossing = new Piece.Crossing(new("X"), Angle.FromDegrees(30), FrogKind.Live) { Feed = FrogFeed.Contact, OppositePhase = opposite };
        RowBench bench = new(TrackworkTable.Of(crossing, ControlSystem.Command), opposite ? "a1 b2" : "a1 b1");
        string[] gaps = opposite ? OppositeGaps : SameGaps;
        Assert.Equal("", bench.ShortAcross(null, gaps));
        Assert.Equal(shortIn, bench.ShortAcross((from, to), gaps));
    }

    [Theory]
    [InlineData(false, "a", "A B B A")]
    [InlineData(false, "b", "A B A B")]
    [InlineData(true, "a", "A B B A")]
    [InlineData(true, "b", "B A B A")]
    public void Frogs_of_a_live_crossing_follow_the_track_that_is_set(bool opposite, string position, string leftRightWestEast)
    {
        FedPiece crossing = Crossing(FrogKind.Live, opposite);
        string[] frogs = ["frog-left", "frog-right", "frog-west", "frog-east"];
        Assert.Equal(leftRightWestEast, string.Join(' ', frogs.Select(frog => crossing.Carries(frog, position, opposite ? OppositeGaps : SameGaps))));
    }

    [Theory]
    [InlineData(FrogKind.Insulated)]
    [InlineData(FrogKind.Isolated)]
    public void Crossing_without_live_frogs_needs_no_gaps_in_either_phase(FrogKind frog)
    {
        Assert.Equal("", Crossing(frog).ShortIn());
        Assert.Equal("", Crossing(frog, opposite: true).ShortIn());
        Assert.Empty(Crossing(frog).Analyse().Standing);
        Assert.Empty(Crossing(frog).Analyse().ByPosition);
    }

    [Fact]
    public void Insulated_crossing_carries_each_track_through_and_joins_them_nowhere()
    {
        FedPiece crossing = new(new Piece.Crossing(new("X"), Angle.FromDegrees(30), FrogKind.Insulated), "a1 b1", fedEnds: "a1");
        Assert.Equal(("AB", "AB", "--", "--"), (crossing.End("a1", null), crossing.End("a2", null), crossing.End("b1", null), crossing.End("b2", null)));
    }

    [Theory]
    [InlineData("a", "B A")]
    [InlineData("b", "A B")]
    [InlineData("a1-b2", "B B")]
    [InlineData("b1-a2", "A A")]
    public void Frogs_of_a_double_slip_follow_the_points_at_the_other_end(string position, string westEast)
    {
        foreach (FrogKind frog in new[] { FrogKind.Live, FrogKind.Isolated })
        {
            FedPiece slip = Slip(@double: true, frog: frog);
            string[] gaps = frog == FrogKind.Live ? SameGaps : [];
            Assert.Equal(westEast, $"{slip.Carries("frog-west", position, gaps)} {slip.Carries("frog-east", position, gaps)}");
        }
    }

    /// <summary>East points south: routes b and b1-a2; west points south: routes a and b1-a2.</summary>
    [Theory]
    [InlineData("a1 R", "b b1-a2")]
    [InlineData("b1 L", "a a1-b2")]
    [InlineData("b2 R", "a b1-a2")]
    [InlineData("a2 L", "b a1-b2")]
    public void Live_double_slip_needs_a_gap_at_each_acute_vee(string gap, string shortIn)
    {
        Assert.Equal("", Slip(@double: true).ShortIn(SameGaps));
        Assert.Equal(shortIn, Slip(@double: true).ShortWithout(gap, SameGaps));
    }

    [Fact]
    public void Double_slip_driven_from_the_frogs_own_end_is_wrong_on_both_slip_roads_and_on_nothing_else()
    {
        FedPiece right = Slip(@double: true), own = Slip(@double: true, SlipDrive.OwnEnd);
        IEnumerable<string> wrong = new[] { "a", "b", "a1-b2", "b1-a2" }.Where(position =>
            new[] { "frog-west", "frog-east" }.Any(frog => own.Carries(frog, position, SameGaps) != right.Carries(frog, position, SameGaps)));
        Assert.Equal(["a1-b2", "b1-a2"], wrong);
    }

    [Theory]
    [InlineData("a", "B A")]
    [InlineData("b", "A B")]
    [InlineData("a1-b2", "B B")]
    [InlineData("straight", "A A")]
    public void Frogs_of_a_single_slip_follow_the_points_at_the_other_end(string position, string westEast)
    {
        FedPiece slip = Slip(@double: false);
        Assert.Equal(westEast, $"{slip.Carries("frog-west", position, SameGaps)} {slip.Carries("frog-east", position, SameGaps)}");
    }

    [Fact]
    public void Single_slip_with_both_points_straight_is_wrong_for_both_its_straight_routes_unless_the_route_drives_its_frogs()
    {
        foreach (SlipDrive drive in new[] { SlipDrive.OtherEnd, SlipDrive.OwnEnd })
        {
            FedPiece slip = Slip(@double: false, drive);
            string frogs = $"{slip.Carries("frog-west", "straight", SameGaps)} {slip.Carries("frog-east", "straight", SameGaps)}";
            Assert.DoesNotContain(frogs, new[] { "B A", "A B" });
            Assert.Equal(["straight"], TrackworkTable.Of(SlipOf(@double: false, drive), ControlSystem.Command).Useless);
        }

        Trackwork byRoute = TrackworkTable.Of(SlipOf(@double: false, SlipDrive.Route), ControlSystem.Command);
        Assert.Equal(["a", "b", "a1-b2"], byRoute.Positions);
        Assert.Empty(byRoute.Useless);
    }

    [Fact]
    public void Sensor_turns_the_frogs_of_a_slip_for_the_train_and_leaves_no_position_to_avoid()
    {
        Piece.Slip slip = SlipOf(@double: false, SlipDrive.OwnEnd) with { Feed = FrogFeed.Sensor };
        Trackwork row = TrackworkTable.Of(slip, ControlSystem.Command);
        Assert.Empty(row.Useless);
        FedPiece bench = new(slip, "a1 b1");
        Assert.Equal(
            ["BA", "AB", "BB", "--"],
            row.Positions.Select(position => bench.Carries("frog-west", position, SameGaps) + bench.Carries("frog-east", position, SameGaps)));
    }

    [Fact]
    public void Single_slip_with_dead_frogs_may_stand_with_both_points_straight()
    {
        Trackwork row = TrackworkTable.Of(SlipOf(@double: false, frog: FrogKind.Insulated), ControlSystem.Command);
        Assert.Equal(["a", "b", "a1-b2", "straight"], row.Positions);
        Assert.Empty(row.Useless);
        Assert.Equal(2, row.Ways.Count(way => way.Position == "straight"));
    }

    [Theory]
    [InlineData(true, FrogKind.Insulated)]
    [InlineData(true, FrogKind.Isolated)]
    [InlineData(false, FrogKind.Insulated)]
    [InlineData(false, FrogKind.Isolated)]
    public void Slip_without_live_frogs_is_two_nets_and_needs_no_gaps(bool @double, FrogKind frog)
    {
        Assert.Equal("", Slip(@double, frog: frog).ShortIn());
        FedPiece fedAtOneEnd = new(SlipOf(@double, frog: frog), "a1 b1", fedEnds: "b2");
        Assert.All(new[] { "a1", "b1", "a2", "b2" }, end => Assert.Equal("AB", fedAtOneEnd.End(end, "a")));
    }
}
