using WireUp.Documents.Geometry;
using WireUp.Layouts;
using WireUp.Layouts.Reference;

namespace WireUp.Documents.Book;

/// <summary>Where to drill for each leg of each feeder, in coordinates of the plan, and mirrored for whoever measures from below.</summary>
internal static class DrillingChapter
{
    public const string Title = "Drilling list";

    public static void Write(BookFacts facts, BookFlow flow)
    {
        if (facts.Drawn.Geometry.Automatic || !facts.Feeders.Any()) return;
        PlanBox bounds = facts.Drawn.Geometry.Bounds;
        flow.SectionHere(Title, 78);
        flow.Intro(Figure.Text(
            $"{PlaceWords.SmallUnit(facts.Lengths)} in the coordinates of the layout file; beside each rail, on its outer side. From below, x is measured from the right edge of the plan, which is at x = {facts.Lengths.Mark(bounds.MaxX)}. Mark from above, look underneath for wires, frame and people, then drill."));
        flow.Table(Holes(facts, facts.Feeders, bounds with { MinX = 0, MinY = 0 }));
    }

    /// <summary>The holes of some feeders.</summary>
    /// <param name="facts">The book.</param>
    /// <param name="feeders">The feeders.</param>
    /// <param name="from">Measured from its left and lower edge, and from below from its right edge.</param>
    public static Table Holes(BookFacts facts, IEnumerable<Feeder> feeders, PlanBox from) => Table.Of(
        [
            Column.Names("Wire"), new("Rail"), Column.Figures("x"), Column.Figures("y"), Column.Figures("x from below"), Column.Wide("Beside"), Column.TickBoxes("drilled"),
        ],
        feeders.SelectMany(feeder => Rows(facts, feeder, from)));

    private static IEnumerable<Row> Rows(BookFacts facts, Feeder feeder, PlanBox from)
    {
        (RailSide first, RailSide second) = RailSides.Of(facts.Layout.Control);
        foreach (string leg in new[] { "A", "B" })
        {
            RailSide side = (leg == "A") != feeder.Swap ? first : second;
            PlanPoint hole = Hole(facts.Layout, facts.Drawn.Geometry.PointAt(feeder.At), side);
            yield return new(
                $"{feeder.Name}/{leg}",
                RailSides.Word(side),
                facts.Lengths.Mark(hole.X - from.MinX),
                facts.Lengths.Mark(hole.Y - from.MinY),
                facts.Lengths.Mark(from.MaxX - hole.X),
                facts.Place(feeder.At),
                string.Empty);
        }
    }

    /// <summary>Half the gauge from the centre line for a running rail; on it for a centre conductor.</summary>
    internal static PlanPoint Hole(Layout layout, PlanPose pose, RailSide side)
    {
        double half = ScaleTable.FindOrUsual(layout.Scale).Gauge.Meters / 2;
        return side switch
        {
            RailSide.Left => pose.Beside(half),
            RailSide.Centre => pose.At,
            RailSide.Right or RailSide.Running => pose.Beside(-half),
            _ => throw new ArgumentOutOfRangeException(nameof(side), side, "not a rail side"),
        };
    }
}
