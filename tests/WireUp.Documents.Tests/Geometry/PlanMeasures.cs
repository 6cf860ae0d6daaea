using WireUp.Documents.Geometry;
using WireUp.Layouts;

namespace WireUp.Documents.Tests.Geometry;

/// <summary>What makes a plan readable, in numbers.</summary>
internal sealed class PlanMeasures
{
    private readonly Layout _layout;
    private readonly PlanGeometry _plan;
    private readonly List<(PieceId Piece, PlanPoint A, PlanPoint B)> _strokes;
    private readonly Dictionary<PieceId, HashSet<PieceId>> _near;

    public PlanMeasures(Layout layout, PlanGeometry plan)
    {
        (_layout, _plan) = (layout, plan);
        _strokes = [.. plan.Lines.SelectMany(line => line.Points.Zip(line.Points.Skip(1), (a, b) => (line.Piece, a, b)))];
        _near = Neighbourhoods();
    }

    /// <summary>Places where lines of two pieces cross although these are not joined.</summary>
    public int Crossings => Pairs(0).Count(pair => !Joined(pair.One.Piece, pair.Other.Piece) && Cross(pair.One, pair.Other));

    /// <summary>Places where the line of one piece crosses itself, leaving crossings out.</summary>
    public int SelfCrossings => _plan.Lines.Where(line => _layout.Track.First(piece => piece.Id == line.Piece) is Piece.Section).Sum(line =>
    {
        var strokes = line.Points.Zip(line.Points.Skip(1), (a, b) => (line.Piece, a, b)).ToArray();
        return Enumerable.Range(0, strokes.Length).Sum(i => Enumerable.Range(i + 2, Math.Max(0, strokes.Length - i - 2)).Count(j => Cross(strokes[i], strokes[j])));
    });

    /// <summary>The least distance between pieces that are not near each other along the track, in units of the plan's spacing.</summary>
    public double NearestTracks => Pairs(_plan.SpacingMetres)
        .Where(pair => !_near[pair.One.Piece].Contains(pair.Other.Piece))
        .Select(pair => Distance(pair.One, pair.Other) / _plan.SpacingMetres)
        .DefaultIfEmpty(1).Min();

    /// <summary>The sharpest angle between neighbouring strokes of a line, in degrees.</summary>
    public double SharpestKink => _plan.Lines.SelectMany(line => Enumerable.Range(1, Math.Max(0, line.Points.Length - 2))
        .Select(i => Angle(line.Points[i - 1], line.Points[i], line.Points[i + 1]))).DefaultIfEmpty(0).Max();

    /// <summary>The sharpest angle where two pieces join, in degrees.</summary>
    public double SharpestJoint => _layout.Joints.Where(joint => _plan.LinesOf(joint.First.Piece).Length > 0 && _plan.LinesOf(joint.Second.Piece).Length > 0)
        .Select(joint =>
        {
            (PlanPose first, PlanPose second) = (_plan.EndAt(joint.First), _plan.EndAt(joint.Second).Reversed);
            return Degrees(Math.Atan2((first.DirectionX * second.DirectionY) - (first.DirectionY * second.DirectionX), (first.DirectionX * second.DirectionX) + (first.DirectionY * second.DirectionY)));
        }).DefaultIfEmpty(0).Max();

    /// <summary>The widest hole between two joined ends, in units of spacing.</summary>
    public double WidestHole => _layout.Joints.Where(joint => _plan.LinesOf(joint.First.Piece).Length > 0 && _plan.LinesOf(joint.Second.Piece).Length > 0)
        .Select(joint => Polyline.Distance(_plan.EndAt(joint.First).At, _plan.EndAt(joint.Second).At) / _plan.SpacingMetres).DefaultIfEmpty(0).Max();

    /// <summary>Drawn length over true length of the sections: the middle one, and the ratio of the ninth tenth to the first.</summary>
    public (double Median, double Spread) LengthRatios
    {
        get
        {
            double[] ratios = [.. _layout.Track.OfType<Piece.Section>().Select(section => _plan.LinesOf(section.Id)[0].LengthMetres / section.Length.Meters).Order()];
            return ratios.Length == 0 ? (1, 1) : (ratios[ratios.Length / 2], ratios[ratios.Length * 9 / 10] / ratios[ratios.Length / 10]);
        }
    }

