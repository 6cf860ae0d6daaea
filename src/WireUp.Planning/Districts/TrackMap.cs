using System.Collections.Frozen;
using System.Collections.Immutable;
using WireUp.Layouts;
using WireUp.Rails;

namespace WireUp.Planning.Districts;

/// <summary>A part of the track that is not cut inside: a length of section between gaps, a turnout, one track of a crossing, a stop.</summary>
/// <param name="Index">Its number in the map.</param>
/// <param name="Piece">The piece.</param>
/// <param name="FromMetres">Of a section: where it begins, from end a; else 0.</param>
/// <param name="ToMetres">Of a section: where it ends; else the piece's length.</param>
/// <param name="Ends">The ends of the piece that lie on it.</param>
/// <param name="IsPlain">Whether it is a length of section.</param>
internal sealed record TrackSpot(
    int Index, PieceId Piece, double FromMetres, double ToMetres, ImmutableArray<TrackEnd> Ends, bool IsPlain)
{
    public double LengthMetres => ToMetres - FromMetres;
}

/// <summary>Two spots that meet in a joint which does not part them.</summary>
internal readonly record struct SpotLink(int From, TrackEnd FromEnd, int To, TrackEnd ToEnd);

/// <summary>
/// The track as territory: spots, how they hang together, and the zones they form. Two zones meet only in cuts that part them:
/// gaps in both rails, or in the centre conductor of three-rail track. A zone can be fed by one supply only.
/// </summary>
internal sealed class TrackMap
{
    private readonly FrozenDictionary<TrackEnd, int> _byEnd;
    private readonly FrozenDictionary<PieceId, ImmutableArray<TrackSpot>> _byPiece;
    private readonly int[] _zones;

    private TrackMap(LayoutIndex index, ImmutableArray<TrackSpot> spots)
    {
        (Index, Spots) = (index, spots);
        _byEnd = spots.SelectMany(spot => spot.Ends.Select(end => (end, spot.Index))).ToFrozenDictionary(pair => pair.end, pair => pair.Index);
        _byPiece = spots.GroupBy(spot => spot.Piece).ToFrozenDictionary(group => group.Key, group => group.ToImmutableArray());
        Links = [.. index.Layout.Joints
            .Where(joint => !Parts(index.Layout.Control, index.OpenRails(joint.First)))
            .Select(joint => new SpotLink(_byEnd[joint.First], joint.First, _byEnd[joint.Second], joint.Second))];
        DisjointSetsWorkspace zones = new(spots.Length);
        foreach (SpotLink link in Links)
        {
            zones.Join(link.From, link.To);
        }

        _zones = zones.Numbers();
        ZoneCount = _zones.Length == 0 ? 0 : _zones.Max() + 1;
    }

    public LayoutIndex Index { get; }

    public ImmutableArray<TrackSpot> Spots { get; }

    public ImmutableArray<SpotLink> Links { get; }

    /// <summary>Zones are numbered from 0 in the order of the track.</summary>
    public int ZoneCount { get; }

    public int ZoneOf(int spot) => _zones[spot];

    public int SpotOf(TrackEnd end) => _byEnd[end];

    /// <summary>The spots of a piece, in order from end a.</summary>
    public ImmutableArray<TrackSpot> SpotsOf(PieceId piece) => _byPiece[piece];

    /// <summary>The spot at a place; at a cut, the one towards end a.</summary>
    public TrackSpot SpotAt(TrackPlace place) => _byPiece[place.Section].First(spot => place.MetresFromA <= spot.ToMetres + 1e-6);

    public IEnumerable<TrackSpot> SpotsIn(int zone) => Spots.Where(spot => _zones[spot.Index] == zone);

    public static TrackMap Of(Layout layout)
    {
        LayoutIndex index = new(layout);
        ILookup<PieceId, double> cuts = Cuts(layout);
        List<TrackSpot> spots = [];
        foreach (Piece piece in layout.Track)
        {
            spots.AddRange(piece is Piece.Section section
                ? Lengths(section, cuts[piece.Id], spots.Count)
                : Groups(piece, layout.Control).Select((ends, i) => new TrackSpot(spots.Count + i, piece.Id, 0, LengthOf(piece), ends, false)));
        }

        return new(index, [.. spots.Select((spot, i) => spot with { Index = i })]);
    }

    private static bool Parts(ControlSystem control, RailSet open) =>
        control == ControlSystem.ThreeRail ? open.Holds(RailSide.Centre) : open == RailSet.Both;

    private static ILookup<PieceId, double> Cuts(Layout layout) =>
        (from gap in layout.Wiring.Gaps
         where gap.At is GapPlace.InSection
         let place = ((GapPlace.InSection)gap.At).Place
         group gap.Rails by (place.Section, Metres: Math.Round(place.MetresFromA, 6)) into rails
         where Parts(layout.Control, rails.Aggregate(RailSet.None, (all, one) => all | one))
         select rails.Key).ToLookup(key => key.Section, key => key.Metres);

    private static IEnumerable<TrackSpot> Lengths(Piece.Section section, IEnumerable<double> cuts, int first)
    {
        double length = section.Length.Meters;
        double[] marks = [0, .. cuts.Where(metres => metres > 1e-6 && metres < length - 1e-6).Order(), length];
        for (int i = 1; i < marks.Length; i++)
        {
            IEnumerable<TrackEnd> ends = section.Ends.Where(end => end.Name == "a" ? i == 1 : i == marks.Length - 1);
            yield return new(first + i - 1, section.Id, marks[i - 1], marks[i], [.. ends], true);
        }
    }

    /// <summary>The ends of a piece that trains, and so supplies, tie together: all of a turnout, each track of a crossing for itself.</summary>
    private static IEnumerable<ImmutableArray<TrackEnd>> Groups(Piece piece, ControlSystem control)
    {
        ImmutableArray<DrivableWay> ways = TrackworkTable.Of(piece, control).Ways;
        DisjointSetsWorkspace groups = new(piece.EndNames.Length);
        foreach (DrivableWay way in ways)
        {
            groups.Join(piece.EndNames.IndexOf(way.From), piece.EndNames.IndexOf(way.To));
        }

        int[] numbers = groups.Numbers();
        return piece.EndNames.Select((name, i) => (End: piece.End(name), Group: numbers[i]))
            .GroupBy(pair => pair.Group, pair => pair.End)
            .Select(group => group.ToImmutableArray());
    }

    private static double LengthOf(Piece piece) => piece switch
    {
        Piece.Section section => section.Length.Meters,
        Piece.Turnout turnout => turnout.Length?.Meters ?? 0,
        Piece.Crossing crossing => crossing.Length?.Meters ?? 0,
        _ => 0,
    };
}
