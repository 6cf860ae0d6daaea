using System.Collections.Immutable;
using System.Globalization;
using WireUp.Documents.Phases;
using WireUp.Layouts;
using WireUp.Rails;

namespace WireUp.Documents.Drawings;

/// <summary>Explains the signs of a drawing in a strip under it: only those that occur.</summary>
internal sealed class LegendPainter(PlanFacts facts, DrawingOptions options)
{
    private const string Layer = "legend";
    private const double Size = 2.1;
    private const double RowHeight = 5;
    private const double SymbolWidth = 11;
    private const double SmallWidth = 3;

    /// <summary>Height that the legend needs at a width, in millimetres.</summary>
    public double Height(double width) => Lay(width).Rows * RowHeight;

    /// <summary>Draws the legend.</summary>
    public void Paint(SheetBuilder canvas, SceneBox box)
    {
        foreach ((Entry entry, double x, int row) in Lay(box.Width).Entries)
        {
            ScenePoint middle = new(box.Left + x + (entry.SignWidth / 2), box.Top + (row * RowHeight) + (RowHeight / 2));
            foreach (Shape shape in entry.Sign(middle)) canvas.Add(shape);
            ScenePoint at = new(box.Left + x + entry.SignWidth + 1.5, middle.Y + (0.36 * Size));
            canvas.Add(new Shape.Text(Layer, at, entry.Words, new(Size, SceneColours.Ink)));
        }
    }

    /// <summary>What a scale bar says, or that there is none.</summary>
    public void PaintScale(SheetBuilder canvas, PlanSheet sheet, ScenePoint rightEnd)
    {
        if (facts.Geometry.Automatic)
        {
            string words = "drawn automatically: what joins what is true, lengths are rough";
            canvas.Add(new Shape.Text(Layer, rightEnd, words, new(Size, SceneColours.Quiet) { Align = TextAlign.Right }));
            return;
        }

        LengthStyle lengths = facts.Layout.Lengths;
        double metres = RoundLength(40 / sheet.MillimetresPerMetre, lengths);
        double length = metres * sheet.MillimetresPerMetre;
        ScenePoint left = new(rightEnd.X - length, rightEnd.Y);
        canvas.Add(new Shape.Line(Layer, [new(left.X, left.Y - 1), left, rightEnd, new(rightEnd.X, left.Y - 1)], false, ShapeStyle.Outline(SceneColours.Ink, 0.3)));
        string text = string.Create(CultureInfo.InvariantCulture, $"{lengths.Measure(metres)} on the railway, 1 : {1000 / sheet.MillimetresPerMetre:0}");
        canvas.Add(new Shape.Text(Layer, new(left.X - 1.5, left.Y), text, new(Size, SceneColours.Ink) { Align = TextAlign.Right }));
    }

    /// <summary>The next shorter length of 1, 2 or 5 times a power of ten metres; of feet likewise, below one foot 6, 3 or 1 inches.</summary>
    private static double RoundLength(double metres, LengthStyle lengths)
    {
        const double Foot = 0.3048;
        if (lengths == LengthStyle.Feet) return metres >= Foot ? Foot * RoundLength(metres / Foot, LengthStyle.Metric) : Foot * (metres >= Foot / 2 ? 6 : metres >= Foot / 4 ? 3 : 1) / 12;
        double power = Math.Pow(10, Math.Floor(Math.Log10(metres)));
        return power * (metres / power >= 5 ? 5 : metres / power >= 2 ? 2 : 1);
    }

    private (ImmutableArray<(Entry Entry, double X, int Row)> Entries, int Rows) Lay(double width)
    {
        ImmutableArray<(Entry, double, int)>.Builder laid = ImmutableArray.CreateBuilder<(Entry, double, int)>();
        (double x, int row) = (0, 0);
        foreach (Entry entry in Entries())
        {
            double needed = entry.SignWidth + 1.5 + SceneText.Width(entry.Words, Size);
            if (x > 0 && x + needed > width) (x, row) = (0, row + 1);
            laid.Add((entry, x, row));
            x += needed + 5;
        }

        return (laid.ToImmutable(), laid.Count == 0 ? 0 : row + 1);
    }

    private IEnumerable<Entry> Entries() =>
        [.. RailEntries(), .. SignEntries(), .. facts.Figure is null ? DistrictEntries() : FigureEntries()];

    private IEnumerable<Entry> FigureEntries() => facts.Figure!.Value.Scale.Steps.Select(step => new Entry(step.Words, middle => StepSign(middle, step)));

    private static IEnumerable<Shape> StepSign(ScenePoint middle, FigureStep step)
    {
        ImmutableArray<ScenePoint> line = [new(middle.X - (SymbolWidth / 2), middle.Y), new(middle.X + (SymbolWidth / 2), middle.Y)];
        yield return new Shape.Line(Layer, line, false, ShapeStyle.Outline(step.Tint, 2 * step.Width));
        if (step.Hatch is { } hatch) yield return new Shape.Strokes(Layer, [.. Hatch.Strokes(line, step.Width, hatch)], ShapeStyle.Outline(SceneColours.Ink, 0.12));
    }

