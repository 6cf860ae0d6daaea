using System.Collections.Immutable;
using UnitsNet;
using WireUp.Layouts;
using WireUp.Planning.Reversing;

namespace WireUp.Planning.Tests.Reversing.Exact;

/// <summary>What the planner takes from a piece of trackwork: ways, main ways, and how fast track beside track comes clear.</summary>
public sealed class JunctionTests
{
    private static readonly PieceId Id = new("T1");

    [Fact]
    public void Beside_the_legs_of_a_turnout_track_comes_clear_by_its_number_and_beside_its_points_there_is_none()
    {
        Junction numbered = Turnout(TurnoutHand.Left, 8), usual = Turnout(TurnoutHand.Left, null);
        Assert.Equal([null, 8, 8], Enumerable.Range(0, 3).Select(numbered.NumberBeside));
        Assert.Equal([null, 6, 6], Enumerable.Range(0, 3).Select(usual.NumberBeside));
    }

    [Fact]
    public void Of_a_turnout_with_three_legs_the_middle_one_is_the_main_way()
    {
        Piece.MultiTurnout piece = new(Id, 3, FrogKind.Live);
        string[] legs = [.. piece.Legs];
        Junction turnout = new(0, piece, ["points", .. legs], []) { Ways = [.. legs.Select(leg => new WireUp.Rails.DrivableWay("points", leg, leg))] };
        Assert.Equal([null, 6, 6, 6], Enumerable.Range(0, 4).Select(turnout.NumberBeside));
        Assert.Equal([false, true, false], Enumerable.Range(1, 3).Select(port => turnout.IsMainWay(0, port)));
    }

    // A crossing of angle a parts its tracks by one unit in 1 / (2 tan(a/2)).
    [Fact]
    public void Beside_a_crossing_track_comes_clear_by_its_angle()
    {
        Junction crossing = new(0, new Piece.Crossing(Id, Angle.FromDegrees(30), FrogKind.Live), ["a1", "a2", "b1", "b2"], [])
        {
            Ways = [new("a1", "a2", null), new("b1", "b2", null)],
        };
        Assert.Equal(1 / (2 * Math.Tan(Math.PI / 12)), crossing.NumberBeside(0)!.Value, 1e-12);
        Assert.True(crossing.IsMainWay(0, 1));
        Assert.False(crossing.IsMainWay(0, 2));
    }

    [Fact]
    public void The_main_way_of_a_turnout_is_its_through_leg_and_a_wye_has_none()
    {
        Junction turnout = Turnout(TurnoutHand.Right, 6), wye = Turnout(TurnoutHand.Wye, 6);
        Assert.Equal([1, 2], turnout.WaysFrom(0));
        Assert.Equal([0], turnout.WaysFrom(2));
        Assert.True(turnout.IsMainWay(0, 1) && turnout.IsMainWay(1, 0));
        Assert.False(turnout.IsMainWay(0, 2) || wye.IsMainWay(0, 1) || wye.IsMainWay(0, 2));
        Assert.Equal([false, false, true], Enumerable.Range(0, 3).Select(turnout.IsDiverging));
        Assert.Equal([false, true, true], Enumerable.Range(0, 3).Select(wye.IsDiverging));
    }

    [Theory]
    [InlineData("T1", "", true)]
    [InlineData("", "0-2", true)]
    [InlineData("", "2-3", false)]
    [InlineData("T2", "2-3", false)]
    public void Two_sections_overlap_where_they_share_a_turnout_or_track(string junction, string stretch, bool overlap)
    {
        Candidate one = Section([1], [new(0, 0, 2)], [], []), other = Section(
            junction.Length > 0 ? [junction == "T1" ? 1 : 2] : [],
            stretch.Length > 0 ? [new(0, stretch[0] - '0', stretch[2] - '0')] : [],
            [], []);
        Assert.Equal(overlap, one.Overlaps(other));
        Assert.Equal(overlap, other.Overlaps(one));
        Assert.Equal(overlap, one.Touches(other));
    }

    [Fact]
    public void Two_sections_touch_where_one_lies_within_the_buffer_of_the_other()
    {
        Candidate one = Section([1], [new(0, 0, 2)], [new(0, 2, 3)], [2]);
        Candidate near = Section([], [new(0, 2.5, 4)], [], []), turnout = Section([2], [], [], []), far = Section([3], [new(0, 3, 4)], [], []);
        Assert.True(one.Touches(near) && near.Touches(one) && one.Touches(turnout) && turnout.Touches(one));
        Assert.False(one.Touches(far) || far.Touches(one) || one.Overlaps(near));
    }

    private static Junction Turnout(TurnoutHand hand, double? number) => new(0, new Piece.Turnout(Id, hand, FrogKind.Live) { Number = number }, ["points", "through", "diverging"], [])
    {
        Ways = [new("points", "through", "through"), new("points", "diverging", "diverging")],
    };

    private static Candidate Section(ImmutableArray<int> junctions, ImmutableArray<RunStretch> stretches, ImmutableArray<RunStretch> halo, ImmutableArray<int> haloJunctions) => new()
    {
        Index = 0,
        Junctions = junctions,
        Stretches = stretches,
        Borders = [],
        Pairs = [],
        Halo = halo,
        HaloJunctions = haloJunctions,
        ExtraRoads = 0,
        PassingRoads = 0,
        Gaps = 0,
        Penalty = 0,
        TailMetres = 0,
    };
}
