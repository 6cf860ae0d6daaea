using System.Collections.Immutable;
using WireUp.Layouts;

namespace WireUp.Rails.Tests.Exact;

/// <summary>The small things that searches stand on: sets that grow together, signs, positions that agree, trusted joiners.</summary>
public sealed class SmallSetTests
{
    [Fact]
    public void The_smallest_member_stands_for_a_set_in_whatever_order_it_grew()
    {
        DisjointSetsWorkspace sets = new(6);
        Assert.True(sets.Join(5, 3));
        Assert.True(sets.Join(3, 4));
        Assert.False(sets.Join(4, 5));
        Assert.True(sets.Join(1, 5));
        Assert.Equal([0, 1, 2, 1, 1, 1], Enumerable.Range(0, 6).Select(sets.Find));
        Assert.Equal([0, 1, 2, 1, 1, 1], sets.Numbers());
        Assert.True(sets.Join(0, 4));
        Assert.Equal([0, 0, 1, 0, 0, 0], sets.Numbers());
    }

    [Fact]
    public void Signs_follow_from_what_is_known_and_contradictions_are_refused()
    {
        SignUnionWorkspace signs = new(5);
        Assert.True(signs.Join(4, 3, differ: true));
        Assert.True(signs.Join(3, 1));
        Assert.True(signs.Join(1, 0, differ: true));
        Assert.Equal([(0, false), (0, true), (2, false), (0, true), (0, false)], Enumerable.Range(0, 5).Select(signs.Find));
        Assert.True(signs.Join(4, 0));
        Assert.False(signs.Join(4, 1));
        Assert.True(signs.Join(4, 1, differ: true));
        Assert.True(signs.Join(2, 4, differ: true));
        Assert.Equal((0, true), signs.Find(2));
    }

    [Fact]
    public void A_long_chain_of_signs_reads_the_same_the_second_time()
    {
        SignUnionWorkspace signs = new(8);
        for (int i = 6; i >= 0; i--)
        {
            Assert.True(signs.Join(i + 1, i, differ: i % 3 != 0));
        }

        bool[] expected = [false, false, true, false, false, true, false, false];
        Assert.Equal(expected, Enumerable.Range(0, 8).Reverse().Select(member => signs.Find(member).Differs).Reverse());
        Assert.Equal(expected, Enumerable.Range(0, 8).Select(member => signs.Find(member).Differs));
    }

    [Fact]
    public void Positions_agree_unless_one_piece_is_asked_for_in_two()
    {
        ImmutableSortedDictionary<PieceId, string> none = ImmutableSortedDictionary<PieceId, string>.Empty;
        ImmutableSortedDictionary<PieceId, string> one = none.Add(new("T1"), "through"), other = none.Add(new("T1"), "diverging").Add(new("T2"), "through");
        Assert.True(FeedWays.Agree(none, other));
        Assert.True(FeedWays.Agree(other, none));
        Assert.True(FeedWays.Agree(one, one.Add(new("T2"), "through")));
        Assert.False(FeedWays.Agree(one, other));
        Assert.False(FeedWays.Agree(other, one));
    }

    [Fact]
    public void A_moment_is_written_with_its_two_positions()
    {
        Assert.Equal("through>diverging", new Moment("through", "diverging").ToString());
        Assert.Equal(new Moment("through", "diverging"), Moment.Of("through>diverging"));
        Assert.Null(Moment.Of("through"));
        Assert.True(Moment.Is("a>b"));
        Assert.False(Moment.Is("a"));
    }

    [Fact]
    public void The_frog_and_the_rails_beyond_it_have_the_leg_that_the_points_bring()
    {
        RailGraph graph = new PlanBuilder().Sections("toe left right").Turnouts("T1", frog: FrogKind.Live)
            .Chain("toe > T1.points").Chain("T1.through > left").Chain("T1.diverging > right").Feed("d", "toe@1").Graph();
        Assert.Equal("d/A", Legs("through", "left", first: true));
        Assert.Equal("d/B", Legs("through", "left", first: false));
        Assert.Equal("d/B", Legs("through", "right", first: true));
        Assert.Equal("d/A", Legs("diverging", "right", first: true));
        Assert.Equal("d/B", Legs("diverging", "right", first: false));
        Assert.Equal("d/A", Legs("diverging", "left", first: false));

        string Legs(string position, string section, bool first)
        {
            Station start = graph.Stations(new(section))[0];
            return string.Join(' ', Polarity.LegsIn(graph, new Dictionary<PieceId, string> { [new("T1")] = position })[first ? start.FirstTowardsB : start.SecondTowardsB]);
        }
    }

    [Fact]
    public void Solder_spends_no_trust_and_of_two_alloys_the_worse_counts()
    {
        Layout layout = new PlanBuilder().Sections("silver steel").Chain("silver > steel").Build();
        Layout mixed = layout with { Track = [layout.Track[0], ((Piece.Section)layout.Track[1]) with { Rail = layout.Defaults.Rail with { Alloy = "steel" } }] };
        Assert.Equal(1, TrustedJoiners.Spent(RailGraph.Build(layout), layout.Joints[0]));
        Assert.Equal(TrustedJoiners.Most + 1, TrustedJoiners.Spent(RailGraph.Build(mixed), mixed.Joints[0]));
        Assert.Equal(0, TrustedJoiners.Spent(RailGraph.Build(mixed), mixed.Joints[0] with { Kind = JointKind.Soldered }));
    }
}
