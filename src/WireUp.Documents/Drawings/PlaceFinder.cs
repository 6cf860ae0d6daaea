using System.Collections.Frozen;
using System.Globalization;
using WireUp.Documents.Geometry;
using WireUp.Layouts;

namespace WireUp.Documents.Drawings;

/// <summary>Finds on paper what findings and proposals name in words: <c>T1.points/left</c>, <c>loop@1.2 m</c>, <c>f3</c>, <c>T1</c>.</summary>
internal sealed class PlaceFinder
{
    private readonly PlanGeometry _geometry;
    private readonly FrozenDictionary<string, Piece> _pieces;
    private readonly FrozenDictionary<string, TrackEnd> _ends;
    private readonly FrozenDictionary<string, TrackPlace> _feeders;

    public PlaceFinder(Layout layout, PlanGeometry geometry)
    {
        _geometry = geometry;
        _pieces = layout.Track.ToFrozenDictionary(piece => piece.Id.Name);
        _ends = layout.Track.SelectMany(piece => piece.Ends).ToFrozenDictionary(end => end.ToString());
        _feeders = layout.Wiring.Feeders.DistinctBy(feeder => feeder.Name).ToFrozenDictionary(feeder => feeder.Name, feeder => feeder.At);
    }

    /// <summary>The place on the centre line, or null where the words name no place of the plan.</summary>
    public PlanPose? Find(string words)
    {
        string place = words.Split('/')[0];
        if (_ends.TryGetValue(place, out TrackEnd end)) return OfEnd(end);
        if (_pieces.TryGetValue(place, out Piece? piece)) return MiddleOf(piece);
        if (_feeders.TryGetValue(place, out TrackPlace fed)) return _geometry.PointAt(fed);
        return OnSection(place);
    }

    /// <summary>The middle of a piece; null for a stop that is joined to nothing.</summary>
    public PlanPose? MiddleOf(Piece piece) => _geometry.LinesOf(piece.Id) is { IsEmpty: false } lines
        ? lines[0].At(0.5)
        : OfEnd(piece.Ends.First());

    /// <summary>An end, unless it is that of a stop joined to nothing.</summary>
    public PlanPose? OfEnd(TrackEnd end)
    {
        try
        {
            return _geometry.EndAt(end);
        }
        catch (ArgumentException)
        {
            return null;
        }
    }

    private PlanPose? OnSection(string place)
    {
        int at = place.LastIndexOf('@');
        if (at < 0 || !_pieces.TryGetValue(place[..at], out Piece? piece) || piece.PlacesMetres is not { } length) return null;
        string number = place[(at + 1)..].TrimEnd('m', ' ', '+', '-');
        return double.TryParse(number, NumberStyles.Float, CultureInfo.InvariantCulture, out double metres)
            ? _geometry.PointAt(new(piece.Id, Math.Clamp(metres, 0, length)))
            : null;
    }
}
