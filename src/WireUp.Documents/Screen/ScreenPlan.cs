using System.Collections.Immutable;
using WireUp.Documents.Drawings;
using WireUp.Documents.Geometry;
using WireUp.Documents.Phases;
using WireUp.Layouts;
using WireUp.Rails;

namespace WireUp.Documents;

/// <summary>
/// A plan to look at and to touch: drawn once like any sheet; then its rails are coloured anew as turnouts are thrown, paths are lit, and
/// the place under a finger is found. Everything it gives is in millimetres of <see cref="Scene"/>.
/// </summary>
public sealed class ScreenPlan
{
    private readonly PlanFacts _facts;
    private readonly PlanSheet _sheet;
    private readonly DrawingOptions _options;

    private ScreenPlan(PlanFacts facts, DrawingOptions options, DrawnSheet drawn) =>
        (_facts, _options, _sheet, Scene) = (facts, options, drawn.Plan, drawn.Scene);

    /// <summary>The drawing, without title and legend.</summary>
    public Scene Scene { get; }

    /// <summary>Whether lengths on it are only rough, because not every section has a path.</summary>
    public bool IsAutomatic => _facts.Geometry.Automatic;

    /// <summary>Draws a layout.</summary>
    /// <param name="layout">The layout; its joints name ends that exist, as a layout read without problems does.</param>
    /// <param name="options">How it is drawn.</param>
    /// <param name="cancellation">Stops a long drawing.</param>
    public static ScreenPlan Draw(Layout layout, DrawingOptions options, CancellationToken cancellation = default)
    {
        PlanGeometry geometry = options.Geometry ?? PlanGeometry.Of(layout, cancellation);
        DrawingOptions bare = options with { Layers = options.Layers & ~DrawingLayers.Legend, Geometry = geometry.Thinned() };
        PlanFacts facts = PlanFacts.Of(layout, bare, cancellation);
        return new(facts, bare, LayoutDrawing.Draw(facts, bare, cancellation));
    }

    /// <summary>
    /// The shapes of the layer <c>rails</c> of those pieces that look otherwise once everything that moves stands as given, before and now. Ids
    /// tell which shapes of the one take the place of which of the other; there may be more or fewer of them.
    /// </summary>
    /// <param name="before">Positions before; null where the rails are shown as drawn, for all positions at once.</param>
    /// <param name="now">Positions now, or null likewise.</param>
    public (ImmutableArray<Shape> Before, ImmutableArray<Shape> Now) RailsChanged(
        IReadOnlyDictionary<PieceId, string>? before, IReadOnlyDictionary<PieceId, string>? now)
    {
        (RailPhases old, RailPhases fresh) = (PhasesAt(before), PhasesAt(now));
        ImmutableArray<RailPoint> nodes = _facts.Phases.Graph.Nodes;
        HashSet<PieceId> changed = [.. Enumerable.Range(0, nodes.Length).Where(node => old[node] != fresh[node]).Select(node => nodes[node].Piece)];

        // Blades of live frogs are drawn by their frog once something stands, and as following the points before.
        if (old.AreThrown != fresh.AreThrown) changed.UnionWith(_facts.Layout.Track.Where(piece => piece is not (Piece.Section or Piece.Stop)).Select(piece => piece.Id));
        return (Paint(old, changed), Paint(fresh, changed));
    }

    /// <summary>A line over the rails along the path of a finding, in the layer <c>path</c>.</summary>
    /// <param name="path">Rail points and wires, as <see cref="Checking.Finding.Path"/> names them.</param>
    public ImmutableArray<Shape> Path(ImmutableArray<string> path) => new PathPainter(_facts, _sheet).Paint(path);

    /// <summary>
    /// One broad line along every way through every piece, in the layer <c>touch</c>: what a finger hits. Ids are names of pieces; trackwork lies
    /// over the sections that it meets.
    /// </summary>
    public ImmutableArray<Shape> Touch() =>
    [
        .. _facts.Geometry.Lines.OrderBy(line => _facts.Index.Piece(line.Piece) is not Piece.Section).Select(line => new Shape.Line(
            "touch", _sheet.Line(line.Points), false, ShapeStyle.Outline(SceneColours.Hair, Math.Max(4, 4 * _sheet.HalfGauge))) { Id = line.Piece.Name }),
    ];

