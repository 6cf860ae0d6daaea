using UnitsNet;
using WireUp.Layouts;
using WireUp.Planning.Reversing;

namespace WireUp.Planning.Tests.Reversing.Exact;

/// <summary>Cases in which a simpler way of thinking goes wrong, each named after the mistake. Common practice, no published source.</summary>
public sealed class TrickyCaseTests
{
    private static ReversingPlan Plan(Layout layout) => ReversingPlanner.Plan(layout, cancellation: TestContext.Current.CancellationToken);

    private static string[] Borders(ReversingPlan plan) =>
        [.. plan.Sections.SelectMany(section => section.Borders).Select(border => border.At.ToString()!).Order(StringComparer.Ordinal)];

    private static Layout WithFrogs(Layout layout, FrogKind frog) => layout with
    {
        Track = [.. layout.Track.Select(piece => piece is Piece.Turnout turnout ? turnout with { Frog = frog, PowerRouting = frog == FrogKind.Insulated } : piece)],
    };

    [Fact]
    public void Taking_track_for_a_line_would_see_no_conflict_in_a_balloon_and_one_in_a_dog_bone()
    {
        Assert.NotEmpty(Plan(Classics.Balloon()).Sections);
        Assert.Empty(Plan(Classics.FoldedOval()).Sections);
    }

    [Fact]
    public void Back_to_back_turnouts_decide_whether_a_link_turns_trains()
    {
        Assert.Empty(Plan(Classics.TwiceRound(forward: true)).Sections);
        Assert.NotEmpty(Plan(Classics.TwiceRound(forward: false)).Sections);
    }

    [Fact]
    public void Taking_an_insulated_crossing_for_a_connection_or_a_slip_for_a_crossing_changes_the_answer()
    {
        Layout insulated = Track.Of("east 5; west 5; X crossing", "X.a2 > east > X.b2", "X.b1 > west > X.a1");
        Assert.Empty(Plan(insulated).Sections);
        Assert.NotEmpty(Plan(Classics.FigureEightWithSlip()).Sections);
    }

    [Fact]
    public void The_crossover_itself_is_not_proposed_as_a_section_where_no_train_fits_it()
    {
        var section = Assert.Single(Plan(Classics.FoldedOvalWithCrossover()).Sections);
        Assert.DoesNotContain(section.Borders, border => section.Borders.All(other => other.At is GapPlace.InSection { Place.Section.Name: "cross" }));
        Assert.Equal(3, section.Borders.Length);
    }

    [Fact]
    public void Every_track_that_leaves_a_section_is_gapped_not_only_two()
    {
        var section = Assert.Single(Plan(Classics.FoldedOvalWithTwoCrossovers()).Sections);
        Assert.Equal(4, section.Borders.Length);
        Assert.Equal(8, section.NewGaps.Sum(gap => gap.Rails == RailSet.Both ? 2 : 1));
    }

    [Fact]
    public void Sections_that_may_end_only_in_the_roads_of_a_ladder_share_no_border()
    {
        var layout = Classics.LoopWithStorage(spur: 0.5).NoGap("in", "out", "spur");
        var plan = Plan(layout);
        Assert.NotEmpty(plan.Sections);
        Assert.Empty(plan.Remains);
        Assert.Empty(Validity.Broken(layout, PlanDrawing.Of(plan)));
    }

    [Fact]
    public void The_length_that_counts_is_that_of_the_train_not_of_its_engine()
    {
        Layout with = Classics.Balloon(loop: 2.2).Train(1.5) with
        {
            Stock = new() { Locomotives = [new("engine", ElectricCurrent.Zero, ElectricCurrent.Zero, ElectricCurrent.Zero, ElectricCurrent.Zero, Length.FromMillimeters(100), 1)] },
        };
        Assert.True(Assert.Single(Plan(with).Sections).Drivable.Meters >= 1.65);
    }

    [Theory]
    [InlineData(FrogKind.Live)]
    [InlineData(FrogKind.Isolated)]
    [InlineData(FrogKind.Insulated)]
    public void Turnouts_that_hide_a_conflict_in_one_position_change_nothing(FrogKind frog)
    {
        foreach (Layout layout in new[] { Classics.Balloon(), Classics.Wye(), Classics.OvalWithCutOff(), Classics.OvalWithTwoCutOffs() })
        {
            Assert.Equal(Borders(Plan(layout)), Borders(Plan(WithFrogs(layout, frog))));
        }
    }

    [Fact]
    public void A_connection_that_is_laid_later_brings_its_conflict_with_it()
    {
        Layout after = Classics.OvalWithCutOff();
        Layout before = after with { Joints = [.. after.Joints.Where(joint => joint.Second.Piece.Name != "cutoff")] };
        Assert.Empty(Plan(before).Sections);
        Assert.Single(Plan(after).Sections);
    }

    [Fact]
    public void Two_conflicts_that_share_an_edge_are_cured_by_one_section_there() => Assert.Single(Plan(Classics.ForkedCutOff()).Sections);

    [Fact]
    public void No_section_holds_a_loop_of_its_own()
    {
        var layout = Classics.WyeWithBalloonTail();
        Assert.DoesNotContain("V2", Validity.Broken(layout, PlanDrawing.Of(Plan(layout))));
    }
}
