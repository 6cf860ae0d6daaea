using System.Collections.Immutable;
using WireUp.Checking;
using WireUp.Layouts;
using WireUp.Planning;

namespace WireUp.Documents.Tests.Drawings.Exact;

public sealed class LayoutDrawingTests
{
    [Fact]
    public void A_gap_is_two_strokes_across_each_of_its_rails()
    {
        Scene scene = TestDrawing.Draw(TestLayouts.Balloon, new());
        Assert.Equal([4, 4], Strokes("G1")); // both rails: two pairs of strokes of two points each
        Assert.Equal([4, 4], Strokes("G2"));

        IEnumerable<int> Strokes(string id) =>
            scene.Shapes.OfType<Shape.Strokes>().Where(strokes => strokes.Id == id).Select(strokes => strokes.Points.Length);
    }

    [Fact]
    public void A_gap_of_one_rail_lies_on_that_rail()
    {
        Layout layout = TestLayouts.Balloon with
        {
            Wiring = TestLayouts.Balloon.Wiring with { Gaps = [new(new GapPlace.InSection(new(new("spur"), 0.4)), RailSet.Left)] },
        };

        Scene scene = TestDrawing.Draw(layout, new());

        Shape.Strokes gap = scene.Shapes.OfType<Shape.Strokes>().Single(strokes => strokes.Layer == "gaps");
        double y = gap.Points.Average(point => point.Y);
        Shape.Line left = scene.Shapes.OfType<Shape.Line>().First(line => line.Id == "spur/left");
        Assert.Equal(left.Points[0].Y, y, 1e-6);
    }

    [Fact]
    public void Gaps_have_the_names_of_the_proposals_that_ask_for_them_while_all_are_short()
    {
        Proposal first = new("gap-7", ProposalKind.Gap, "T1.diverging", "reason", "rule", 2);
        Proposal second = new("gap-3", ProposalKind.Gap, "loop@4.05 m/both", "reason", "rule", 2);

        Assert.Equal(["gap-7", "gap-3"], Labels([second, first]));
        Assert.Equal(["G1", "G2"], Labels([first])); // nobody proposed the other gap
        Assert.Equal(["G1", "G2"], Labels([first, second with { Id = "turn-1-gap-3" }]));

        static IEnumerable<string> Labels(ImmutableArray<Proposal> proposals) =>
            GapNames.Of(TestLayouts.Balloon, proposals).Select(gap => gap.Label);
    }

    [Fact]
    public void Everything_that_has_a_name_is_named()
    {
        IEnumerable<string> words = TestDrawing.Draw(TestLayouts.Balloon, new()).Texts.Select(text => text.Content);
        Assert.Superset(
            new HashSet<string> { "spur", "loop", "T1", "f1", "f2", "f3", "main", "C", "D", "east:1 · 2.5 mm²", "turn:1 · 1.5 mm²" },
            new HashSet<string>(words));
    }

    [Theory]
    [InlineData(DrawingLayers.None, "rails")]
    [InlineData(DrawingLayers.Gaps, "gaps rails")]
    [InlineData(DrawingLayers.Feeders | DrawingLayers.Names, "feeders names rails")]
    [InlineData(DrawingLayers.Districts | DrawingLayers.Bus, "bus districts rails")]
    public void Layers_can_be_left_out(DrawingLayers layers, string expected)
    {
        Scene scene = TestDrawing.Draw(TestLayouts.Balloon, new() { Layers = layers });
        Assert.Equal(expected, string.Join(' ', scene.Shapes.Select(shape => shape.Layer).Distinct().Order(StringComparer.Ordinal)));
    }

    [Theory]
    [InlineData("T1.diverging/left")]
    [InlineData("loop@2.1 m")]
    [InlineData("f2")]
    [InlineData("T1")]
    public void A_finding_is_numbered_at_its_place(string place)
    {
        Finding finding = new("WU3001", Severity.Error, "problem", "remedy") { Places = [place] };
        Scene scene = TestDrawing.Draw(TestLayouts.Balloon, new() { Findings = [finding] });
        Assert.Single(scene.Texts, text => text is { Layer: "findings", Content: "1" });
    }

    [Fact]
    public void Marks_of_one_place_stand_together_and_one_without_a_place_nowhere()
    {
        Scene scene = TestDrawing.Draw(TestLayouts.Balloon, new() { Marks = [new("A", "T1.diverging"), new("B", "spur@0.4 m"), new("C", "T1.diverging"), new("D", "nowhere")] });
        Assert.Equal(["A C", "B"], scene.Texts.Where(text => text.Layer == "marks").Select(text => text.Content));
    }

    [Fact]
    public void A_finding_without_a_place_on_the_plan_is_not_drawn_anywhere()
    {
        Finding finding = new("WU4001", Severity.Error, "problem", "remedy") { Places = ["nowhere@x m", "a.b.c/left"] };
        Scene scene = TestDrawing.Draw(TestLayouts.Balloon, new() { Findings = [finding] });
        Assert.DoesNotContain(scene.Texts, text => text.Layer == "findings");
    }

    [Fact]
    public void The_legend_tells_of_a_clash_only_where_carried_on_letters_clash()
    {
        const string Words = "letters that clash: A comes round to B";
        Layout unwired = TestLayouts.Balloon with { Wiring = Wiring.None };
        Assert.Contains(TestDrawing.Draw(unwired).Texts, text => text.Content == Words);
        Assert.DoesNotContain(TestDrawing.Draw(TestLayouts.Balloon).Texts, text => text.Content == Words);
        Assert.DoesNotContain(TestDrawing.Draw(TestLayouts.Crossover).Texts, text => text.Content == Words);
    }

    [Fact]
    public void A_stopped_drawing_stops()
    {
        using CancellationTokenSource source = new();
        source.Cancel();
        Assert.ThrowsAny<OperationCanceledException>(() => LayoutDrawing.Draw(TestLayouts.Balloon, new(), source.Token));
    }

    [Fact]
    public void Three_rail_track_has_its_centre_conductor_between_two_running_rails()
    {
        Layout layout = TestLayouts.Read("""
            wireup: 1
            name: Stud Hill
            scale: HO
            control: three-rail
            longest-train: 1 m
            shortest-pickup: 60
            track:
              main: { length: 900, path: [[0, 0], [900, 0]] }
            joined: []
            """);

        Scene scene = TestDrawing.Draw(layout, new());

        double centre = Heights("main/centre").Single();
        Assert.Equal([centre - 1, centre + 1], Heights("main/running").Order().Select(y => centre + Math.Sign(y - centre)));

        IEnumerable<double> Heights(string id) => scene.Shapes.OfType<Shape.Line>().Where(line => line.Id == id).Select(line => line.Points[0].Y);
    }

    [Fact]
    public void A_district_of_a_bridge_alone_has_its_letter()
    {
        Scene scene = TestDrawing.Draw(TestLayouts.Sample("trackwork/turntable-wires"), new());
        Assert.Equal(["C", "D"], scene.Texts.Where(text => text.Layer == "districts").Select(text => text.Content).Distinct().Order(StringComparer.Ordinal));
    }
}
