using System.Collections.Immutable;
using WireUp.Layouts.Tracing;

namespace WireUp.Layouts.Tests.Exact.Tracing;

/// <summary>Lines added to a drawing, shown whole: the file before, and the file after.</summary>
public sealed class AddLineTests
{
    private const double Snap = 0.02;

    private const string Straight = """
        # my railway
        wireup: 1
        name: Test
        scale: HO
        longest-train: 1 m
        track:
          # the main line
          main: { path: [[0, 0], [3000, 0]], x-laid: 1987 }   # of old rail
        spots:
          no-gap: [main]
        wiring:
          boosters: { cab: { amps: 5 A, beside: main@-1 m } }
          districts: { all: { booster: cab, trip: 3 A } }
          feeders:
            f1: { at: main@500, bus: cab, district: all, wire: 20 AWG, length: 200 }    # by the door
            f2: { at: main@2.5 m, bus: cab, district: all, wire: 20 AWG, length: 200 }
          gaps:
            - { at: main@1500, rails: left }
            - { at: main@2 m, rails: right }

        """;

    [Fact]
    public void A_line_by_itself_is_a_section() =>
        Assert.Equal(
            """
            wireup: 1
            name: New
            longest-train: 1 m
            track:
              track-1: { path: [[0, 0], [1000, 0], [1500, 250.5]] }

            """,
            Added("wireup: 1\nname: New\nlongest-train: 1 m\ntrack:\n", [], (0, 0), (1, 0), (1.5, 0.2505)));

    /// <summary>Legs that part by one in six are 1.5 gauges of 16.5 mm apart after 24.75 mm / (2 sin(½ arctan(1/6))) = 150.04 mm.</summary>
    [Fact]
    public void A_line_into_a_section_divides_it_with_a_turnout_and_everything_follows() =>
        Assert.Equal(
            """
            # my railway
            wireup: 1
            name: Test
            scale: HO
            longest-train: 1 m
            track:
              # the main line
              main: { path: [[0, 0], [1500, 0]], x-laid: 1987 }   # of old rail
              track-1: { path: [[1647.99, 24.67], [2250, 125]] }
              T1: { turnout: left, number: 6, length: 150.04 }
              main-2: { path: [[1650.04, 0], [3000, 0]] }

            joined:
              - main > T1.points
              - T1.through > main-2
              - T1.diverging > track-1
            spots:
              no-gap: [main, main-2]
            wiring:
              boosters: { cab: { amps: 5 A, beside: main-2@-1 m } }
              districts: { all: { booster: cab, trip: 3 A } }
              feeders:
                f1: { at: main@500, bus: cab, district: all, wire: 20 AWG, length: 200 }    # by the door
                f2: { at: main-2@849.96 mm, bus: cab, district: all, wire: 20 AWG, length: 200 }
              gaps:
                - { at: main.b, rails: left }
                - { at: main-2@349.96 mm, rails: right }

            """,
            Added(Straight, [], (1.5, 0.01), (2.25, 0.125)));

    [Fact]
    public void An_end_near_an_open_end_is_joined_to_it()
    {
        string after = Added(Straight, [], (3.01, 0.01), (4, 0));
        Assert.Contains("  track-1: { path: [[3000, 0], [4000, 0]] }\n\njoined:\n  - main > track-1\n", after, StringComparison.Ordinal);
    }

    [Fact]
    public void A_ring_is_joined_to_itself() =>
        Assert.Contains("joined:\n  - track-1 > track-1\n", Added("wireup: 1\nname: New\nlongest-train: 1 m\ntrack:\n", [], (0, 0), (1, 0), (1, 1), (0, 1), (0.01, 0)), StringComparison.Ordinal);

