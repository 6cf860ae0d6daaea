using System.Collections.Immutable;
using WireUp.Documents.Geometry;
using WireUp.Documents.Phases;
using WireUp.Layouts;

namespace WireUp.Documents.Drawings;

/// <summary>
/// Draws trackwork of several ways: crossings, slips, scissors, turnouts of many legs. Both rails of every way are drawn; where two
/// ways run over one rail it is drawn once, so that blades begin where they leave it; where rails cross lies a frog.
/// </summary>
internal sealed class TrackworkPainter
{
    // A rail is sampled in this many steps; it is one with another that lies within this part of half a gauge, about parallel.
    private const int Steps = 96;
    private const double OneRail = 0.2, Parallel = 0.12;

    private readonly PlanFacts _facts;
    private readonly PlanSheet _sheet;
    private readonly Piece _piece;
    private readonly RailPainter _rails;
    private readonly List<WayRail> _drawn = [];

    public TrackworkPainter(PlanFacts facts, PlanSheet sheet, Piece piece, RailPainter rails) =>
        (_facts, _sheet, _piece, _rails) = (facts, sheet, piece, rails);

    public void Paint()
    {
        bool threeRail = _facts.Layout.Control == ControlSystem.ThreeRail;
        (RailSide left, RailSide right) = threeRail ? (RailSide.Running, RailSide.Running) : (RailSide.Left, RailSide.Right);
        ImmutableArray<PieceLine> lines = _facts.Geometry.LinesOf(_piece.Id);
        ImmutableArray<WayRail> all =
        [
            .. threeRail ? lines.Select(line => new WayRail(line, RailSide.Centre, Fine(line, 0))) : [],
            .. lines.SelectMany(line => new[] { new WayRail(line, left, Fine(line, _sheet.HalfGaugeMetres)), new WayRail(line, right, Fine(line, -_sheet.HalfGaugeMetres)) }),
        ];
        foreach (WayRail rail in all.OrderByDescending(IsStockRail)) PaintRail(rail);
        if (threeRail) return;
        ShapeStyle style = FrogLook.Of(_piece);
        foreach (PlanPoint frog in Frogs()) _rails.Dot(frog, Math.Max(0.4, 0.36 * _sheet.HalfGauge), style, $"{_piece.Id}/frog");
    }

    /// <summary>The outer rails of a turnout of many legs, which its inner rails leave.</summary>
    private bool IsStockRail(WayRail rail) => _piece is Piece.MultiTurnout
        && ((rail.Line.To == _piece.EndNames[1] && rail.Side == RailSide.Left) || (rail.Line.To == _piece.EndNames[^1] && rail.Side == RailSide.Right));

    /// <summary>The slip roads of a slip have no frogs of their own.</summary>
    private bool HasFrogs(PieceLine line) => _piece is not Piece.Slip || line.From[0] == line.To[0];

    private static ImmutableArray<PlanPoint> Fine(PieceLine line, double metresLeft)
    {
        ImmutableArray<PlanPoint> rail = OffsetLine.Of(line.Points, metresLeft);
        double length = Polyline.Length(rail);
        return [.. Enumerable.Range(0, Steps + 1).Select(step => Polyline.At(rail, length * step / Steps).At)];
    }

    private void PaintRail(WayRail rail)
    {
        (int Before, int Beyond)? frogs = FrogsOn(rail);
        foreach ((int first, int last) in Alone(rail))
        {
            foreach ((int from, int to, RailPhase phase) in Coloured(rail, frogs))
            {
                (int begin, int end) = (Math.Max(first, from), Math.Min(last, to));
                if (begin < end) _rails.RailLine([.. rail.Points[begin..(end + 1)]], phase, Id(rail));
            }
        }

        _drawn.Add(rail);
    }

    /// <summary>The stretches that no rail drawn before runs along.</summary>
    private IEnumerable<(int First, int Last)> Alone(WayRail rail)
    {
        int? begin = null;
        for (int i = 0; i <= Steps; i++)
        {
            bool shared = _drawn.Exists(other => other.Side == rail.Side && RunsAlong(rail.Points, i, other.Points));
            if (!shared) begin ??= i;
            if (begin is { } first && (shared || i == Steps))
            {
                yield return (Math.Max(0, first - 1), i);
                begin = null;
            }
        }
    }

