using System.Diagnostics;
using System.Globalization;
using WireUp.Layouts;

namespace WireUp.Documents.Geometry.Automatic;

/// <summary>The shapes of trackwork that needs a box of its own on squared paper: many legs, or tracks side by side.</summary>
internal static class BoxBodies
{
    private const double Margin = 0.5, NeighbourLength = 1.5;
    private const double LegsApart = 0.42, WidestLegAngle = 0.28, WidestFan = 1.3;
    private const double ScissorsHalf = 2.6;
    private const double HalfCrossing = 1.3, SharpestCrossing = 0.55;
    private const double HalfSlip = 1.6, UsualSlip = 0.5, SharpestSlip = 0.45, WidestSlip = 0.7;
    private const int OutlineCorners = 20;
    private const double RoadsApart = 0.52, SmallestPit = 1.7, LargestPit = 4.5;
    private const double TableHalf = 2.2, LongestRow = 16, NarrowestRow = 0.5;

    /// <summary>The shape of a node.</summary>
    public static TrackBody Of(Piece piece, MapNode node) => piece switch
    {
        Piece.MultiTurnout turnout => Turnout(turnout, node),
        Piece.Crossing crossing => Crossing(Math.Max(SharpestCrossing, crossing.Angle.Radians), HalfCrossing, node),
        Piece.Slip slip => Crossing(Math.Clamp(slip.Angle?.Radians ?? UsualSlip, SharpestSlip, WidestSlip), HalfSlip, node),
        Piece.Scissors => Scissors(node),
        Piece.Turntable table => Turntable(table, node),
        Piece.TransferTable table => TransferTable(table, node),
        _ => throw new UnreachableException($"{piece} has no box"),
    };

    /// <summary>Radius of a turntable's pit: two used roads side by side keep apart at its edge.</summary>
    public static double PitRadius(Piece.Turntable table, IEnumerable<string> used)
    {
        int[] roads = [.. used.Select(Number).Order()];
        int nearest = roads.Select((road, i) => ((roads[(i + 1) % roads.Length] - road + table.RoadCount - 1) % table.RoadCount) + 1).DefaultIfEmpty(table.RoadCount).Min();
        return Math.Clamp(RoadsApart / (2 * Math.Sin(Math.Min(Math.PI / 2, Math.PI * nearest / table.RoadCount))), SmallestPit, LargestPit);
    }

    /// <summary>The way out by a road of a turntable, in radians from the body's own direction: the first road lies across, the others follow clockwise.</summary>
    public static double RoadHeading(Piece.Turntable table, string road) => (Math.PI / 2) - (2 * Math.PI * (Number(road) - 1) / table.RoadCount);

    /// <summary>Half the length of a transfer table's bridge, and how far left of the body's direction each of its positions lies.</summary>
    public static (double Half, Func<int, double> Row) TableRows(Piece.TransferTable table, bool turned)
    {
        double pitch = Math.Clamp(LongestRow / table.RoadCount, NarrowestRow, 1);
        return (TableHalf, road => (turned ? -1 : 1) * pitch * (((table.RoadCount + 1) / 2.0) - road));
    }

    /// <summary>The number in the name of a road or leg.</summary>
    public static int Number(string end) => int.Parse(end[1..], CultureInfo.InvariantCulture);

    private static TrackBody Turnout(Piece.MultiTurnout turnout, MapNode node)
    {
        int legs = turnout.LegCount;
        double step = Math.Min(WidestLegAngle, WidestFan / (legs - 1)), length = Math.Max(2 * TrackBody.HalfTurnout, 2 * LegsApart / step);
        BodyArm[] arms = [.. node.Arms.Select((end, arm) => end == "points" ? new BodyArm(0, -length / 2, 0, Math.PI) : Leg(((legs - 1) / -2.0 + arm) * step))];
        return Body(arms, TrackBody.HalfTurnout) with { Meeting = -length / 10 };

        // The end of an arc of the length of the turnout that begins at its points.
        BodyArm Leg(double angle)
        {
            (double sin, double cos) = Math.SinCos(angle);
            return Math.Abs(angle) < 1e-9 ? new(0, length / 2, 0, 0) : new(0, (length * sin / angle) - (length / 2), length * (1 - cos) / angle, angle);
        }
    }

    /// <summary>Ends a1 and b1 lie beside each other behind, a1 to the left; turned over, to the right.</summary>
    private static TrackBody Crossing(double angle, double half, MapNode node)
    {
        return Body([.. node.Arms.Select(end => Arm(end[1] == '2', (end[0] == 'a') != node.Turned))], half);

        // Track a goes to the right.
        BodyArm Arm(bool ahead, bool toRight)
        {
            double heading = (toRight ? -1 : 1) * angle / 2;
            (double sin, double cos) = Math.SinCos(heading);
            return ahead ? new(0, half * cos, half * sin, heading) : new(0, -half * cos, -half * sin, heading + Math.PI);
        }
    }

    private static TrackBody Scissors(MapNode node) => Body(
        [.. node.Arms.Select(end => Side(end[1] == '2' ? 1 : -1, ScissorsHalf, end[0] == 'a' ? 0.5 : -0.5))], NeighbourLength);

    private static TrackBody Turntable(Piece.Turntable table, MapNode node)
    {
        double radius = PitRadius(table, node.Arms);
        BodyArm[] arms = [.. node.Arms.Select(end =>
        {
            (double sin, double cos) = Math.SinCos(RoadHeading(table, end));
            return new BodyArm(0, radius * cos, radius * sin, RoadHeading(table, end));
        })];
        return Body(arms, Math.Min(NeighbourLength, radius)) with
        {
            IsRound = true,
            HalfBox = (radius + Margin, radius + Margin),
            Outline = [.. Enumerable.Range(0, OutlineCorners).Select(corner => Math.SinCos(2 * Math.PI * corner / OutlineCorners)).Select(at => (radius * at.Cos, radius * at.Sin))],
        };
    }

    private static TrackBody TransferTable(Piece.TransferTable table, MapNode node)
    {
        (double half, Func<int, double> row) = TableRows(table, node.Turned);
        TrackBody body = Body([.. node.Arms.Select(end => Side(end[0] == 'e' ? 1 : -1, half, row(Number(end))))], NeighbourLength);
        double side = Math.Abs(row(1)) + Margin;
        return body with { HalfBox = (half + Margin, side + 0.5), Outline = [(half, -side), (half, side), (-half, side), (-half, -side)] };
    }

    private static BodyArm Side(int side, double half, double left) => new(0, side * half, left, side > 0 ? 0 : Math.PI);

    private static TrackBody Body(BodyArm[] arms, double halfLength) => new(1, [.. arms])
    {
        HalfLength = halfLength,
        HalfBox = (
            arms.Select(arm => Math.Abs(arm.X)).DefaultIfEmpty(0).Max() + Margin,
            arms.Select(arm => Math.Abs(arm.Y)).DefaultIfEmpty(0).Max() + Margin),
    };
}