    private IEnumerable<Entry> RailEntries()
    {
        HashSet<RailPhase> seen = [.. Enumerable.Range(0, facts.Phases.Graph.Nodes.Length).Where(IsDrawn).Select(node => facts.Phases[node])];
        foreach (RailPhase phase in new[] { RailPhase.A, RailPhase.B, RailPhase.Switched, RailPhase.Unfed, RailPhase.Both })
        {
            if (!seen.Contains(phase)) continue;
            string words = phase == RailPhase.A && !facts.Phases.FromFeeders
                ? "rail A, counted from the first section: nothing is wired"
                : RailLook.Words(phase);
            yield return new(words, middle => [Line(middle, RailLook.Of(phase))]);
        }

        if (facts.Phases.LettersClash) yield return new("letters that clash: A comes round to B", ClashSign);
    }

    // A bridge may have a hundred roads and use three.
    private bool IsDrawn(int node) => facts.Phases.Graph.Nodes[node] is not RailPoint.AtEnd { Rail.End: var end }
        || facts.Index.JointAt(end) is not null || facts.Index.Piece(end.Piece) is not (Piece.Turntable or Piece.TransferTable);

    private static IEnumerable<Shape> ClashSign(ScenePoint middle) =>
    [
        Line(middle with { Y = middle.Y - 0.7 }, RailLook.Of(RailPhase.A)), Line(middle with { Y = middle.Y + 0.7 }, RailLook.Of(RailPhase.A)),
    ];

    private IEnumerable<Entry> SignEntries()
    {
        Wiring wiring = facts.Layout.Wiring;
        if (Shows(DrawingLayers.Gaps) && !wiring.Gaps.IsEmpty) yield return new("gap", GapSign);
        if (Shows(DrawingLayers.Feeders) && !wiring.Feeders.IsEmpty) yield return new("feeder and its tap", FeederSign) { SignWidth = SmallWidth };
        if (Shows(DrawingLayers.Bus) && !wiring.Buses.IsEmpty)
        {
            yield return new("bus, two wires", middle => [Line(middle, ShapeStyle.Outline(SceneColours.Ink, 0.34, DashKind.Dotted))]);
            if (!facts.Strips.IsEmpty) yield return new("terminal strip", middle => StripPainter.Sign(Layer, middle)) { SignWidth = SmallWidth };
        }

        foreach ((FrogLook.Feeding feeding, string words) in new[]
        {
            (FrogLook.Feeding.Live, "live frog"), (FrogLook.Feeding.Switched, "frog on a contact"), (FrogLook.Feeding.None, "frog without current"),
        })
        {
            if (facts.Layout.Track.Any(piece => FrogLook.FeedingOf(piece) == feeding))
            {
                yield return new(words, middle => [Dot(middle, FrogLook.ShapeStyleOf(feeding))]) { SignWidth = SmallWidth };
            }
        }

        if (facts.Layout.Track.OfType<Piece.Section>().Any(section => section.LiftOut)) yield return new("can be lifted out", LiftOutSign);
        foreach (Entry entry in BenchworkEntries()) yield return entry;
        if (Shows(DrawingLayers.Findings) && !options.Findings.IsEmpty) yield return new("number of a finding", NumberSign) { SignWidth = SmallWidth };
    }

    private IEnumerable<Entry> BenchworkEntries()
    {
        Benchwork benchwork = facts.Layout.Benchwork;
        if (!Shows(DrawingLayers.Benchwork) || facts.Geometry.Automatic) yield break;
        if (!benchwork.Boards.IsEmpty) yield return new("edge of a board", middle => [Line(middle, BenchworkPainter.Board)]);
        if (!benchwork.Corridors.IsEmpty) yield return new("corridor for the bus", middle => [Line(middle, BenchworkPainter.Corridor)]);
        if (!benchwork.OutOfReach.IsEmpty) yield return new("out of reach from below", OutOfReachSign);
    }

    private static IEnumerable<Shape> OutOfReachSign(ScenePoint middle)
    {
        (double left, double right, double top, double bottom) = (middle.X - (SymbolWidth / 2), middle.X + (SymbolWidth / 2), middle.Y - 1.5, middle.Y + 1.5);
        IEnumerable<ScenePoint> strokes = Enumerable.Range(0, 4).SelectMany(i => new ScenePoint[] { new(left + (i * 2.6), bottom), new(left + (i * 2.6) + 3, top) });
        yield return new Shape.Strokes(Layer, [.. strokes], BenchworkPainter.HatchStroke);
        yield return new Shape.Line(Layer, [new(left, top), new(right, top), new(right, bottom), new(left, bottom)], true, BenchworkPainter.Border);
    }