    private bool RunsAlong(ImmutableArray<PlanPoint> rail, int at, ImmutableArray<PlanPoint> other)
    {
        double near = OneRail * _sheet.HalfGaugeMetres;
        (PlanPoint before, PlanPoint after) = (rail[Math.Max(at - 1, 0)], rail[Math.Min(at + 1, Steps)]);
        for (int i = 1; i < other.Length; i++)
        {
            (PlanPoint a, PlanPoint b) = (other[i - 1], other[i]);
            if (ToStroke(rail[at], a, b) > near) continue;
            double across = ((after.X - before.X) * (b.Y - a.Y)) - ((after.Y - before.Y) * (b.X - a.X));
            if (Math.Abs(across) < Parallel * Polyline.Distance(before, after) * Polyline.Distance(a, b)) return true;
        }

        return false;
    }

    private static double ToStroke(PlanPoint p, PlanPoint a, PlanPoint b)
    {
        (double dx, double dy) = (b.X - a.X, b.Y - a.Y);
        double t = Math.Clamp((((p.X - a.X) * dx) + ((p.Y - a.Y) * dy)) / ((dx * dx) + (dy * dy) + 1e-30), 0, 1);
        return Polyline.Distance(p, new(a.X + (t * dx), a.Y + (t * dy)));
    }

    /// <summary>A rail has the letter of either end up to the middle between its frogs; blades that lead to a live frog follow the points.</summary>
    private IEnumerable<(int From, int To, RailPhase Phase)> Coloured(WayRail rail, (int Before, int Beyond)? frogs)
    {
        RailPhase first = PhaseAt(rail.Line.From, rail.Side.Across()), last = PhaseAt(rail.Line.To, rail.Side);
        if (_piece is Piece.MultiTurnout turnout)
        {
            if (frogs is not { } to) return [(0, Steps, last)];
            return [(0, to.Beyond, turnout.Frog == FrogKind.Live ? RailPhase.Switched : last), (to.Beyond, Steps, last)];
        }

        int middle = frogs is { } between ? (between.Before + between.Beyond) / 2 : Steps / 2;
        return first == last ? [(0, Steps, first)] : [(0, middle, first), (middle, Steps, last)];
    }

    /// <summary>Where the first and the last frog lie on a rail.</summary>
    private (int Before, int Beyond)? FrogsOn(WayRail rail)
    {
        List<int> at = [];
        foreach (PieceLine line in _facts.Geometry.LinesOf(_piece.Id).Where(line => line != rail.Line && HasFrogs(line)))
        {
            foreach (double side in new[] { 1, -1 })
            {
                at.AddRange(Meetings(rail.Points, Fine(line, side * _sheet.HalfGaugeMetres)).Select(meeting => meeting.Step));
            }
        }

        return at.Count == 0 ? null : (at.Min(), at.Max());
    }

    private IEnumerable<PlanPoint> Frogs()
    {
        List<PlanPoint> frogs = [];
        foreach ((int i, WayRail rail) in _drawn.Index())
        {
            foreach (WayRail other in _drawn.Take(i).Where(other => other.Line != rail.Line && HasFrogs(other.Line) && HasFrogs(rail.Line)))
            {
                foreach ((_, PlanPoint at) in Meetings(rail.Points, other.Points))
                {
                    if (!frogs.Exists(frog => Polyline.Distance(frog, at) < 0.3 * _sheet.HalfGaugeMetres)) frogs.Add(at);
                }
            }
        }

        return frogs;
    }

    /// <summary>Where a rail crosses another at an angle.</summary>
    private static IEnumerable<(int Step, PlanPoint At)> Meetings(ImmutableArray<PlanPoint> rail, ImmutableArray<PlanPoint> other)
    {
        for (int i = 1; i < rail.Length; i++)
        {
            for (int k = 1; k < other.Length; k++)
            {
                if (OffsetLine.Crossing(rail[i - 1], rail[i], other[k - 1], other[k]) is not { } at) continue;
                double across = ((rail[i].X - rail[i - 1].X) * (other[k].Y - other[k - 1].Y)) - ((rail[i].Y - rail[i - 1].Y) * (other[k].X - other[k - 1].X));
                if (Math.Abs(across) > Parallel * Polyline.Distance(rail[i - 1], rail[i]) * Polyline.Distance(other[k - 1], other[k])) yield return (i, at);
            }
        }
    }

    private RailPhase PhaseAt(string end, RailSide side) => _facts.Phases[_facts.Phases.Graph.NodeAt(new(_piece.End(end), side))];

    private string Id(WayRail rail) => new RailEnd(_piece.End(rail.Line.To), rail.Side).ToString();

    /// <summary>One rail of one way.</summary>
    private sealed record WayRail(PieceLine Line, RailSide Side, ImmutableArray<PlanPoint> Points);
}
