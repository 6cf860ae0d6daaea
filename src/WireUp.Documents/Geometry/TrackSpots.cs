using WireUp.Layouts;

namespace WireUp.Documents.Geometry;

/// <summary>Numbers the spots where ends meet: two joined ends share one, an open end has its own. Numbered in the order of the file.</summary>
internal sealed class TrackSpots
{
    private readonly Dictionary<TrackEnd, int> _spots = [];

    /// <summary>Numbers every end of the layout.</summary>
    public TrackSpots(Layout layout)
    {
        var index = new LayoutIndex(layout);
        foreach (TrackEnd end in layout.Track.SelectMany(piece => piece.Ends))
        {
            if (_spots.ContainsKey(end)) continue;
            _spots[end] = Count;
            if (index.Opposite(end) is { } other) _spots[other] = Count;
            Count++;
        }
    }

    /// <summary>How many spots there are.</summary>
    public int Count { get; private set; }

    /// <summary>The spot of an end.</summary>
    public int this[TrackEnd end] => _spots[end];
}