    private IEnumerable<Entry> DistrictEntries()
    {
        if (!Shows(DrawingLayers.Districts)) yield break;
        foreach (District district in facts.Layout.Wiring.Districts)
        {
            string kind = district.Reversing ? ", reversing" : string.Empty;
            string words = string.Create(
                CultureInfo.InvariantCulture,
                $"{facts.Letters.Of(district.Name)}  {district.Name}{kind}, trips at {district.Trip.Amperes:0.##} A");
            DistrictLook look = DistrictLook.Of(facts.Letters.IndexOf(district.Name));
            yield return new(words, middle => BandSign(middle, look));
        }
    }

    private static IEnumerable<Shape> BandSign(ScenePoint middle, DistrictLook look)
    {
        ImmutableArray<ScenePoint> line = [new(middle.X - (SymbolWidth / 2), middle.Y), new(middle.X + (SymbolWidth / 2), middle.Y)];
        yield return new Shape.Line(Layer, line, false, ShapeStyle.Outline(look.Tint, 3));
        yield return new Shape.Strokes(Layer, [.. Hatch.Strokes(line, 1.5, look.Hatch)], ShapeStyle.Outline(look.Dark, 0.14));
    }

    private static IEnumerable<Shape> GapSign(ScenePoint middle)
    {
        foreach (double side in new[] { -1, 1 })
        {
            ImmutableArray<ScenePoint> half = [new(middle.X + (side * 0.4), middle.Y), new(middle.X + (side * SymbolWidth / 2), middle.Y)];
            yield return new Shape.Line(Layer, half, false, RailLook.Of(RailPhase.A));
        }

        ImmutableArray<ScenePoint> strokes =
            [new(middle.X - 0.3, middle.Y - 1), new(middle.X - 0.3, middle.Y + 1), new(middle.X + 0.3, middle.Y - 1), new(middle.X + 0.3, middle.Y + 1)];
        yield return new Shape.Strokes(Layer, strokes, ShapeStyle.Outline(SceneColours.Ink, 0.28));
    }

    private static IEnumerable<Shape> FeederSign(ScenePoint middle)
    {
        ScenePoint top = new(middle.X, middle.Y - 1.6), end = new(middle.X, middle.Y + 1.5);
        yield return new Shape.Line(Layer, [top, end], false, ShapeStyle.Outline(SceneColours.Ink, 0.22));
        yield return new Shape.Circle(Layer, top, 0.34, ShapeStyle.Area(SceneColours.Ink));
        yield return new Shape.Circle(Layer, new(middle.X, middle.Y - 0.2), 0.34, ShapeStyle.Area(SceneColours.Ink));
        yield return new Shape.Circle(Layer, end, 0.42, new() { Fill = SceneColours.Paper, Stroke = SceneColours.Ink, WidthMillimetres = 0.2 });
    }

    private static IEnumerable<Shape> NumberSign(ScenePoint middle)
    {
        ImmutableArray<ScenePoint> box =
            [new(middle.X - 1.3, middle.Y - 1.3), new(middle.X + 1.3, middle.Y - 1.3), new(middle.X + 1.3, middle.Y + 1.3), new(middle.X - 1.3, middle.Y + 1.3)];
        yield return new Shape.Line(Layer, box, true, ShapeStyle.Area(SceneColours.Ink));
        TextStyle style = new(2.1, SceneColours.Paper) { Bold = true, Align = TextAlign.Middle };
        yield return new Shape.Text(Layer, new(middle.X, middle.Y + 0.75), "1", style);
    }

    private static IEnumerable<Shape> LiftOutSign(ScenePoint middle)
    {
        foreach (int side in new[] { 1, -1 })
        {
            double half = SymbolWidth / 2, y = middle.Y + (side * 0.8), outer = middle.Y + (side * 1.5);
            yield return new Shape.Line(
                Layer,
                [new(middle.X - half, outer), new(middle.X - half + 0.7, y), new(middle.X + half - 0.7, y), new(middle.X + half, outer)],
                false,
                ShapeStyle.Outline(SceneColours.Ink, 0.35));
        }
    }

    private static Shape.Circle Dot(ScenePoint middle, ShapeStyle style) => new(Layer, middle, 0.6, style);

    private static Shape.Line Line(ScenePoint middle, ShapeStyle style) =>
        new(Layer, [new(middle.X - (SymbolWidth / 2), middle.Y), new(middle.X + (SymbolWidth / 2), middle.Y)], false, style);

    private bool Shows(DrawingLayers layer) => options.Layers.HasFlag(layer);

    private sealed record Entry(string Words, Func<ScenePoint, IEnumerable<Shape>> Sign)
    {
        public double SignWidth { get; init; } = SymbolWidth;
    }
}
