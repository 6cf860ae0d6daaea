using System.Collections.Immutable;
using UnitsNet;
using WireUp.Layouts.Tracing;

namespace WireUp.Layouts.Tests.Exact.Tracing;

/// <summary>Lines and the pieces that come of them.</summary>
public sealed class LineTracerTests
{
    [Fact]
    public void Touching_ends_are_one_track_and_others_are_not()
    {
        Layout layout = Traced(Line((0, 0), (1, 0)), Line((2, 0.1), (1.004, 0.003)), Line((2.5, 0.1), (3, 0.1))).Layout;
        Assert.Equal(2, layout.Track.Length);
        Assert.Empty(layout.Joints);
        Assert.Equal(2.0, layout.Track.OfType<Piece.Section>().First().Length.Meters, 0.01);
    }

    [Fact]
    public void A_ring_is_one_section_joined_to_itself()
    {
        Layout layout = Traced(Line((0, 0), (1, 0), (1, 1), (0, 1), (0, 0))).Layout;
        Assert.Equal(4, Assert.IsType<Piece.Section>(Assert.Single(layout.Track)).Length.Meters, 1e-9);
        Assert.Equal(new Joint(new(new("track-1"), "b"), new(new("track-1"), "a")), Assert.Single(layout.Joints));
    }

    [Theory]
    [InlineData(0.1, "left", 10)]
    [InlineData(-0.1, "right", 10)]
    [InlineData(0.25, "left", 4)]
    public void A_line_that_leaves_another_is_a_turnout_to_its_side(double rise, string hand, double number)
    {
        Layout layout = Traced(Line((0, 0), (4, 0)), Line((2, 0), (4, 2 * rise))).Layout;
        Piece.Turnout turnout = Assert.Single(layout.Track.OfType<Piece.Turnout>());
        Assert.Equal((hand, number), (turnout.Hand.ToString().ToLowerInvariant(), turnout.Number));
        Assert.Equal(3, layout.Track.OfType<Piece.Section>().Count());
        // What the turnout takes of a leg is part of its own length, so that no rail is lost.
        Assert.Equal(4, layout.Track.OfType<Piece.Section>().Where(section => section.Path.All(point => point.Y == 0)).Sum(section => section.Length.Meters) + turnout.Length!.Value.Meters, 1e-4);
    }

    /// <summary>An arc of radius 1 m tangent to a straight is one gauge of 16.5 mm off after √(2 · 0.0165) rad = 0.1817 rad: a number 5.5, between 5 and 6.</summary>
    [Fact]
    public void A_curve_that_begins_along_the_main_line_has_the_number_of_its_frog()
    {
        ImmutableArray<PlanPoint> arc = [.. Enumerable.Range(0, 60).Select(i => new PlanPoint(1 + Math.Sin(i * 0.01), 1 - Math.Cos(i * 0.01)))];
        Piece.Turnout turnout = Assert.Single(Traced(Line((0, 0), (3, 0)), arc).Layout.Track.OfType<Piece.Turnout>());
        Assert.Equal(TurnoutHand.Left, turnout.Hand);
        Assert.InRange(turnout.Number!.Value, 5, 6);
    }

    [Fact]
    public void Legs_that_turn_alike_to_both_sides_are_a_wye_and_two_that_turn_to_one_a_curved_turnout()
    {
        Assert.Equal(TurnoutHand.Wye, Single(Line((0, 0), (1, 0)), Line((1, 0), (2, 0.1)), Line((1, 0), (2, -0.1))).Hand);
        Piece.Turnout curved = Single(Line((0, 0), (1, 0)), Line((1, 0), (2, 0.15)), Line((1, 0), (2, 0.35)));
        Assert.Equal((TurnoutHand.Left, true), (curved.Hand, curved.Curved));
    }

    [Fact]
    public void Three_legs_are_a_three_way_turnout_from_left_to_right()
    {
        Layout layout = Traced(Line((0, 0), (1, 0)), Line((1, 0), (2, 0.2)), Line((1, 0), (2, 0)), Line((1, 0), (2, -0.2))).Layout;
        Piece.MultiTurnout turnout = Assert.Single(layout.Track.OfType<Piece.MultiTurnout>());
        LayoutIndex index = new(layout);
        Assert.Equal(["track-1.b", "track-2.a", "track-3.a", "track-4.a"], turnout.Ends.Select(end => index.Opposite(end)!.Value.ToString()));
    }

