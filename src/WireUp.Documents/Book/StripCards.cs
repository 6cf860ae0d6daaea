using System.Collections.Immutable;

namespace WireUp.Documents.Book;

/// <summary>A card for each terminal strip: its label to cut out, and way by way the wire of each leg, with where it comes from or goes.</summary>
internal static class StripCards
{
    private const double LabelWidth = 38.1, LabelHeight = 21.2, Edge = 2, RowHeight = 5.2, HeadHeight = 10, Gap = 4;
    private static readonly ShapeStyle RailA = ShapeStyle.Outline(SceneColours.Ink, 0.6), RailB = ShapeStyle.Outline(SceneColours.Ink, 0.6, DashKind.Long);

    public static void Write(BookFacts facts, ImmutableArray<BusMeeting> strips, BookFlow flow)
    {
        if (strips.IsEmpty) return;
        flow.Ensure(RoomForFirst(strips));
        flow.Subheading("Terminal strips");
        flow.Intro(
            "One card a place: a strip for leg A and one for leg B, the ways of each bridged. A line of bus is cut here and both its ends are screwed in, "
            + "so that every pair can be taken off by itself to look for a fault. Its label stands beside it.");
        foreach (BusMeeting strip in strips) flow.Draw(Height(strip), (page, box) => Draw(facts, page, box with { Bottom = box.Bottom - Gap }, strip));
    }

    /// <summary>Room for the words before the cards and the first card; none is needed where there are no strips.</summary>
    public static double RoomForFirst(ImmutableArray<BusMeeting> strips) => strips.IsEmpty ? 0 : Height(strips[0]) + 40;

    private static double Height(BusMeeting strip) => Math.Max(HeadHeight + (strip.Pairs.Length * RowHeight) + Edge, LabelHeight + (2 * Edge)) + Gap;

    private static void Draw(BookFacts facts, BookPage page, SceneBox box, BusMeeting strip)
    {
        page.Box(box, ShapeStyle.Outline(SceneColours.Ink, 0.25));
        SceneBox label = new(box.Left + Edge, box.Top + Edge, box.Left + Edge + LabelWidth, box.Top + Edge + LabelHeight);
        page.Box(label, ShapeStyle.Outline(SceneColours.Hair, 0.2, DashKind.Short));
        page.Add(LabelSheets.DrawPoint(facts, strip.Bus, strip.Point, label));
        Ways ways = new(page, label.Right + 2, box.Right - Edge, box.Top);
        ways.Text(0, ways.Width, 4, $"{strip.Point}, district {facts.District(strip.Bus.District)}: {strip.Pairs.Length} ways for each leg", bold: true);
        ways.Text(Ways.A, Ways.B - Ways.A - 1, 8.2, $"A {facts.Palette.LegA}");
        ways.Text(Ways.B, Ways.Names - Ways.B - 1, 8.2, $"B {facts.Palette.LegB}");
        ways.Bridge(Ways.A + 1, strip.Pairs.Length, RailA);
        ways.Bridge(Ways.B + 1, strip.Pairs.Length, RailB);
        foreach ((int index, MeetingPair pair) in strip.Pairs.Index()) DrawPair(ways, pair, index);
    }

    private static void DrawPair(Ways ways, MeetingPair pair, int index)
    {
        double line = Ways.Row(index) + 0.9;
        ways.Text(0, Ways.A - 1, line, Figure.Whole(index + 1));
        ways.Terminal(Ways.A + 1, index);
        ways.Terminal(Ways.B + 1, index);
        ways.Text(Ways.Names, ways.Size - Ways.Names - 1, line, pair.Name.Length == 0 ? pair.OtherEnd : $"{pair.Name}/A, /B", bold: true);
        if (pair.Wire is { } wire) ways.Text(ways.Size, ways.Where - ways.Size - 1, line, PlaceWords.Size(wire));
        ways.Text(ways.Where, ways.Width - ways.Where, line, Words(pair));
    }

    private static string Words(MeetingPair pair) => pair.Way switch
    {
        PairWay.Breaker => "arrives",
        PairWay.Arrives => $"arrives from {pair.OtherEnd}",
        PairWay.Leaves => $"goes on to {pair.OtherEnd}",
        PairWay.Feeder => $"A to {pair.OtherEnd}",
        _ => throw new ArgumentOutOfRangeException(nameof(pair), pair.Way, "no words"),
    };

    /// <summary>The part of a card to the right of its label, in columns.</summary>
    private sealed record Ways(BookPage Page, double Left, double Right, double Top)
    {
        public const double A = 5, B = 14, Names = 24;

        public double Width => Right - Left;

        public double Size => Names + (0.45 * (Width - Names - 14));

        public double Where => Size + 14;

        public static double Row(int index) => HeadHeight + ((index + 0.5) * RowHeight);

        public void Text(double x, double room, double y, string words, bool bold = false)
        {
            TextStyle style = new(2.3, SceneColours.Ink) { Bold = bold };
            Page.Write(TextFlow.Width(words, style) <= room ? words : TextFlow.Shorten(words, room, style), Left + x, Top + y, style);
        }

        public void Terminal(double x, int index) =>
            Page.Add(new Shape.Circle("cards", new(Left + x, Top + Row(index)), 0.9, ShapeStyle.Outline(SceneColours.Ink, 0.3) with { Fill = SceneColours.Paper }));

        public void Bridge(double x, int ways, ShapeStyle style) =>
            Page.Add(new Shape.Line("cards", [new(Left + x, Top + Row(0)), new(Left + x, Top + Row(ways - 1))], false, style));
    }
}
