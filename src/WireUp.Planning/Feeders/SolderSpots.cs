using WireUp.Layouts;
using WireUp.Layouts.Plans;

namespace WireUp.Planning.Feeders;

/// <summary>Where the person lets feeders be soldered: not on pieces where none is wanted, and not where no hand comes to from below.</summary>
/// <param name="layout">The layout.</param>
internal sealed class SolderSpots(Layout layout)
{
    private readonly Areas _outOfReach = new(layout.Benchwork.OutOfReach);
    private readonly TrackPaths? _paths = layout.Benchwork.OutOfReach.IsEmpty ? null : new(layout);
    private readonly HashSet<PieceId> _noFeeder = [.. layout.NoFeeder];

    /// <summary>Whether some part of a piece may take a feeder.</summary>
    public bool On(Piece piece) => !_noFeeder.Contains(piece.Id) && piece switch
    {
        _ when _outOfReach.Outlines.IsEmpty => true,
        Piece.Section section => !TrackPaths.WithinReach(section, _outOfReach).IsEmpty,
        _ => IsWithinReach(new(piece.Id, 0)),
    };

    /// <summary>Whether a hand comes to a place from below.</summary>
    public bool IsWithinReach(TrackPlace place) =>
        _paths?.PointAt(place) is not { } point || _outOfReach.At(point) is null;

    /// <summary>The parts of a length of track within reach.</summary>
    /// <param name="piece">Its piece, one that may take a feeder.</param>
    /// <param name="span">The length.</param>
    public IEnumerable<FeedSpan> Within(Piece piece, FeedSpan span)
    {
        if (_outOfReach.Outlines.IsEmpty || piece is not Piece.Section section)
        {
            return [span];
        }

        return TrackPaths.WithinReach(section, _outOfReach)
            .Select(part => span with { FromMetres = Math.Max(span.FromMetres, part.FromMetres), ToMetres = Math.Min(span.ToMetres, part.ToMetres) })
            .Where(part => part.ToMetres >= part.FromMetres);
    }
}
