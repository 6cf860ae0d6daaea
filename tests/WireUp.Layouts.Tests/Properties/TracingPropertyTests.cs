using System.Collections.Immutable;
using CsCheck;
using UnitsNet;
using WireUp.Layouts.Tests.Support;
using WireUp.Layouts.Tracing;
using WireUp.Layouts.Tracing.Svg;

namespace WireUp.Layouts.Tests.Properties;

/// <summary>Plans drawn as lines and traced back: what was joined is joined, and nothing else.</summary>
public sealed class TracingPropertyTests
{
    [Fact]
    public void A_random_plan_comes_back_from_its_drawing() => Gen.Int[0, 1_000_000].Sample(seed =>
    {
        RandomDrawing drawing = new(seed, 12);
        Assert.Equal(drawing.Shape, TracedShape.Of(Traced(drawing.Svg()).Layout, drawing.Points));
    }, iter: 60, threads: 1);

    [Fact]
    public void The_random_plans_are_not_trivial() => Assert.True(Enumerable.Range(0, 50).Sum(seed => new RandomDrawing(seed, 12).Nodes) > 50);

    [Fact]
    public void Tracing_twice_gives_the_same_bytes() => Gen.Int[0, 1_000_000].Sample(seed =>
    {
        string svg = new RandomDrawing(seed, 12).Svg();
        Assert.Equal(TracedText.Write(Traced(svg), "x"), TracedText.Write(Traced(svg), "x"));
    }, iter: 10, threads: 1);

    [Fact]
    public void What_is_traced_reads_back_as_it_was() => Gen.Int[0, 1_000_000].Sample(seed =>
    {
        Layout layout = Traced(new RandomDrawing(seed, 8).Svg()).Layout;
        LayoutReading back = LayoutFile.Read(LayoutFile.Write(layout), "x");
        Assert.Equal([], back.Problems);
        Assert.Equal(Dump.Of(layout.Track), Dump.Of(back.Layout!.Track));
    }, iter: 10, threads: 1);

    /// <summary>Line by line on the drawing board the same plan comes out, in whatever order the lines are drawn.</summary>
    [Fact]
    public void Lines_drawn_one_by_one_give_the_plan_that_tracing_gives() => Gen.Int[0, 1_000_000].Sample(seed =>
    {
        RandomDrawing drawing = new(seed, 6, hasCrossings: false);
        (SvgReading? reading, _) = SvgDrawing.Read(drawing.Svg(), Millimetres);
        LayoutDocument document = LayoutDocument.Open("wireup: 1\nname: x\nscale: HO\nlongest-train: 1 m\ntrack:\n", "x");
        foreach (ImmutableArray<PlanPoint> line in reading!.Lines.OrderBy(line => line[0].X))
        {
            document = LayoutDocument.Open(Assert.IsType<TrackOutcome.Done>(TrackEdits.AddLine(document, line, 0.01, ImmutableDictionary<string, string>.Empty)).Text, "x");
        }

        Assert.Equal(drawing.Shape, TracedShape.Of(document.Reading.Layout!, drawing.Points));
    }, iter: 20, threads: 1);

    private static SvgImport Millimetres => new() { Unit = Length.FromMillimeters(1) };

    private static TracedLayout Traced(string svg)
    {
        (SvgReading? reading, string? trouble) = SvgDrawing.Read(svg, Millimetres);
        Assert.Null(trouble);
        (TracedLayout? traced, trouble) = LineTracer.Trace(reading!.Lines, new() { Name = "x", LongestTrain = Length.FromMeters(1) });
        Assert.Null(trouble);
        return traced!;
    }
}
