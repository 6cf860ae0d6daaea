using UnitsNet;
using WireUp.Layouts;

namespace WireUp.Rails.Tests.Exact;

/// <summary>
/// Scissors crossovers: fourteen cuts, each needed and together enough, in the piece and in its parts. Track a is north of track b, ends 1
/// are west; the crossovers are a1–b2 and b1–a2. Common practice, no published source; the answers are found by tracing rails by hand.
/// </summary>
public sealed class ScissorsVectorTests
{
    private static Piece.Scissors Of(FrogKind frog) => new(new("X"), frog) { Feed = FrogFeed.Contact };

    private static FedPiece Scissors(FrogKind frog, string? fedEnds = null) => new(Of(frog), "a1 b1", fedEnds);

    /// <summary>Cut by cut what is on its two sides.</summary>
    public static TheoryData<string, string> Cuts => new()
    {
        { "frog-a-west", "frog-left" }, { "frog-a-east", "frog-left" }, { "frog-b-west", "frog-right" }, { "frog-b-east", "frog-right" },
        { "a1 R", "frog-west" }, { "b1 L", "frog-west" }, { "b2 L", "frog-east" }, { "a2 R", "frog-east" },
        { "frog-a-west", "frog-a-east" }, { "frog-b-west", "frog-b-east" },
        { "frog-west", "frog-left" }, { "frog-west", "frog-right" }, { "frog-east", "frog-left" }, { "frog-east", "frog-right" },
    };

    [Theory]
    [MemberData(nameof(Cuts))]
    public void Live_scissors_need_each_of_their_fourteen_cuts(string from, string to)
    {
        RowBench bench = new(TrackworkTable.Of(Of(FrogKind.Live), ControlSystem.Command), "a1 b1");
        Assert.Equal("", bench.ShortAcross(null));
        Assert.NotEqual("", bench.ShortAcross((from, to)));
    }

    [Fact]
    public void Live_scissors_with_their_cuts_and_every_end_fed_are_free_of_shorts()
    {
        PolarityReport report = Scissors(FrogKind.Live).Analyse();
        Assert.Empty(report.Standing);
        Assert.Empty(report.ByPosition);
        Assert.Empty(report.OddLoops);
        Assert.Empty(report.Exchanged);
    }

    /// <summary>Corner frogs a-west, a-east, b-west, b-east, then the middle crossing west, east, left, right.</summary>
    [Theory]
    [InlineData("straight", "B B A A - - A B")]
    [InlineData("a1-b2", "A B A B B A A B")]
    [InlineData("b1-a2", "B A B A A B A B")]
    public void Frogs_of_live_scissors_follow_what_is_set(string position, string frogs)
    {
        FedPiece scissors = Scissors(FrogKind.Live);
        string[] names = ["frog-a-west", "frog-a-east", "frog-b-west", "frog-b-east", "frog-west", "frog-east", "frog-left", "frog-right"];
        Assert.Equal(frogs, string.Join(' ', names.Select(frog => scissors.Carries(frog, position))));
    }

    [Theory]
    [InlineData("straight", "B B A A - -")]
    [InlineData("a1-b2", "A B A B B A")]
    [InlineData("b1-a2", "B A B A A B")]
    public void Isolated_frogs_of_scissors_follow_the_same_law(string position, string frogs)
    {
        FedPiece scissors = Scissors(FrogKind.Isolated);
        string[] names = ["frog-a-west", "frog-a-east", "frog-b-west", "frog-b-east", "frog-west", "frog-east"];
        Assert.Equal(frogs, string.Join(' ', names.Select(frog => scissors.Carries(frog, position))));
    }

    [Fact]
    public void Live_scissors_without_contacts_leave_the_vees_of_the_middle_dead()
    {
        FedPiece scissors = new(new Piece.Scissors(new("X"), FrogKind.Live), "a1 b1");
        Assert.Equal("BB", scissors.Carries("frog-a-west", "straight") + scissors.Carries("frog-b-east", "a1-b2"));
        Assert.Equal("--", scissors.Carries("frog-west", "a1-b2") + scissors.Carries("frog-east", "b1-a2"));
    }

