using System.Collections.Immutable;
using WireUp.Documents.Book;
using WireUp.Layouts;
using WireUp.Planning.Buses;

namespace WireUp.Documents;

/// <summary>
/// Sheets of labels: two for each wire that is to be laid, one for each of its ends, and one for each point of the bus. The name stands twice, so
/// that it can be read all round a wire; a QR code opens the wire's line on the work sheet, where
/// the layout says what its address is; else it says the same as the label and where in the book the wire is.
/// </summary>
public static class LabelSheets
{
    private const double Edge = 4, Pad = 1.4, LeastSize = 1.2;

    /// <summary>The sheets as a PDF file; the same schedule gives the same bytes.</summary>
    /// <param name="layout">The layout.</param>
    /// <param name="schedule">Its schedule.</param>
    /// <param name="options">Size of the labels.</param>
    public static byte[] Compose(Layout layout, Schedule schedule, LabelOptions options) =>
        PdfScene.Write(Pages(layout, schedule, options), new() { Title = $"{layout.Name}: labels" });

    /// <summary>The sheets as scenes.</summary>
    /// <param name="layout">The layout.</param>
    /// <param name="schedule">Its schedule.</param>
    /// <param name="options">Size of the labels.</param>
    /// <exception cref="ArgumentException">No label fits on the paper.</exception>
    public static ImmutableArray<Scene> Pages(Layout layout, Schedule schedule, LabelOptions options)
    {
        Sheet paper = Sheet.Of(options.Paper);
        double width = options.Width.Millimeters, height = options.Height.Millimeters, gap = options.ColumnGap.Millimeters;
        int columns = (int)Math.Floor((paper.Width - (2 * Edge) + gap + 1e-9) / (width + gap)), rows = (int)Math.Floor((paper.Height - (2 * Edge) + 1e-9) / height);
        if (columns < 1 || rows < 1) throw new ArgumentException("no label of that size fits on the paper", nameof(options));
        double left = (paper.Width - (columns * width) - ((columns - 1) * gap)) / 2, top = (paper.Height - (rows * height)) / 2;
        return
        [
            .. Labels(layout, schedule).Chunk(columns * rows).Select((labels, page) => new Scene(paper.Width, paper.Height, [.. labels.SelectMany((label, i) =>
            {
                (double x, double y) = (left + (i % columns * (width + gap)), top + (i / columns * height));
                return Draw(label, new(x, y, x + width, y + height));
            })])
            { Title = Figure.Text($"{layout.Name}: labels, sheet {page + 1}") }),
        ];
    }

    private static IEnumerable<Label> Labels(Layout layout, Schedule schedule)
    {
        DistrictLetters letters = new(layout);
        WorkSheetLines lines = new(layout);
        foreach (ScheduledWire wire in schedule.ToDo)
        {
            string place = wire.District.Length == 0 ? ContactChapter.Title : $"District {letters.Of(wire.District)} {wire.District}";
            string code = lines.Of(wire) ?? $"{wire.Id}: {wire.From} > {wire.To}; see {place}";
            yield return new(wire.Id, $"here {wire.From}", $"to {wire.To}", $"{PlaceWords.Size(wire.Wire)} {wire.Colour}", code);
            yield return new(wire.Id, $"here {wire.To}", $"to {wire.From}", $"{PlaceWords.Size(wire.Wire)} {wire.Colour}", code);
        }

        HashSet<(string, string)> strips = [.. TerminalStrips.Added(Wiring.None, layout.Wiring).Select(strip => (strip.District, strip.Point))];
        foreach (Bus bus in layout.Wiring.Buses)
        {
            IEnumerable<string> begun = bus.Runs.Select(run => run.From).Where(point => strips.Contains((bus.District, point)));
            foreach (string point in bus.Runs.Select(run => run.To).Concat(begun).Distinct()) yield return OfPoint(layout, letters, lines, bus, point);
        }
    }

    /// <summary>The label of one point of a bus, drawn into a box.</summary>
    internal static IEnumerable<Shape> DrawPoint(BookFacts facts, Bus bus, string point, SceneBox box) =>
        Draw(OfPoint(facts.Layout, facts.Drawn.Letters, facts.Lines, bus, point), box);

    private static Label OfPoint(Layout layout, DistrictLetters letters, WorkSheetLines lines, Bus bus, string point)
    {
        string feeders = string.Join(' ', layout.Wiring.Feeders.Where(feeder => feeder.District == bus.District && feeder.Tap == point).Select(feeder => feeder.Name));
        string district = $"District {letters.Of(bus.District)} {bus.District}";
        return new(point, district, feeders.Length > 0 ? $"feeders {feeders}" : "bus", Legs(layout.Papers), lines.Of(bus, point) ?? $"{point}: {district}; {feeders}");
    }

    private static string Legs(Papers papers) => $"A{(papers.LegAName is { } a ? $" {a}" : "")} | B{(papers.LegBName is { } b ? $" {b}" : "")}";

    private static IEnumerable<Shape> Draw(Label label, SceneBox box)
    {
        SceneBox inner = box.Grow(-Pad);
        double side = Math.Min(inner.Height, 0.46 * inner.Width), right = inner.Right;
        if (QrCode.Draw(label.Code, new(inner.Right - side, inner.Top + ((inner.Height - side) / 2)), side) is { } code)
        {
            yield return code;
            right -= side;
        }

        (string Words, double Share, bool Bold)[] lines =
            [(label.Name, 0.2, true), (label.Here, 0.13, false), (label.There, 0.13, false), (label.Wire, 0.13, false), (label.Name, 0.2, true)];
        double y = inner.Top;
        foreach ((string words, double share, bool bold) in lines)
        {
            double room = inner.Height * share * 1.22, size = inner.Height * share;
            TextStyle style = TextFlow.Fitting(words, new(Math.Min(size, 4.2), SceneColours.Ink) { Bold = bold }, right - inner.Left - 0.5, LeastSize);
            yield return new Shape.Text("labels", new(inner.Left, y + (0.8 * room)), Fitted(words, style, right - inner.Left - 0.5), style) { Id = label.Name };
            y += room;
        }
    }

    /// <summary>The words, their beginning left out where they are still too long: leg and rail stand at the end.</summary>
    private static string Fitted(string words, TextStyle style, double width)
    {
        if (TextFlow.Width(words, style) <= width) return words;
        string kept = words;
        while (kept.Length > 1 && TextFlow.Width($"…{kept}", style) > width) kept = kept[1..];
        return $"…{kept}";
    }

    private sealed record Label(string Name, string Here, string There, string Wire, string Code);
}