    [Fact]
    public void A_balloon_loop_is_one_line_that_comes_back_to_itself()
    {
        string after = Added("wireup: 1\nname: New\nlongest-train: 1 m\ntrack:\n", [],
            (0, 0), (1, 0), (1.3, 0.05), (1.6, 0.3), (1.9, 0), (1.6, -0.3), (1.3, -0.05), (1.005, 0.003));
        Layout layout = LayoutFile.Read(after, "test").Layout!;
        Piece.Turnout turnout = Assert.Single(layout.Track.OfType<Piece.Turnout>());
        Assert.Equal(TurnoutHand.Wye, turnout.Hand);
        LayoutIndex index = new(layout);
        TrackEnd left = index.Opposite(turnout.End("left"))!.Value, right = index.Opposite(turnout.End("right"))!.Value;
        Assert.Equal(left.Piece, right.Piece);
        Assert.Equal("b", index.Opposite(turnout.End("points"))!.Value.Name);
    }

    [Fact]
    public void Where_lines_cross_somebody_says_whether_they_meet()
    {
        (double, double)[] across = [(1, -0.5), (2, 0.5)];
        TrackOutcome.Asks asks = Assert.IsType<TrackOutcome.Asks>(Add(Straight, [], across));
        Assert.Equal(("crossing-1", "crossing", "bridge"), (asks.Question.Id, asks.Question.Answers[0].Word, asks.Question.Answers[^1].Word));
        Assert.Equal(new PlanPoint(1.5, 0), asks.Question.At);

        Layout crossed = LayoutFile.Read(Added(Straight, new() { ["crossing-1"] = "crossing" }, across), "test").Layout!;
        Piece.Crossing crossing = Assert.Single(crossed.Track.OfType<Piece.Crossing>());
        Assert.Equal(45, crossing.Angle.Degrees, 1e-9);
        Assert.Equal(4, crossed.Joints.Length);

        Layout bridged = LayoutFile.Read(Added(Straight, new() { ["crossing-1"] = "bridge" }, across), "test").Layout!;
        Assert.Equal(2, bridged.Track.Length);
        Assert.Empty(bridged.Joints);
    }

    [Fact]
    public void A_track_that_leaves_at_a_right_angle_makes_the_program_ask_for_the_points()
    {
        TrackOutcome.Asks asks = Assert.IsType<TrackOutcome.Asks>(Add(Straight, [], (1.5, 0), (1.5, 1)));
        Assert.Equal(["main.a", "main.b", "track-1.b"], asks.Question.Answers.Select(answer => answer.Word).Order(StringComparer.Ordinal));
        Layout layout = LayoutFile.Read(Added(Straight, new() { [asks.Question.Id] = "main.b" }, (1.5, 0), (1.5, 1)), "test").Layout!;
        Assert.Equal(new TrackEnd(new("main-2"), "a"), new LayoutIndex(layout).Opposite(new(new("T1"), "points")));
    }

    [Fact]
    public void A_line_of_one_point_and_one_beyond_the_plan_are_refused()
    {
        Assert.IsType<TrackOutcome.Refused>(Add(Straight, [], (1, 1), (1, 1)));
        Assert.IsType<TrackOutcome.Refused>(Add(Straight, [], (1, 1), (1e9, 1)));
        Assert.IsType<TrackOutcome.Refused>(Add(Straight, [], (1, 1), (double.NaN, 1)));
        Assert.IsType<TrackOutcome.Refused>(Add("wireup: 1\nname: [\n", [], (0, 0), (1, 0)));
    }

    private static TrackOutcome Add(string text, Dictionary<string, string> answers, params (double X, double Y)[] points) =>
        TrackEdits.AddLine(LayoutDocument.Open(text, "test"), [.. points.Select(point => new PlanPoint(point.X, point.Y))], Snap, answers.ToImmutableDictionary());

    private static string Added(string text, Dictionary<string, string> answers, params (double X, double Y)[] points) =>
        Add(text, answers, points) switch
        {
            TrackOutcome.Done done => done.Text,
            TrackOutcome.Refused refused => refused.Reason,
            TrackOutcome.Asks asks => asks.Question.Text,
            _ => "",
        };
}