    [Theory]
    [InlineData(FrogKind.Insulated)]
    [InlineData(FrogKind.Isolated)]
    public void Scissors_without_live_frogs_are_two_nets_and_need_no_gaps(FrogKind frog)
    {
        Assert.Equal("", Scissors(frog).ShortIn());
        Assert.All(new[] { "a1", "b1", "a2", "b2" }, end => Assert.Equal("AB", Scissors(frog, fedEnds: "b1").End(end, "straight")));
    }

    /// <summary>Four live turnouts and a live crossing; gaps in the ten places that are joints. The four others are cuts inside the crossing.</summary>
    [Fact]
    public void Scissors_of_four_turnouts_and_a_crossing_need_each_of_the_ten_cuts_that_lie_in_their_joints()
    {
        Assert.Empty(ShortPositions(-1));
        Assert.All(Enumerable.Range(0, 10), missing => Assert.NotEmpty(ShortPositions(missing)));
    }

    [Fact]
    public void Scissors_of_four_turnouts_and_a_crossing_without_one_of_their_cuts_are_reported_with_positions_that_short()
    {
        for (int missing = -1; missing < 10; missing++)
        {
            PolarityReport report = Polarity.Analyse(Parts(missing).Graph(), cancellationToken: TestContext.Current.CancellationToken);
            Assert.Empty(report.OddLoops);
            Assert.Empty(report.Exchanged);
            Assert.Equal(missing >= 0, report.ByPosition.Length + report.Standing.Length > 0);
        }
    }

    /// <summary>
    /// A turnout at each end of each track, points outward; the diverging legs meet the crossing, the through legs each other. What lies
    /// between a turnout and the crossing is fed, and so are the frogs left and right of the crossing.
    /// </summary>
    private static PlanBuilder Parts(int missing)
    {
        PlanBuilder plan = new PlanBuilder()
            .Turnouts("NW SE", TurnoutHand.Right, FrogKind.Live, FrogFeed.Contact).Turnouts("SW NE", TurnoutHand.Left, FrogKind.Live, FrogFeed.Contact)
            .Piece(new Piece.Crossing(new("X"), Angle.FromDegrees(20), FrogKind.Live) { Feed = FrogFeed.Contact })
            .Sections("west-n west-s east-n east-s mid-nw mid-sw mid-ne mid-se")
            .Chain("west-n > NW.points").Chain("west-s > SW.points").Chain("NE.points > east-n").Chain("SE.points > east-s")
            .Chain("NW.through > NE.through").Chain("SW.through > SE.through")
            .Chain("NW.diverging > mid-nw > X.a1").Chain("SW.diverging > mid-sw > X.b1")
            .Chain("X.a2 > mid-se > SE.diverging").Chain("X.b2 > mid-ne > NE.diverging")
            .Feed("d", "west-n@1", "west-s@1", "east-n@1", "east-s@1", "mid-nw@1", "mid-sw@1", "mid-ne@1", "mid-se@1");
        (string End, RailSet Rails)[] cuts =
        [
            ("NW.diverging", RailSet.Left), ("SW.diverging", RailSet.Right), ("SE.diverging", RailSet.Left), ("NE.diverging", RailSet.Right),
            ("X.a1", RailSet.Left), ("X.b1", RailSet.Right), ("X.a2", RailSet.Left), ("X.b2", RailSet.Right),
            ("NW.through", RailSet.Right), ("SW.through", RailSet.Left),
        ];
        foreach ((string end, RailSet rails) in cuts.Where((_, i) => i != missing))
        {
            plan.Gap(end, rails);
        }

        return plan;
    }

    private static List<string> ShortPositions(int missing)
    {
        RailGraph graph = Parts(missing).Graph();
        return
        [
            .. from route in new[] { "straight", "a1-b2", "b1-a2" }
               let positions = Standing(route)
               where Polarity.LegsIn(graph, positions).Any(legs => legs.Count > 1)
               select route,
        ];
    }

    private static Dictionary<PieceId, string> Standing(string route)
    {
        bool down = route == "a1-b2", up = route == "b1-a2";
        return new()
        {
            [new("NW")] = down ? "diverging" : "through",
            [new("SE")] = down ? "diverging" : "through",
            [new("SW")] = up ? "diverging" : "through",
            [new("NE")] = up ? "diverging" : "through",
            [new("X")] = up ? "b" : "a",
        };
    }
}
