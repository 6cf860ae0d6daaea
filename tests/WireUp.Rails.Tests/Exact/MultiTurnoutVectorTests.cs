using WireUp.Layouts;

namespace WireUp.Rails.Tests.Exact;

/// <summary>
/// Turnouts of three legs and more: which heel gap prevents a short in which position, what each frog carries. Common practice, no
/// published source; found by tracing rails by hand.
/// </summary>
public sealed class MultiTurnoutVectorTests
{
    private static readonly string[] ThreeWayGaps = ["left R", "through L", "through R", "right L"];

    private static FedPiece Bench(int legs, FrogKind frog, FrogFeed feed = FrogFeed.None, bool routing = false, string? fedEnds = null) =>
        new(new Piece.MultiTurnout(new("X"), legs, frog) { Feed = feed, PowerRouting = routing }, "points", fedEnds);

    [Theory]
    [InlineData("left R", "through right")]
    [InlineData("through L", "left")]
    [InlineData("through R", "right")]
    [InlineData("right L", "left through")]
    public void Live_three_way_turnout_needs_each_of_its_four_heel_gaps(string missing, string shortIn)
    {
        Assert.Equal("", Bench(3, FrogKind.Live).ShortIn(ThreeWayGaps));
        Assert.Equal(shortIn, Bench(3, FrogKind.Live).ShortWithout(missing, ThreeWayGaps));
    }

    [Fact]
    public void Live_three_way_turnout_without_one_of_its_gaps_is_reported_with_a_position_that_shorts()
    {
        foreach (string missing in ThreeWayGaps)
        {
            FedPiece turnout = Bench(3, FrogKind.Live);
            string[] gaps = [.. ThreeWayGaps.Where(gap => gap != missing)];
            IEnumerable<string> reported = turnout.Analyse(gaps).ByPosition.Select(meeting => Assert.Single(meeting.Turnouts).Value);
            Assert.NotEmpty(reported);
            Assert.All(reported, position => Assert.Contains(position, turnout.ShortIn(gaps).Split(' ')));
        }
    }

    /// <summary>Frogs of left and through, through and right, left and right; the last does not matter when set through.</summary>
    [Theory]
    [InlineData("left", "B B B")]
    [InlineData("through", "A B -")]
    [InlineData("right", "A A A")]
    public void Frogs_of_a_three_way_turnout_follow_its_two_tie_bars(string position, string frogs)
    {
        foreach ((FedPiece turnout, string[] gaps) in new[] { (Bench(3, FrogKind.Live), ThreeWayGaps), (Bench(3, FrogKind.Isolated, FrogFeed.Contact), []) })
        {
            string[] names = ["frog-1-2", "frog-2-3", "frog-1-3"];
            Assert.Equal(frogs, string.Join(' ', names.Select(frog => turnout.Carries(frog, position, gaps))));
        }
    }

    [Theory]
    [InlineData(FrogKind.Insulated, FrogFeed.None)]
    [InlineData(FrogKind.Isolated, FrogFeed.None)]
    [InlineData(FrogKind.Isolated, FrogFeed.Contact)]
    public void Three_way_turnout_without_live_frogs_is_live_everywhere_and_needs_no_gaps(FrogKind frog, FrogFeed feed)
    {
        Assert.Equal("", Bench(3, frog, feed).ShortIn());
        Assert.All(new[] { "left", "through", "right" }, leg => Assert.Equal("AB", Bench(3, frog, feed, fedEnds: "points").End(leg, "left")));
    }

    [Theory]
    [InlineData("left", "AB -B -B")]
    [InlineData("through", "A- AB -B")]
    [InlineData("right", "A- A- AB")]
    [InlineData(null, "A- -- -B")]
    public void Power_routing_three_way_turnout_leaves_one_rail_of_the_other_legs_without_current(string? position, string legs)
    {
        FedPiece turnout = Bench(3, FrogKind.Insulated, routing: true, fedEnds: "points");
        Assert.Equal(legs, string.Join(' ', new[] { "left", "through", "right" }.Select(leg => turnout.End(leg, position))));
        Assert.Equal("", Bench(3, FrogKind.Insulated, routing: true).ShortIn());
    }

    [Theory]
    [InlineData(3)]
    [InlineData(4)]
    [InlineData(5)]
    [InlineData(9)]
    public void Frogs_of_any_turnout_follow_the_law_and_every_heel_gap_is_needed(int legs)
    {
        FedPiece turnout = Bench(legs, FrogKind.Live);
        string[] names = [.. new Piece.MultiTurnout(new("X"), legs, FrogKind.Live).Legs];
        string[] gaps = [.. names.SelectMany((leg, i) => new[] { i > 0 ? $"{leg} L" : "", i < legs - 1 ? $"{leg} R" : "" }).Where(gap => gap != "")];
        Assert.Equal(2 * (legs - 1), gaps.Length);
        Assert.Equal("", turnout.ShortIn(gaps));
        Assert.All(gaps, gap => Assert.NotEqual("", turnout.ShortWithout(gap, gaps)));
        for (int j = 0; j < legs; j++)
        {
            for (int k = j + 1; k < legs; k++)
            {
                Assert.Equal("BA", turnout.Carries($"frog-{j + 1}-{k + 1}", names[j], gaps) + turnout.Carries($"frog-{j + 1}-{k + 1}", names[k], gaps));
            }
        }
    }
}
