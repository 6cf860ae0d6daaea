using System.Collections.Immutable;
using WireUp.Documents.Drawings;
using WireUp.Layouts;

namespace WireUp.Documents.Book;

/// <summary>The marks for drilling on the drawing of a board, and where bus goes on to another board.</summary>
internal sealed class BoardHoles(BookFacts facts, BoardParts parts, PlanSheet sheet) : IUnderlay
{
    private const string Layer = "holes";
    private const double Arm = 1.3, Radius = 0.8;
    private static readonly LabelLook Look = new(Layer, 1.8, SceneColours.Ink) { Bold = true };
    private static readonly LabelLook GoesOn = new(Layer, 1.8, SceneColours.Quiet);
    private static readonly ShapeStyle Stroke = ShapeStyle.Outline(SceneColours.Ink, 0.2);

    /// <summary>Lines that no label may cover, such as the edge of the board.</summary>
    public ImmutableArray<ImmutableArray<ScenePoint>> KeptOff { get; init; } = [];

    /// <summary>What the marks mean.</summary>
    public static string Words => "crosses: holes for the legs of feeders, that of leg A with a ring, beside the rail each is soldered to; squares: a connector of two poles in a line of bus";

    private IEnumerable<(Feeder Feeder, PlanPose Pose)> Shown => parts.Feeders
        .Select(feeder => (feeder, facts.Drawn.Geometry.PointAt(feeder.At)))
        .Where(pair => sheet.Window.Holds(sheet.Point(pair.Item2.At)));

    private IEnumerable<BusCrossing> Crossings => parts.Crossings.Where(crossing => sheet.Window.Holds(sheet.Point(crossing.At)));

    /// <summary>Nothing lies under the plan.</summary>
    public void Paint(SheetBuilder canvas)
    {
    }

    /// <inheritdoc/>
    public void Label(LabelWriter writer)
    {
        foreach (ImmutableArray<ScenePoint> line in KeptOff) writer.KeepOff(line, 0.4);
        foreach (BusCrossing crossing in Crossings)
        {
            ScenePoint at = sheet.Point(crossing.At);
            writer.KeepOff([at with { X = at.X - 1 }, at with { X = at.X + 1 }], 1);
        }

        foreach ((Feeder feeder, PlanPose pose) in Shown)
        {
            foreach (Leg leg in (Leg[])[Leg.A, Leg.B])
            {
                ScenePoint hole = HoleOf(feeder, pose, leg);
                writer.KeepOff([hole with { X = hole.X - Arm }, hole with { X = hole.X + Arm }], 0.6);
            }
        }

        foreach ((Feeder feeder, PlanPose pose) in Shown) writer.Write(feeder.Name, feeder.Name, Look, [.. writer.BothSides(pose, sheet.HalfGauge + Arm + 0.4)]);
        foreach (IGrouping<ScenePoint, BusCrossing> place in Crossings.GroupBy(crossing => sheet.Point(crossing.At)))
        {
            string words = $"{string.Join(", ", place.Select(crossing => crossing.Line).Distinct())} to {place.First().Other}";
            writer.Write(words, words, GoesOn, [.. Around(place.Key)]);
        }
    }

    /// <summary>Draws the marks over the plan.</summary>
    public void PaintMarks(SheetBuilder canvas)
    {
        foreach ((Feeder feeder, PlanPose pose) in Shown)
        {
            Cross(canvas, HoleOf(feeder, pose, Leg.A), $"{feeder.Name}/A", ringed: true);
            Cross(canvas, HoleOf(feeder, pose, Leg.B), $"{feeder.Name}/B", ringed: false);
        }

        foreach (BusCrossing crossing in Crossings)
        {
            ScenePoint at = sheet.Point(crossing.At);
            ImmutableArray<ScenePoint> square = [new(at.X - 1, at.Y - 1), new(at.X + 1, at.Y - 1), new(at.X + 1, at.Y + 1), new(at.X - 1, at.Y + 1)];
            canvas.Add(new Shape.Line(Layer, square, true, new() { Fill = SceneColours.Paper, Stroke = SceneColours.Ink, WidthMillimetres = 0.3 }) { Id = crossing.Line });
        }
    }

    private static IEnumerable<LabelAnchor> Around(ScenePoint at) =>
        from side in (int[])[1, -1]
        from up in (int[])[-1, 1]
        select new LabelAnchor(new(at.X + (side * 1.4), at.Y + (up * 1.4)), side * 0.9, up * 0.44);

    private ScenePoint HoleOf(Feeder feeder, PlanPose pose, Leg leg)
    {
        (RailSide first, RailSide second) = RailSides.Of(facts.Layout.Control);
        return sheet.Point(DrillingChapter.Hole(facts.Layout, pose, (leg == Leg.A) != feeder.Swap ? first : second));
    }

    private static void Cross(SheetBuilder canvas, ScenePoint at, string id, bool ringed)
    {
        canvas.Add(new Shape.Strokes(Layer, [at with { X = at.X - Arm }, at with { X = at.X + Arm }, at with { Y = at.Y - Arm }, at with { Y = at.Y + Arm }], Stroke) { Id = id });
        if (ringed) canvas.Add(new Shape.Circle(Layer, at, Radius, Stroke) { Id = id });
    }
}
