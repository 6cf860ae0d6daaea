using WireUp.Documents.Geometry;
using WireUp.Layouts;

namespace WireUp.Documents.Book;

/// <summary>A sheet for each board of the benchwork, to be handed to whoever wires it: what stands on it, its bus, feeders, frogs, gaps, and where to drill.</summary>
internal static class BoardChapter
{
    public const string Title = "Board sheets";

    /// <summary>Whether there are such sheets.</summary>
    public static bool IsWritten(BookFacts facts) => !facts.Drawn.Geometry.Automatic && !facts.Layout.Benchwork.Boards.IsEmpty;

    public static void Write(BookFacts facts, BookFlow flow, CancellationToken cancellation)
    {
        if (!IsWritten(facts)) return;
        BoardMap map = BoardMap.Of(facts);
        BoardPlans plans = BoardPlans.Of(facts);
        foreach ((int index, PlanOutline board) in facts.Layout.Benchwork.Boards.Index())
        {
            BoardParts parts = map.PartsOn(board.Name);
            flow.SectionOnPage(index == 0 ? Title : string.Empty, $"Board {board.Name}");
            flow.Paragraph(Summary(parts, index == 0 ? map.PartsOn(BoardMap.NoBoard) : BoardParts.None));
            WriteBus(facts, parts, flow);
            WritePoints(facts, parts, flow);
            WriteFeeders(facts, map, parts, flow);
            WriteFrogs(parts, flow);
            WriteGaps(facts, parts, flow);
            WriteDrilling(facts, board, parts, flow);
            foreach (BookPage page in plans.Pages(board, parts, cancellation)) flow.AddDrawn(page, inContents: false);
        }
    }

    private static string Summary(BoardParts parts, BoardParts nowhere)
    {
        string devices = parts.Boosters.IsEmpty ? "No booster stands on it." : $"{(parts.Boosters.Length == 1 ? "Booster" : "Boosters")} on it: {string.Join(", ", parts.Boosters)}.";
        string counts = $"{Figure.Count(parts.Feeders.Length, "feeder", "feeders")}, {Figure.Count(parts.Gaps.Length, "gap", "gaps")}, {Figure.Count(parts.Points.Length, "bus point", "bus points")}.";
        string[] outside = [.. nowhere.Feeders.Select(feeder => feeder.Name), .. nowhere.Gaps.Select(gap => gap.Label), .. nowhere.Points.Select(point => point.Point)];
        return outside.Length == 0 ? $"{devices} {counts}" : $"{devices} {counts} On no board, and on no sheet of a board: {string.Join(", ", outside)}.";
    }

    private static void WriteBus(BookFacts facts, BoardParts parts, BookFlow flow)
    {
        if (parts.Bus.IsEmpty) return;
        flow.Subheading("Bus");
        flow.Intro("As the plan draws it. Where boards come apart, both legs of a line that goes on pass a connector at their joint, rated for the trip of the breaker.");
        flow.Table(Table.Of(
            [
                Column.Names("Line, both legs"), new("District"), Column.Sizes("Gauge"), Column.Figures(facts.Lengths.Head("Here")), Column.Wide("Also on board", 2),
                Column.TickBoxes("laid"), Column.TickBoxes("tested"),
            ],
            parts.Bus.Select(bus => new Row(
                bus.Line, facts.Drawn.Letters.Of(bus.District), PlaceWords.Size(bus.Wire), facts.Lengths.Bare(bus.Metres), string.Join(", ", bus.AlsoOn), string.Empty, string.Empty))));
    }

    private static void WritePoints(BookFacts facts, BoardParts parts, BookFlow flow)
    {
        if (parts.Points.IsEmpty) return;
        flow.Subheading("Bus points");
        flow.Table(Table.Of(
            [Column.Names("Point"), new("District"), new("Joint"), Column.Wide("Bus", 2), Column.Wide("Feeders", 2), Column.TickBoxes("joined"), Column.TickBoxes("pulled")],
            parts.Points.Select(meeting => new Row(
                meeting.Point,
                facts.Drawn.Letters.Of(meeting.Bus.District),
                StripChapter.Joint(meeting),
                string.Join(", ", StripChapter.Names(meeting, PairWay.Breaker, PairWay.Arrives, PairWay.Leaves).Distinct()),
                string.Join(", ", StripChapter.Names(meeting, PairWay.Feeder)),
                string.Empty,
                string.Empty))));
    }