    /// <summary>Counter-clockwise from an acute angle, as the format asks: a1, b1, a2, b2.</summary>
    [Theory]
    [InlineData(0)]
    [InlineData(50)]
    [InlineData(130)]
    [InlineData(275)]
    public void The_ends_of_a_crossing_go_round_counter_clockwise_from_an_acute_angle(double turned)
    {
        (double sin, double cos) = Math.SinCos(turned * Math.PI / 180);
        ImmutableArray<PlanPoint> Turned(params (double X, double Y)[] points) => [.. points.Select(point => new PlanPoint((cos * point.X) - (sin * point.Y), (sin * point.X) + (cos * point.Y)))];
        Layout layout = Traced(Turned((-1, 0), (1, 0)), Turned((-1, -0.5), (1, 0.5))).Layout;
        Piece.Crossing crossing = Assert.Single(layout.Track.OfType<Piece.Crossing>());
        Assert.Equal(26.6, crossing.Angle.Degrees, 1e-9);
        LayoutIndex index = new(layout);
        double[] bearings = [.. new[] { "a1", "b1", "a2", "b2" }.Select(end => Bearing(layout, index.Opposite(crossing.End(end))!.Value))];
        Assert.Equal(26.565, Step(bearings[0], bearings[1]), 0.05);
        Assert.Equal(180 - 26.565, Step(bearings[1], bearings[2]), 0.05);
        Assert.Equal(26.565, Step(bearings[2], bearings[3]), 0.05);
    }

    [Fact]
    public void An_answer_makes_a_bridge_or_a_slip_of_a_crossing_and_leaves_the_others_alone()
    {
        ImmutableArray<PlanPoint>[] lines = [Line((0, 0), (6, 0)), Line((0, -1), (2, 1)), Line((3, -0.4), (5, 0.4))];
        Assert.Equal(["crossing-1", "crossing-2"], Traced(lines).Questions.Select(question => question.Question.Id));
        TracedLayout bridged = TracedWith(new() { ["crossing-1"] = "bridge", ["crossing-2"] = "slip" }, lines);
        Assert.Equal(["bridge", "slip"], bridged.Questions.Select(question => question.Taken.Word));
        Assert.All(bridged.Questions, question => Assert.True(question.WasGiven));
        Assert.Empty(bridged.Layout.Track.OfType<Piece.Crossing>());
        Assert.Single(bridged.Layout.Track.OfType<Piece.Slip>());
        Assert.Equal(5, bridged.Layout.Track.OfType<Piece.Section>().Count());
        Assert.Contains("no question", Assert.Single(TracedWith(new() { ["crossing-9"] = "bridge" }, lines).Notes), StringComparison.Ordinal);
    }

    [Fact]
    public void Tracks_that_meet_at_right_angles_are_asked_about()
    {
        TakenAnswer question = Assert.Single(Traced(Line((0, 0), (2, 0)), Line((1, 0), (1, 1))).Questions);
        Assert.Equal("points-1", question.Question.Id);
        Assert.Equal(["apart", "left", "right", "up"], question.Question.Answers.Select(answer => answer.Word).Order(StringComparer.Ordinal));
        TracedLayout said = TracedWith(new() { ["points-1"] = "right" }, Line((0, 0), (2, 0)), Line((1, 0), (1, 1)));
        LayoutIndex index = new(said.Layout);
        TrackEnd stem = index.Opposite(new(new("T1"), "points"))!.Value;
        Assert.Equal(2, TracedPoint(said.Layout, stem.Piece, "b").X + TracedPoint(said.Layout, stem.Piece, "a").X - 1, 1e-9);
    }

    [Fact]
    public void More_tracks_than_a_piece_joins_are_asked_about_and_the_straightest_goes_on()
    {
        TracedLayout traced = Traced(Line((-1, 0), (1, 0)), Line((0, -1), (0, 1)), Line((0, 0), (1, 1)));
        Assert.Equal("meeting-1", Assert.Single(traced.Questions).Question.Id);
        Assert.Equal(4, traced.Layout.Track.Length);
        Assert.Empty(traced.Layout.Joints);
    }

