using System.Collections.Immutable;
using WireUp.Documents.Geometry;
using WireUp.Documents.Phases;
using WireUp.Layouts;
using WireUp.Rails;

namespace WireUp.Documents.Drawings;

/// <summary>
/// Draws a turnout as a turnout: two stock rails that part, blades and closure rails between them that meet at the frog, a sign
/// for the kind of frog, and the tie bar at the points.
/// </summary>
internal sealed class TurnoutPainter(PlanFacts facts, PlanSheet sheet, Piece.Turnout turnout)
{
    private const double BladeTip = 0.06;

    // How far the rails of a stub turnout move along the way to its heel, and the opening before those of the legs.
    private const double MovingShare = 0.45, StubOpening = 0.02;
    private readonly RailGraph _graph = facts.Phases.Graph;

    public void Paint(RailPainter rails)
    {
        if (LineTo(turnout.LeftLeg) is not { } left || LineTo(turnout.RightLeg) is not { } right) return;
        if (facts.Layout.Control == ControlSystem.ThreeRail) PaintThreeRail(rails, left, right);
        else if (turnout.Stub) PaintStub(rails, left, right);
        else PaintTwoRail(rails, left, right);
        PaintTieBar(rails, left);
    }

    private void PaintTwoRail(RailPainter rails, PieceLine left, PieceLine right)
    {
        double half = sheet.HalfGauge;
        rails.Rail(left.Points, half, Phase(turnout.LeftLeg, RailSide.Left), Id(turnout.LeftLeg, RailSide.Left));
        rails.Rail(right.Points, -half, Phase(turnout.RightLeg, RailSide.Right), Id(turnout.RightLeg, RailSide.Right));
        PaintInner(rails, left, right, RailSide.Right, Phase(turnout.LeftLeg, RailSide.Right));
        PaintInner(rails, right, left, RailSide.Left, Phase(turnout.RightLeg, RailSide.Left));
        if (Frog(left, right) is { } frog) rails.Dot(frog, Math.Max(0.45, 0.4 * half), FrogLook.Of(turnout), $"{turnout.Id}/frog");
    }

    /// <summary>The rails of the points end move as a whole; they stand at the first leg, and the rails of both legs begin beyond them.</summary>
    private void PaintStub(RailPainter rails, PieceLine left, PieceLine right)
    {
        double half = sheet.HalfGauge;
        PieceLine stand = left.To == turnout.EndNames[1] ? left : right;
        rails.Rail(stand.Part(0, MovingShare - StubOpening), half, Phase("points", RailSide.Right), Id("points", RailSide.Right));
        rails.Rail(stand.Part(0, MovingShare - StubOpening), -half, Phase("points", RailSide.Left), Id("points", RailSide.Left));
        foreach (PieceLine leg in new[] { left, right })
        {
            rails.Rail(leg.Part(MovingShare, 1), half, Phase(leg.To, RailSide.Left), Id(leg.To, RailSide.Left));
            rails.Rail(leg.Part(MovingShare, 1), -half, Phase(leg.To, RailSide.Right), Id(leg.To, RailSide.Right));
        }

        if (Frog(left, right) is { } frog) rails.Dot(frog, Math.Max(0.45, 0.4 * half), FrogLook.Of(turnout), $"{turnout.Id}/frog");
    }

    /// <summary>The inner rail of one leg: from the blade's tip to the heel.</summary>
    private void PaintInner(RailPainter rails, PieceLine leg, PieceLine other, RailSide side, RailPhase phase)
    {
        double offset = (side == RailSide.Left ? 1 : -1) * sheet.HalfGaugeMetres;
        ImmutableArray<PlanPoint> whole = OffsetLine.Of(leg.Points, offset);
        string id = Id(leg.To, side);
        if (OffsetLine.LastCrossing(whole, OffsetLine.Of(other.Points, -offset)) is not var (index, _, at))
        {
            rails.RailLine(whole, phase, id);
            return;
        }

        ImmutableArray<PlanPoint> blade = [.. whole.Take(index), at];
        double length = Polyline.Length(blade);
        if (length > 0) rails.RailLine(Polyline.Part(blade, BladeTip * length, length), BladePhase(phase), id);
        rails.RailLine([at, .. whole.Skip(index)], phase, id);
    }

    /// <summary>Blades and closure rails of a live frog follow the points even where the rails beyond the frog are fed.</summary>
    private RailPhase BladePhase(RailPhase beyond) => turnout.Frog != FrogKind.Live ? beyond
        : facts.Phases.AreThrown && _graph.NodeInside(turnout.Id, TrackworkTable.Frog) is { } frog ? facts.Phases[frog]
        : RailPhase.Switched;

    private void PaintThreeRail(RailPainter rails, PieceLine left, PieceLine right)
    {
        double half = sheet.HalfGauge;
        foreach (PieceLine leg in new[] { left, right })
        {
            rails.Rail(leg.Points, 0, Phase(leg.To, RailSide.Centre), Id(leg.To, RailSide.Centre));
            foreach (double offset in new[] { half, -half })
            {
                rails.Rail(leg.Points, offset, Phase(leg.To, RailSide.Running), Id(leg.To, RailSide.Running));
            }
        }
    }

    private void PaintTieBar(RailPainter rails, PieceLine left)
    {
        PlanPose tip = left.At(turnout.Stub ? MovingShare - 0.06 : 0.08);
        double reach = 1.5 * sheet.HalfGaugeMetres;
        rails.RailLine([tip.Beside(reach), tip.Beside(-reach)], RailPhase.Switched, turnout.Id.Name);
    }

    /// <summary>Where the inner rails of both legs cross.</summary>
    private PlanPoint? Frog(PieceLine left, PieceLine right) => OffsetLine.LastCrossing(
        OffsetLine.Of(left.Points, -sheet.HalfGaugeMetres), OffsetLine.Of(right.Points, sheet.HalfGaugeMetres))?.At;

    private PieceLine? LineTo(string leg) => facts.Geometry.LinesOf(turnout.Id).FirstOrDefault(line => line.To == leg);

    private RailPhase Phase(string end, RailSide side) => facts.Phases[_graph.NodeAt(new(turnout.End(end), side))];

    private string Id(string end, RailSide side) => new RailEnd(turnout.End(end), side).ToString();
}