    private static void WriteFeeders(BookFacts facts, BoardMap map, BoardParts parts, BookFlow flow)
    {
        if (parts.Feeders.IsEmpty) return;
        flow.Subheading("Feeders");
        Dictionary<string, ScheduledWire> legs = facts.Schedule.Wires.Where(wire => wire.Kind == WireKind.Feeder && wire.Leg == "A").ToDictionary(wire => wire.Id);
        flow.Table(Table.Of(
            [
                Column.Names("Feeder"), new("District"), Column.Wide("Leg A to", 3), Column.Wide("Tap", 2), Column.Sizes("Gauge"), Column.Figures($"{facts.Lengths.Head("Cut")}, twice"),
                Column.TickBoxes("soldered"), Column.TickBoxes("tapped"), Column.TickBoxes("tested"),
            ],
            parts.Feeders.Select(feeder => (Feeder: feeder, Leg: legs[$"{feeder.Name}/A"])).Select(pair => new Row(
                pair.Feeder.Name,
                facts.Drawn.Letters.Of(pair.Feeder.District),
                pair.Leg.To,
                map.TapOf(pair.Feeder, pair.Leg.From),
                PlaceWords.Size(pair.Leg.Wire),
                pair.Leg.IsBuilt ? "built" : facts.Lengths.Bare(pair.Leg.CutLength.Meters),
                pair.Leg.IsBuilt ? Row.NoBox : string.Empty,
                pair.Leg.IsBuilt ? Row.NoBox : string.Empty,
                string.Empty))));
    }

    private static void WriteFrogs(BoardParts parts, BookFlow flow)
    {
        if (parts.FrogWires.IsEmpty) return;
        flow.Subheading("Frogs and their contacts");
        flow.Table(Table.Of(
            [Column.Names("Wire"), Column.Wide("From"), Column.Wide("To"), Column.Sizes("Gauge"), new("Colour"), Column.TickBoxes("laid"), Column.TickBoxes("tested")],
            parts.FrogWires.Select(wire => new Row(
                wire.Id, wire.From, wire.To, PlaceWords.Size(wire.Wire), wire.Colour, wire.IsBuilt ? Row.NoBox : string.Empty, string.Empty))));
    }

    private static void WriteGaps(BookFacts facts, BoardParts parts, BookFlow flow)
    {
        if (parts.Gaps.IsEmpty) return;
        flow.Subheading("Gaps");
        flow.Table(Table.Of(
            [Column.Names("Gap"), Column.Wide("Where", 2), new("Rails"), Column.TickBoxes("open")],
            parts.Gaps.Select(gap => new Row(gap.Label, PlaceWords.Place(gap.Gap.At, facts.Lengths), PlaceWords.Rails(gap.Gap, facts.Layout.Control), string.Empty))));
    }

    private static void WriteDrilling(BookFacts facts, PlanOutline board, BoardParts parts, BookFlow flow)
    {
        if (parts.Feeders.IsEmpty) return;
        PlanBox bounds = PlanBox.Around(board.Corners);
        flow.Subheading("Where to drill");
        flow.Intro(Figure.Text(
            $"{PlaceWords.SmallUnit(facts.Lengths)} from the left and the lower edge of this board as the plan from above shows it, {facts.Lengths.Mark(bounds.Width)} × {facts.Lengths.Mark(bounds.Height)}; of a board of another shape, from those of the rectangle around it. From below, x is measured from the edge that is right from above. Mark from above, look underneath for wires, frame and people, then drill."));
        flow.Table(DrillingChapter.Holes(facts, parts.Feeders, bounds));
    }
}
