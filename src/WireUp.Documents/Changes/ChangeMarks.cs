using System.Collections.Immutable;
using WireUp.Documents.Drawings;
using WireUp.Documents.Geometry;
using WireUp.Layouts;

namespace WireUp.Documents.Changes;

/// <summary>Draws what differs over a quiet plan, each thing with its letter and name.</summary>
internal sealed class ChangeMarks(PlanFacts facts, PlanSheet sheet, ImmutableArray<Change> changes) : IUnderlay
{
    private const string Layer = "changes";
    private static readonly LabelLook Context = new(Layer, 1.7, SceneColours.Quiet) { Optional = true };
    private readonly HashSet<PieceId> _marked = [.. changes.Select(change => change.Difference?.Piece).OfType<PieceId>()];
    private SheetBuilder? _canvas;

    /// <summary>Whether names are left out where they have no room beside what they name.</summary>
    public bool OnlyWhereFree { get; init; }

    /// <inheritdoc/>
    public void Paint(SheetBuilder canvas)
    {
        _canvas = canvas;
        foreach (Change change in changes.Where(change => change.Difference?.Part == LayoutPart.Track && change.Kind != DifferenceKind.Renamed))
        {
            foreach (PieceLine line in facts.Geometry.LinesOf(change.Difference!.Piece!.Value)) PaintTrack(change, line);
        }

        foreach ((Change change, BusRoute route) in Runs())
        {
            ImmutableArray<ScenePoint> line = BusPainter.Line(facts, sheet, route);
            if (line.Length > 1) canvas.AddWithin(sheet.Window, new Shape.Line(Layer, line, false, ChangeLook.Of(change.Kind).Line(0.6)) { Id = change.Name });
        }
    }

    /// <inheritdoc/>
    public void Label(LabelWriter writer)
    {
        foreach (Change change in changes.Where(change => change.Difference is not null)) Label(writer, change, change.Difference!);
        foreach (IGrouping<(string Line, string Sign), (Change Change, BusRoute Route)> line in Runs().GroupBy(run => (run.Route.Line, run.Change.Sign))) LabelBus(writer, line);
        foreach (Piece piece in facts.Layout.Track.Where(piece => piece is not Piece.Stop && !_marked.Contains(piece.Id)))
        {
            writer.Write(piece.Id.Name, piece.Id.Name, Context, [.. facts.Geometry.LinesOf(piece.Id).SelectMany(line => writer.BothSides(line.At(0.5), sheet.HalfGauge + 0.8))]);
        }
    }

    private void Label(LabelWriter writer, Change change, LayoutDifference difference)
    {
        switch (difference.Part)
        {
            case LayoutPart.Track when facts.Index.FindPiece(difference.Piece!.Value) is { } piece && facts.Places.MiddleOf(piece) is { } middle:
                writer.Write($"{change.Sign} {change.Name}", change.Name, Look(change), [.. writer.BothSides(middle, sheet.HalfGauge + 1.6)]);
                break;
            case LayoutPart.Joint when difference.At is GapPlace.InJoint { End: var end } && !IsAtMarkedTrack(end) && facts.Places.OfEnd(end) is { } pose:
                PaintRing(change, pose, 1.1);
                writer.Write(change.Sign, change.Name, Look(change), [.. writer.BothSides(pose, sheet.HalfGauge + 1.3)]);
                break;
            case LayoutPart.Gap when GapPose(difference.At!) is { } pose:
                PaintRing(change, pose, 1.3);
                writer.Write($"{change.Sign} {GapLabel(difference.At!)}", change.Name, Look(change), [.. writer.BothSides(pose, sheet.HalfGauge + 1.5)]);
                break;
            case LayoutPart.Feeder when FeederPlace(difference) is { } place:
                LabelFeeder(writer, change, facts.Geometry.PointAt(place));
                break;
            case LayoutPart.Booster when facts.Layout.Wiring.Boosters.FirstOrDefault(booster => booster.Name == change.Name) is { } booster:
                LabelBooster(writer, change, booster);
                break;
            default:
                break;
        }
    }

    private void PaintTrack(Change change, PieceLine line)
    {
        foreach (ImmutableArray<ScenePoint> part in Clip.Line(sheet.Line(line.Points), sheet.Window))
        {
            foreach (Shape side in ChangeLook.Of(change.Kind).Sides(change.Name, part, sheet.HalfGauge + 0.7)) _canvas!.Add(side);
        }
    }

