using System.Collections.Immutable;
using System.Diagnostics;
using WireUp.Documents.Phases;
using WireUp.Layouts;

namespace WireUp.Documents.Drawings;

/// <summary>Draws the rails of sections and crossings, buffer stops, and a fine tick where two sections meet.</summary>
internal sealed class RailPainter(PlanFacts facts, PlanSheet sheet, SheetBuilder canvas, LabelPlacer? labels)
{
    private const string Layer = "rails";
    private readonly bool _threeRail = facts.Layout.Control == ControlSystem.ThreeRail;

    /// <summary>Whether the rails are drawn fine and grey, all alike, as the ground of something else.</summary>
    public bool Quiet { get; init; }

    public void Paint()
    {
        foreach (Joint joint in facts.Layout.Joints) PaintJoint(joint);
        Paint(null);
    }

    /// <summary>Draws some pieces, all of them where null, and not the ticks between them.</summary>
    public void Paint(IReadOnlySet<PieceId>? pieces)
    {
        foreach (Piece piece in facts.Layout.Track.Where(piece => pieces?.Contains(piece.Id) != false))
        {
            switch (piece)
            {
                case Piece.Section section:
                    Between(section);
                    if (section.LiftOut) new LiftOutPainter(facts, sheet, this).Paint(section);
                    break;
                case Piece.MultiTurnout or Piece.Crossing or Piece.Slip or Piece.Scissors:
                    new TrackworkPainter(facts, sheet, piece, this).Paint();
                    break;
                case Piece.Turntable or Piece.TransferTable:
                    new TablePainter(facts, sheet, this).Paint(piece);
                    break;
                case Piece.Stop stop:
                    PaintStop(stop);
                    break;
                case Piece.Turnout turnout:
                    new TurnoutPainter(facts, sheet, turnout).Paint(this);
                    break;
                default:
                    throw new UnreachableException($"no way to draw {piece}");
            }
        }
    }

    /// <summary>Draws one rail and keeps labels off it.</summary>
    public void Rail(ImmutableArray<PlanPoint> centreLine, double millimetresLeft, RailPhase phase, string id) =>
        RailLine(OffsetLine.Of(centreLine, millimetresLeft / sheet.MillimetresPerMetre), phase, id);

    /// <summary>Draws a line of the plan as a rail.</summary>
    public void RailLine(ImmutableArray<PlanPoint> line, RailPhase phase, string id)
    {
        if (line.Length < 2) return;
        ImmutableArray<ScenePoint> points = sheet.Line(line);
        canvas.AddWithin(sheet.Window, new Shape.Line(Layer, points, false, Quiet ? RailLook.Quiet : RailLook.Of(phase)) { Id = id });
        labels?.KeepOff(points, 0.35);
    }

    /// <summary>Draws a line that is no rail: the edge of a pit, of a deck; labels cover it in need only.</summary>
    public void Edge(ImmutableArray<PlanPoint> line, ShapeStyle style, string id)
    {
        ImmutableArray<ScenePoint> points = sheet.Line(line);
        canvas.AddWithin(sheet.Window, new Shape.Line(Layer, points, false, style) { Id = id });
        labels?.Avoid(points);
    }

    /// <summary>Draws a small round sign on the track.</summary>
    public void Dot(PlanPoint at, double radius, ShapeStyle style, string id) =>
        canvas.AddWithin(sheet.Window, new Shape.Circle(Layer, sheet.Point(at), radius, style) { Id = id });

    /// <summary>Draws the rails of a section, or of a bridge, from one end to the other.</summary>
    public void Between(Piece section)
    {
        (RailSide first, RailSide second) = RailSides.Of(facts.Layout.Control);
        foreach (Stretch<RailPhase> stretch in Stretches.OfRail(facts, section.Id, true))
        {
            Conductor(Stretches.Line(facts, section.Id, stretch), first, stretch.Value, section.Id);
        }

        foreach (Stretch<RailPhase> stretch in Stretches.OfRail(facts, section.Id, false))
        {
            Conductor(Stretches.Line(facts, section.Id, stretch), second, stretch.Value, section.Id);
        }
    }

    /// <summary>Draws both rails of the track that leaves by an end, along a line towards it.</summary>
    public void Road(Piece piece, string end, ImmutableArray<PlanPoint> line)
    {
        (RailSide first, RailSide second) = RailSides.Of(facts.Layout.Control);
        Conductor(line, first, PhaseAt(piece.End(end), first), piece.Id);
        Conductor(line, second, PhaseAt(piece.End(end), second), piece.Id);
    }

    /// <summary>The rails of one conductor along a centre line, seen in its direction.</summary>
    private void Conductor(ImmutableArray<PlanPoint> line, RailSide side, RailPhase phase, PieceId piece)
    {
        string id = $"{piece}/{RailSides.Word(side)}";
        foreach (double offset in Offsets(side)) Rail(line, offset * sheet.HalfGauge, phase, id);
    }

    private static double[] Offsets(RailSide side) => side switch
    {
        RailSide.Left => [1],
        RailSide.Right => [-1],
        RailSide.Centre => [0],
        _ => [1, -1],
    };

    private RailPhase PhaseAt(TrackEnd end, RailSide side) => facts.Phases[facts.Phases.Graph.NodeAt(new(end, side))];

    private void PaintStop(Piece.Stop stop)
    {
        if (facts.Places.OfEnd(stop.End("a")) is not { } pose) return;
        double half = sheet.HalfGauge + 0.7;
        ImmutableArray<ScenePoint> bar = [sheet.Beside(pose, half), sheet.Beside(pose, -half)];
        canvas.AddWithin(sheet.Window, new Shape.Line(Layer, bar, false, ShapeStyle.Outline(SceneColours.Ink, 0.7)) { Id = stop.Id.Name });
        labels?.KeepOff(bar, 0.5);
    }

    private void PaintJoint(Joint joint)
    {
        if (facts.Index.Piece(joint.First.Piece) is Piece.Stop || facts.Index.Piece(joint.Second.Piece) is Piece.Stop) return;
        if (facts.Places.OfEnd(joint.First) is not { } pose) return;
        double half = sheet.HalfGauge + (_threeRail ? 0.5 : 0.35);
        ImmutableArray<ScenePoint> tick = [sheet.Beside(pose, half), sheet.Beside(pose, -half)];
        canvas.AddWithin(sheet.Window, new Shape.Line(Layer, tick, false, ShapeStyle.Outline(SceneColours.Quiet, 0.13)));
    }
}