    [Fact]
    public void A_line_that_overshoots_the_one_it_ends_on_still_ends_on_it()
    {
        Layout layout = Traced(Line((0, 0), (3, 0)), Line((3, 0.3), (1, -0.004))).Layout;
        Assert.Single(layout.Track.OfType<Piece.Turnout>());
        Assert.Empty(layout.Track.OfType<Piece.Crossing>());
        Assert.Equal(3, layout.Track.OfType<Piece.Section>().Count());
    }

    [Fact]
    public void Lines_drawn_twice_or_hardly_at_all_are_left_out_and_said()
    {
        TracedLayout traced = Traced(Line((0, 0), (1, 0)), Line((1, 0), (0, 0)), Line((5, 5), (5.001, 5)));
        Assert.Single(traced.Layout.Track);
        Assert.Equal(2, traced.Notes.Length);
    }

    [Fact]
    public void Lines_that_meet_everywhere_are_refused()
    {
        ImmutableArray<ImmutableArray<PlanPoint>> grid = [.. Enumerable.Range(0, 300).SelectMany(i => new[] { Line((i, -1), (i, 301)), Line((-1, i), (301, i)) })];
        Assert.Contains("places", LineTracer.Trace(grid, new() { Name = "x", LongestTrain = Length.FromMeters(1) }).Trouble!, StringComparison.Ordinal);
    }

    [Fact]
    public void What_cannot_be_traced_is_said()
    {
        LineTracing tracing = new() { Name = "x", LongestTrain = Length.FromMeters(1) };
        Assert.NotNull(LineTracer.Trace([], tracing).Trouble);
        Assert.NotNull(LineTracer.Trace([Line((0, 0), (0, 0))], tracing).Trouble);
        Assert.NotNull(LineTracer.Trace([Line((0, 0), (1e6, 0))], tracing).Trouble);
        Assert.NotNull(LineTracer.Trace([Line((0, 0), (1, 0))], tracing with { SnapMetres = 0 }).Trouble);
        Assert.NotNull(LineTracer.Trace([.. Enumerable.Repeat(Line((0, 0), (1, 0)), LineTracing.MostLines + 1)], tracing).Trouble);
    }

    [Fact]
    public void The_text_says_where_it_comes_from_and_what_is_open()
    {
        string text = TracedText.Write(Traced(Line((0, 0), (2, 0)), Line((0.5, -1), (1.5, 1))), "a\nb.svg");
        Assert.StartsWith("# Traced from a b.svg.", text, StringComparison.Ordinal);
        Assert.Contains("#   crossing-1=crossing at 1 m, 0 m (or bridge)\n", text, StringComparison.Ordinal);
        Assert.Equal([], LayoutFile.Read(text, "x").Problems);
    }

    private static ImmutableArray<PlanPoint> Line(params (double X, double Y)[] points) => [.. points.Select(point => new PlanPoint(point.X, point.Y))];

    private static Piece.Turnout Single(params ImmutableArray<PlanPoint>[] lines) => Assert.Single(Traced(lines).Layout.Track.OfType<Piece.Turnout>());

    private static TracedLayout Traced(params ImmutableArray<PlanPoint>[] lines) => TracedWith([], lines);

    private static TracedLayout TracedWith(Dictionary<string, string> answers, params ImmutableArray<PlanPoint>[] lines)
    {
        (TracedLayout? traced, string? trouble) = LineTracer.Trace([.. lines], new() { Name = "x", LongestTrain = Length.FromMeters(1), Answers = answers.ToImmutableDictionary() });
        Assert.Null(trouble);
        Assert.Equal([], LayoutFile.Read(LayoutFile.Write(traced!.Layout), "x").Problems);
        return traced;
    }

    private static PlanPoint TracedPoint(Layout layout, PieceId section, string end) => Support.TracedShape.Point((Piece.Section)new LayoutIndex(layout).Piece(section), end);

    private static double Bearing(Layout layout, TrackEnd end)
    {
        PlanPoint near = TracedPoint(layout, end.Piece, end.Name), far = TracedPoint(layout, end.Piece, end.Name == "a" ? "b" : "a");
        return Math.Atan2(far.Y - near.Y, far.X - near.X) * 180 / Math.PI;
    }

    /// <summary>Counter-clockwise from one bearing to another, from 0 to 360.</summary>
    private static double Step(double from, double to) => ((to - from) % 360 + 360) % 360;
}
