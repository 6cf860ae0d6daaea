using System.Collections.Frozen;
using System.Collections.Immutable;
using WireUp.Layouts;
using WireUp.Layouts.Plans;

namespace WireUp.Documents.Geometry;

/// <summary>
/// Where every piece of a layout lies on paper: centre lines, places and ends, in metres, x to the right and y upward, seen from
/// above. When every section has a path, the paths are followed. Otherwise the whole plan is drawn automatically: true as to
/// what joins what and to which hand each turnout leads, lengths kept only roughly, the same lines on every run.
/// </summary>
public sealed class PlanGeometry
{
    private readonly FrozenDictionary<PieceId, ImmutableArray<PieceLine>> _linesOf;
    private readonly FrozenDictionary<PieceId, double> _lengths;
    private readonly LayoutIndex _index;

    private PlanGeometry(Layout layout, PlanDrawing drawing)
    {
        _index = new(layout);
        Lines = drawing.Lines;
        Automatic = drawing.Automatic;
        SpacingMetres = drawing.SpacingMetres;
        Bridges = drawing.Bridges;
        IEnumerable<PlanPoint> benchwork = drawing.Automatic ? [] : layout.Benchwork.Corridors.SelectMany(corridor => corridor.Path)
            .Concat(layout.Benchwork.Boards.Concat(layout.Benchwork.OutOfReach).SelectMany(outline => outline.Corners));
        Bounds = PlanBox.Around(Lines.SelectMany(line => line.Points).Concat(benchwork));
        _linesOf = ByPiece(Lines);
        _lengths = layout.Track.Where(piece => piece.PlacesMetres is not null).ToFrozenDictionary(piece => piece.Id, piece => piece.PlacesMetres!.Value);
    }

    private PlanGeometry(PlanGeometry exact, ImmutableArray<PieceLine> lines)
    {
        (_index, _lengths, Automatic, SpacingMetres, Bridges, Bounds) = (exact._index, exact._lengths, exact.Automatic, exact.SpacingMetres, exact.Bridges, exact.Bounds);
        Lines = lines;
        _linesOf = ByPiece(lines);
    }

    /// <summary>The centre line of every way through every piece, pieces in the order of the file. A buffer stop has none.</summary>
    public ImmutableArray<PieceLine> Lines { get; }

    /// <summary>The smallest box around all centre lines and the benchwork.</summary>
    public PlanBox Bounds { get; }

    /// <summary>Whether the plan was drawn automatically because not every section has a path.</summary>
    public bool Automatic { get; }

    /// <summary>
    /// The distance between neighbouring tracks that the plan keeps where it can, in metres of the plan. Rails drawn a sixth of
    /// it to either side of the centre line stay clear of the next track.
    /// </summary>
    public double SpacingMetres { get; }

    /// <summary>Places where an automatic drawing had to lead one track across another that it does not meet; often a bridge.</summary>
    public ImmutableArray<PlanPoint> Bridges { get; }

    /// <summary>Finds the lines of a layout.</summary>
    /// <param name="layout">The layout; joints must name ends that exist, as a layout read without problems does.</param>
    /// <param name="cancellation">Stops a long drawing.</param>
    public static PlanGeometry Of(Layout layout, CancellationToken cancellation = default) =>
        new(layout, TrackPaths.Cover(layout) ? PlanFromPaths.Draw(layout) : AutomaticPlan.Draw(layout, cancellation));

    /// <summary>The same lines with fewer points, for a screen: none that is left out lies farther off than a 250th of the distance between tracks.</summary>
    public PlanGeometry Thinned() => new(this, [.. Lines.Select(line => line with { Points = Polyline.Thinned(line.Points, SpacingMetres / 250) })]);

    /// <summary>
    /// The lines of one piece: one for a section, one for each way through trackwork, none for a stop. Of a turntable or transfer table
    /// first its bridge, from <c>head</c> to <c>tail</c>, then one from the <c>pivot</c> to each road that is used.
    /// </summary>
    public ImmutableArray<PieceLine> LinesOf(PieceId piece) => _linesOf.TryGetValue(piece, out var lines) ? lines : [];

    /// <summary>A place of a section or bridge on the centre line, looking from a to b or head to tail: the section's left rail is to the left.</summary>
    public PlanPose PointAt(TrackPlace place)
    {
        double length = _lengths[place.Section];
        return _linesOf[place.Section][0].At(length > 0 ? place.MetresFromA / length : 0);
    }

    /// <summary>An end of a piece, looking out of the piece. The end of a stop looks at the track it ends.</summary>
    /// <exception cref="ArgumentException">The piece has no such end, or is a stop joined to nothing.</exception>
    public PlanPose EndAt(TrackEnd end)
    {
        foreach (PieceLine line in LinesOf(end.Piece))
        {
            if (line.To == end.Name) return line.At(1);
            if (line.From == end.Name) return line.At(0).Reversed;
        }

        return _index.Opposite(end) is { } other && _linesOf.ContainsKey(other.Piece)
            ? EndAt(other).Reversed
            : throw new ArgumentException($"\"{end}\" is not on the plan", nameof(end));
    }

    private static FrozenDictionary<PieceId, ImmutableArray<PieceLine>> ByPiece(ImmutableArray<PieceLine> lines) =>
        lines.GroupBy(line => line.Piece).ToFrozenDictionary(group => group.Key, group => group.ToImmutableArray());
}