    private void LabelFeeder(LabelWriter writer, Change change, PlanPose pose)
    {
        double tail = sheet.HalfGauge + Math.Clamp(0.3 * sheet.Spacing, 0.9, 2.2);
        if (!sheet.Window.Holds(sheet.Point(pose.At))) return;
        LabelPlace? place = writer.Write($"{change.Sign} {change.Name}", change.Name, Look(change), [.. writer.BothSides(pose, tail + 0.9)]);
        bool left = place is not { } placed || placed.Anchor.At == writer.Side(pose, tail + 0.9).At;
        ScenePoint end = sheet.Beside(pose, left ? tail : -tail), near = sheet.Beside(pose, left ? -sheet.HalfGauge : sheet.HalfGauge);
        ChangeLook look = ChangeLook.Of(change.Kind);
        _canvas!.Add(new Shape.Line(Layer, [near, end], false, ShapeStyle.Outline(look.Colour, 0.35)) { Id = change.Name });
        _canvas.Add(new Shape.Circle(Layer, end, 0.75, look.Line(0.35) with { Fill = SceneColours.Paper }) { Id = change.Name });
        writer.KeepOff([near, end], 0.7);
    }

    private void LabelBooster(LabelWriter writer, Change change, Booster booster)
    {
        if (BusPoints.Where(booster, facts.Layout, facts.Geometry) is not { } where || !sheet.Window.Holds(sheet.Point(where))) return;
        ScenePoint at = sheet.Point(where);
        _canvas!.Add(new Shape.Circle(Layer, at, 1.2, ChangeLook.Of(change.Kind).Line() with { Fill = SceneColours.Paper }) { Id = change.Name });
        writer.Write($"{change.Sign} {change.Name}", change.Name, Look(change) with { Size = 2.2 }, [new(new(at.X, at.Y - 1.3), 0, -1), new(new(at.X, at.Y + 1.3), 0, 1)]);
    }

    private void LabelBus(LabelWriter writer, IEnumerable<(Change Change, BusRoute Route)> line)
    {
        (Change change, BusRoute first) = line.First();
        ImmutableArray<ScenePoint> longest = line.Select(run => BusPainter.Line(facts, sheet, run.Route)).MaxBy(points => points.Length)!;
        if (longest.Length < 2 || BusPainter.MiddleInWindow(longest, sheet.Window) is not var (at, x, y)) return;
        writer.Write(
            $"{change.Sign} {first.Line} · {PlaceWords.Size(first.Run.Wire)}",
            change.Name,
            Look(change) with { Framed = false },
            [new(new(at.X + (0.6 * y), at.Y - (0.6 * x)), y, -x), new(new(at.X - (0.6 * y), at.Y + (0.6 * x)), -y, x)]);
    }

    private void PaintRing(Change change, PlanPose pose, double radius)
    {
        ScenePoint at = sheet.Point(pose.At);
        if (sheet.Window.Holds(at)) _canvas!.Add(new Shape.Circle(Layer, at, sheet.HalfGauge + (radius - 0.6), ChangeLook.Of(change.Kind).Line(0.4)) { Id = change.Name });
    }

    private IEnumerable<(Change Change, BusRoute Route)> Runs()
    {
        ILookup<string, BusRoute> routes = facts.Routes.ToLookup(route => $"{route.District}: {route.Run.From} > {route.Run.To}");
        return changes.Where(change => change.Difference?.Part == LayoutPart.BusRun).SelectMany(change => routes[change.Name], (change, route) => (change, route));
    }

    private TrackPlace? FeederPlace(LayoutDifference difference)
    {
        Feeder? feeder = facts.Layout.Wiring.Feeders.FirstOrDefault(feeder => feeder.Name == difference.Name);
        return feeder?.At;
    }

    private PlanPose? GapPose(GapPlace place) => place switch
    {
        GapPlace.InSection within when facts.Index.FindPiece(within.Place.Section) is not null => facts.Geometry.PointAt(within.Place),
        GapPlace.InJoint joint when facts.Index.FindPiece(joint.End.Piece) is not null => facts.Places.OfEnd(joint.End),
        _ => null,
    };

    private string GapLabel(GapPlace place) => facts.Layout.Wiring.Gaps.Index().Where(gap => gap.Item.At == place).Select(gap => facts.Gaps[gap.Index].Label).FirstOrDefault("gap");

    private bool IsAtMarkedTrack(TrackEnd end) => _marked.Contains(end.Piece) || (facts.Index.Opposite(end) is { } other && _marked.Contains(other.Piece));

    private LabelLook Look(Change change) => new(Layer, 1.9, SceneColours.Ink) { Framed = true, Bold = true, Optional = OnlyWhereFree, Reversed = change.Kind == DifferenceKind.Removed };
}
