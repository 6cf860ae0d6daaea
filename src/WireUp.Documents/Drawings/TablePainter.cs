using System.Collections.Immutable;
using WireUp.Documents.Geometry;
using WireUp.Layouts;

namespace WireUp.Documents.Drawings;

/// <summary>
/// Draws turntables and transfer tables: the edge of the pit, the deck of the bridge under its rails, faint marks at road positions
/// where no track begins.
/// </summary>
internal sealed class TablePainter(PlanFacts facts, PlanSheet sheet, RailPainter rails)
{
    private const int CircleSteps = 72;
    private const double MarkShare = 0.22, DeckWidth = 1.9, Margin = 0.7;
    private static readonly ShapeStyle Edge = ShapeStyle.Outline(SceneColours.Ink, 0.3);
    private static readonly ShapeStyle Mark = ShapeStyle.Outline(SceneColours.Hair, 0.25);

    public void Paint(Piece table)
    {
        ImmutableArray<PieceLine> lines = facts.Geometry.LinesOf(table.Id);
        PieceLine[] roads = [.. lines.Where(line => line.From == TableLines.Pivot)];
        PieceLine bridge = lines[0];
        if (table is Piece.Turntable turntable) PaintRoundPit(turntable, bridge, roads);
        else PaintPit((Piece.TransferTable)table, bridge, roads);
        PaintDeck(table, bridge);
        rails.Between(table);
        foreach (PieceLine road in roads.Where(road => road.Points.Length > 2))
        {
            rails.Road(table, road.To, [.. road.Points.Skip(1)]);
        }
    }

    private void PaintRoundPit(Piece.Turntable table, PieceLine bridge, PieceLine[] roads)
    {
        PlanPoint centre = Polyline.Between(bridge.Points[0], bridge.Points[^1], 0.5);
        (PlanPoint known, int number) = roads.Length > 0 ? (roads[0].Points[1], Number(roads[0].To)) : (bridge.Points[0], 1);
        double radius = Polyline.Distance(centre, known), heading = Math.Atan2(known.Y - centre.Y, known.X - centre.X);
        Outline(table, [.. Enumerable.Range(0, CircleSteps).Select(step => Around(2 * Math.PI * step / CircleSteps, 1))]);
        for (int road = 1; road <= table.RoadCount; road++)
        {
            if (roads.Any(used => Number(used.To) == road)) continue;
            double angle = heading - (2 * Math.PI * (road - number) / table.RoadCount);
            Stroke(table, Around(angle, 1), Around(angle, 1 + MarkShare));
        }

        PlanPoint Around(double angle, double share) =>
            new(centre.X + (share * radius * Math.Cos(angle)), centre.Y + (share * radius * Math.Sin(angle)));
    }

    private void PaintPit(Piece.TransferTable table, PieceLine bridge, PieceLine[] roads)
    {
        PlanPose stand = bridge.At(0.5);
        double half = roads.Length > 0 ? Polyline.Distance(roads[0].Points[0], roads[0].Points[1]) : bridge.LengthMetres / 2;
        (double Left, int Number)[] rows = [.. roads.Select(road => (LeftOf(stand, road.Points[0]), Number(road.To))).OrderBy(row => row.Item2)];
        if (rows.Length == 0) rows = [(0, 1)];
        double pitch = rows[^1].Number > rows[0].Number ? (rows[^1].Left - rows[0].Left) / (rows[^1].Number - rows[0].Number) : 0;
        double[] all = pitch == 0 ? [rows[0].Left] : [.. Enumerable.Range(1, table.RoadCount).Select(number => rows[0].Left + (pitch * (number - rows[0].Number)))];
        double margin = Math.Max(Margin * facts.Geometry.SpacingMetres, DeckWidth * sheet.HalfGaugeMetres);
        (double right, double left) = (all.Min() - margin, all.Max() + margin);
        Outline(table, [At(-half, right), At(half, right), At(half, left), At(-half, left)]);
        foreach ((int index, double row) in all.Index())
        {
            foreach ((string letter, double side) in new[] { ("w", -1.0), ("e", 1.0) })
            {
                string name = $"{letter}{index + 1}";
                if (pitch != 0 && !roads.Any(road => road.To == name)) Stroke(table, At(side * half, row), At(side * half * (1 + MarkShare), row));
            }
        }

        PlanPoint At(double ahead, double toLeft) => (stand with { At = stand.Ahead(ahead) }).Beside(toLeft);
    }

    private static double LeftOf(PlanPose pose, PlanPoint point) =>
        (pose.DirectionX * (point.Y - pose.At.Y)) - (pose.DirectionY * (point.X - pose.At.X));

    private void PaintDeck(Piece table, PieceLine bridge)
    {
        double width = DeckWidth * sheet.HalfGaugeMetres;
        (PlanPose head, PlanPose tail) = (bridge.At(0), bridge.At(1));
        rails.Edge(
            [head.Beside(width), head.Beside(-width), tail.Beside(-width), tail.Beside(width), head.Beside(width)],
            ShapeStyle.Outline(SceneColours.Quiet, 0.2),
            table.Id.Name);
    }

    private void Outline(Piece table, ImmutableArray<PlanPoint> corners) => rails.Edge([.. corners, corners[0]], Edge, table.Id.Name);

    private void Stroke(Piece table, PlanPoint from, PlanPoint to) => rails.Edge([from, to], Mark, table.Id.Name);

    private static int Number(string road) => Geometry.Automatic.BoxBodies.Number(road);
}
