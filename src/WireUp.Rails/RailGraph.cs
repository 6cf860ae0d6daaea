using System.Collections.Frozen;
using System.Collections.Immutable;
using WireUp.Layouts;

namespace WireUp.Rails;

/// <summary>
/// Every rail of a layout as a graph: nodes are rail points, links are what conducts. Gaps and insulated joints are the links
/// that are not there. Wiring is not in it: feeders only make their places into nodes.
/// </summary>
public sealed class RailGraph
{
    private readonly FrozenDictionary<RailEnd, int> _ends;
    private readonly FrozenDictionary<PieceId, ImmutableArray<Station>> _stations;
    private readonly FrozenDictionary<(PieceId, string), int> _inside;
    private readonly FrozenDictionary<(string, Leg), int> _wires;

    private RailGraph(RailGraphBuilder built)
    {
        Index = built.Index;
        Nodes = [.. built.Nodes];
        Links = [.. built.Links];
        _ends = built.Ends.ToFrozenDictionary();
        _stations = built.Stations.ToFrozenDictionary();
        _inside = built.Inside.ToFrozenDictionary();
        _wires = built.Wires.ToFrozenDictionary();
    }

    /// <summary>The layout and its look-ups.</summary>
    public LayoutIndex Index { get; }

    /// <summary>The layout.</summary>
    public Layout Layout => Index.Layout;

    /// <summary>Every rail point; a node is its index here.</summary>
    public ImmutableArray<RailPoint> Nodes { get; }

    /// <summary>Everything that conducts, always or in some position.</summary>
    public ImmutableArray<RailLink> Links { get; }

    /// <summary>Builds the graph of a layout.</summary>
    /// <param name="layout">The layout.</param>
    /// <param name="places">Further places that must be nodes (loads, probes); those of feeders and gaps always are.</param>
    /// <exception cref="ArgumentOutOfRangeException">A place lies outside its section.</exception>
    public static RailGraph Build(Layout layout, IEnumerable<TrackPlace>? places = null) =>
        new(new RailGraphBuilder(new LayoutIndex(layout), places ?? []).Build());

    /// <summary>The node of a rail at an end.</summary>
    public int NodeAt(RailEnd end) => _ends[end];

    /// <summary>The node of a conductor inside a piece, or null where the piece has none of that name.</summary>
    public int? NodeInside(PieceId piece, string name) => _inside.TryGetValue((piece, name), out int node) ? node : null;

    /// <summary>The node of a feeder's wire before the contact that connects it to the rails, or null where no contact does.</summary>
    public int? NodeOfWire(string feeder, Leg leg) => _wires.TryGetValue((feeder, leg), out int node) ? node : null;

    /// <summary>The positions of a piece or hand switch, the one it stands in unless told otherwise first; empty where nothing moves.</summary>
    public ImmutableArray<string> PositionsOf(PieceId owner) => Index.FindPiece(owner) is { } piece
        ? PiecePositions.Of(piece)
        : Layout.Wiring.Switches.Where(item => item.Name == owner).Select(item => item.Positions).FirstOrDefault([]);

    /// <summary>The stations of a section from end a to end b, of a bridge from head to tail: both ends and every gap, feeder and asked place between.</summary>
    public ImmutableArray<Station> Stations(PieceId section) => _stations[section];

    /// <summary>The station at a place that was a feeder, a gap, an end or an asked place when the graph was built.</summary>
    /// <exception cref="KeyNotFoundException">The place is no station.</exception>
    public Station StationAt(TrackPlace place)
    {
        foreach (Station station in _stations[place.Section])
        {
            if (Math.Abs(station.Metres - place.MetresFromA) <= RailGraphBuilder.SamePlaceMetres)
            {
                return station;
            }
        }

        throw new KeyNotFoundException($"'{place}' is no station of the graph");
    }
}

/// <summary>
/// A place of a section where something happens, with its nodes. First and second conductor are left and right seen from a
/// towards b (centre and running on three-rail track). Where a conductor has a gap here, its node towards a differs from that towards b.
/// </summary>
/// <param name="Metres">Distance from end a.</param>
/// <param name="FirstTowardsA">Node of the first conductor on a's side.</param>
/// <param name="FirstTowardsB">Node of the first conductor on b's side.</param>
/// <param name="SecondTowardsA">Node of the second conductor on a's side.</param>
/// <param name="SecondTowardsB">Node of the second conductor on b's side.</param>
public readonly record struct Station(double Metres, int FirstTowardsA, int FirstTowardsB, int SecondTowardsA, int SecondTowardsB);