    /// <summary>The signs that this drawing uses, explained, as a drawing of its own.</summary>
    /// <param name="widthMillimetres">Its width; the height follows.</param>
    public Scene Legend(double widthMillimetres)
    {
        LegendPainter legend = new(_facts, _options);
        double height = legend.Height(widthMillimetres - 2);
        SheetBuilder canvas = new();
        legend.Paint(canvas, new(1, 0, widthMillimetres - 1, height));
        return new(widthMillimetres, height, canvas.Shapes) { Title = "Legend" };
    }

    /// <summary>Where something lies that a finding or proposal names (<c>T1.points/left</c>, <c>loop@1.2 m</c>, <c>f3</c>), or null.</summary>
    public ScenePoint? Find(string words) => _facts.Places.Find(words) is { } pose ? _sheet.Point(pose.At) : null;

    /// <summary>The place of a section or moving bridge nearest to a point, or null where none is within reach.</summary>
    /// <param name="point">The point.</param>
    /// <param name="withinMillimetres">The reach.</param>
    public TrackPlace? Nearest(ScenePoint point, double withinMillimetres)
    {
        (TrackPlace Place, double Distance)? best = null;
        foreach (Piece piece in _facts.Layout.Track.Where(piece => piece.PlacesMetres is not null))
        {
            ImmutableArray<ScenePoint> line = _sheet.Line(_facts.Geometry.LinesOf(piece.Id)[0].Points);
            (double share, double distance) = NearestOn(line, point);
            if (distance <= withinMillimetres && (best is null || distance < best.Value.Distance))
            {
                best = (new(piece.Id, Math.Round(share * piece.PlacesMetres!.Value, 2)), distance);
            }
        }

        return best?.Place is { } found ? found with { MetresFromA = Math.Min(found.MetresFromA, _facts.Index.Piece(found.Section).PlacesMetres!.Value) } : null;
    }

    private ImmutableArray<Shape> Paint(RailPhases phases, IReadOnlySet<PieceId>? pieces)
    {
        SheetBuilder canvas = new();
        new RailPainter(_facts.With(phases), _sheet, canvas, null).Paint(pieces);
        return canvas.Shapes;
    }

    private RailPhases PhasesAt(IReadOnlyDictionary<PieceId, string>? positions) => positions is null ? _facts.Phases : _facts.Phases.Thrown(Standing(positions));

    private Dictionary<PieceId, string> Standing(IReadOnlyDictionary<PieceId, string> positions)
    {
        Dictionary<PieceId, string> all = [];
        foreach (PieceId owner in _facts.Phases.Graph.Links.OfType<RailLink.Contact>().Select(contact => contact.Piece).Distinct())
        {
            all[owner] = positions.TryGetValue(owner, out string? position) ? position : _facts.Phases.Graph.PositionsOf(owner).FirstOrDefault("");
        }

        return all;
    }

    private static (double Share, double Distance) NearestOn(ImmutableArray<ScenePoint> line, ScenePoint point)
    {
        (double at, double distance, double passed) = (0, double.PositiveInfinity, 0);
        for (int i = 1; i < line.Length; i++)
        {
            (ScenePoint a, ScenePoint b) = (line[i - 1], line[i]);
            double length = a.DistanceTo(b);
            double along = length > 0 ? ((((point.X - a.X) * (b.X - a.X)) + ((point.Y - a.Y) * (b.Y - a.Y))) / length) : 0;
            along = Math.Clamp(along, 0, length);
            double away = point.DistanceTo(length > 0 ? a.Towards(b, along / length) : a);
            if (away < distance) (at, distance) = (passed + along, away);
            passed += length;
        }

        return (passed > 0 ? at / passed : 0, distance);
    }
}