    private bool Joined(PieceId one, PieceId other) => one == other || _layout.Joints.Any(joint =>
        (joint.First.Piece == one && joint.Second.Piece == other) || (joint.First.Piece == other && joint.Second.Piece == one));

    // Pieces within four joints.
    private Dictionary<PieceId, HashSet<PieceId>> Neighbourhoods()
    {
        var joined = _layout.Joints.SelectMany(joint => new[] { (joint.First.Piece, joint.Second.Piece), (joint.Second.Piece, joint.First.Piece) }).ToLookup(pair => pair.Item1, pair => pair.Item2);
        return _layout.Track.ToDictionary(piece => piece.Id, piece =>
        {
            HashSet<PieceId> near = [piece.Id];
            for (int i = 0; i < 4; i++) near.UnionWith(near.ToArray().SelectMany(id => joined[id]));
            return near;
        });
    }

    private IEnumerable<((PieceId Piece, PlanPoint A, PlanPoint B) One, (PieceId Piece, PlanPoint A, PlanPoint B) Other)> Pairs(double range)
    {
        double cell = Math.Max(range, _plan.SpacingMetres);
        var cells = new Dictionary<(int, int), List<int>>();
        for (int i = 0; i < _strokes.Count; i++)
        {
            HashSet<int> seen = [];
            foreach ((int x, int y) in Cells(_strokes[i], range, cell))
            {
                if (!cells.TryGetValue((x, y), out var list)) cells[(x, y)] = list = [];
                foreach (int j in list.Where(seen.Add)) yield return (_strokes[j], _strokes[i]);
                list.Add(i);
            }
        }
    }

    private static IEnumerable<(int X, int Y)> Cells((PieceId, PlanPoint A, PlanPoint B) stroke, double range, double cell)
    {
        (double minX, double maxX) = (Math.Min(stroke.A.X, stroke.B.X) - (range / 2), Math.Max(stroke.A.X, stroke.B.X) + (range / 2));
        (double minY, double maxY) = (Math.Min(stroke.A.Y, stroke.B.Y) - (range / 2), Math.Max(stroke.A.Y, stroke.B.Y) + (range / 2));
        for (int x = (int)Math.Floor(minX / cell); x <= (int)Math.Floor(maxX / cell); x++)
        {
            for (int y = (int)Math.Floor(minY / cell); y <= (int)Math.Floor(maxY / cell); y++) yield return (x, y);
        }
    }

    private static bool Cross((PieceId, PlanPoint A, PlanPoint B) one, (PieceId, PlanPoint A, PlanPoint B) other) =>
        Side(one.A, one.B, other.A) * Side(one.A, one.B, other.B) < 0 && Side(other.A, other.B, one.A) * Side(other.A, other.B, one.B) < 0;

    private static double Side(PlanPoint a, PlanPoint b, PlanPoint p) => ((b.X - a.X) * (p.Y - a.Y)) - ((b.Y - a.Y) * (p.X - a.X));

    private static double Distance((PieceId, PlanPoint A, PlanPoint B) one, (PieceId, PlanPoint A, PlanPoint B) other) => Cross(one, other)
        ? 0
        : new[] { ToStroke(one.A, other), ToStroke(one.B, other), ToStroke(other.A, one), ToStroke(other.B, one) }.Min();

    private static double ToStroke(PlanPoint p, (PieceId, PlanPoint A, PlanPoint B) stroke)
    {
        (double dx, double dy) = (stroke.B.X - stroke.A.X, stroke.B.Y - stroke.A.Y);
        double squared = (dx * dx) + (dy * dy);
        double t = squared > 0 ? Math.Clamp((((p.X - stroke.A.X) * dx) + ((p.Y - stroke.A.Y) * dy)) / squared, 0, 1) : 0;
        return Polyline.Distance(p, new(stroke.A.X + (t * dx), stroke.A.Y + (t * dy)));
    }

    private static double Angle(PlanPoint a, PlanPoint b, PlanPoint c) => Degrees(Math.Atan2(
        ((b.X - a.X) * (c.Y - b.Y)) - ((b.Y - a.Y) * (c.X - b.X)),
        ((b.X - a.X) * (c.X - b.X)) + ((b.Y - a.Y) * (c.Y - b.Y))));

    private static double Degrees(double radians) => Math.Abs(radians) * 180 / Math.PI;
}
