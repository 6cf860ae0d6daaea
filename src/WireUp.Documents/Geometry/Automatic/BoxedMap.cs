using System.Collections.Immutable;

namespace WireUp.Documents.Geometry.Automatic;

/// <summary>The parts of one box on squared paper.</summary>
/// <param name="Corners">Its four corners: behind a track to the right, then counter-clockwise.</param>
/// <param name="Ports">For each arm the node at which its track enters the box.</param>
internal sealed record MapBox(ImmutableArray<int> Corners, ImmutableArray<int> Ports);

/// <summary>
/// A map for squared paper, on which no more than four lines meet at a point: trackwork with more arms, or with arms side by
/// side, becomes a box with its tracks entering through the sides. The first nodes and edges keep their numbers.
/// </summary>
/// <param name="Map">The map with boxes.</param>
/// <param name="Lengths">Wanted length of each of its edges.</param>
/// <param name="Boxes">The box of each node of the map without boxes, or null.</param>
/// <remarks>
/// Source of the idea: R. Tamassia, G. Di Battista, C. Batini, Automatic graph drawing and readability of diagrams, IEEE Trans.
/// SMC 18, 1988.
/// </remarks>
internal sealed record BoxedMap(PlanarMap Map, double[] Lengths, ImmutableArray<MapBox?> Boxes)
{
    /// <summary>Run number of the sides of boxes.</summary>
    public const int NoRun = -1;

    /// <summary>Puts boxes into a map.</summary>
    public static BoxedMap Of(PlanarMap map, double[] lengths) => map.Nodes.All(node => node.Kind != NodeKind.Box)
        ? new(map, lengths, [.. new MapBox?[map.Nodes.Length]])
        : new BoxedMapBuilder(map, lengths).Build();
}

/// <summary>Puts boxes into a map.</summary>
internal sealed class BoxedMapBuilder(PlanarMap map, double[] lengths)
{
    // What the paper keeps between two things besides the room they ask for, and room in front of a port.
    private const double Clearance = 0.4, PortRoom = 0.4, Shortest = 0.5;

    private readonly List<MapNode> _nodes = [.. map.Nodes];
    private readonly List<MapEdge> _edges = [.. map.Edges];
    private readonly List<double> _lengths = [.. lengths];

    public BoxedMap Build()
    {
        MapBox?[] boxes = [.. map.Nodes.Select((node, i) => node.Kind == NodeKind.Box ? Box(i) : null)];
        return new(new([.. _nodes], [.. _edges], map.EdgesOfRun), [.. _lengths], [.. boxes]);
    }

    /// <summary>Corners and ports counter-clockwise around the body, each with the sides of the box that leave it.</summary>
    private MapBox Box(int node)
    {
        (MapNode whole, TrackBody body) = (map.Nodes[node], TrackBody.Of(map.Nodes[node]));
        (int? Arm, double Along)[] round = [.. Round(body)];
        int[] nodes = [.. round.Select((_, i) => i == 0 ? node : NewNode())];
        int first = _edges.Count;
        double[] sides = [.. round.Select((part, i) => Math.Max(Shortest, (i + 1 < round.Length ? round[i + 1].Along : Perimeter(body)) - part.Along))];
        for (int i = 0; i < round.Length; i++)
        {
            _edges.Add(new(BoxedMap.NoRun, nodes[i], nodes[(i + 1) % nodes.Length]));
            _lengths.Add(sides[i]);
        }

        for (int i = 0; i < round.Length; i++)
        {
            int before = (i + round.Length - 1) % round.Length;
            (int on, int back) = (2 * (first + i), (2 * (first + before)) + 1);
            (double onRoom, double backRoom) = (Room(sides[i]), Room(sides[before]));
            _nodes[nodes[i]] = round[i].Arm is { } arm
                ? new(NodeKind.Port, null, [Enter(whole.Halves[arm], nodes[i]), on, back], []) { Rooms = [PortRoom, onRoom, backRoom] }
                : new(NodeKind.Corner, null, [on, back], []) { Rooms = [onRoom, backRoom] };
        }

        return new(
            [.. nodes.Where((_, i) => round[i].Arm is null)],
            [.. Enumerable.Range(0, body.Arms.Length).Select(arm => nodes[Array.FindIndex(round, part => part.Arm == arm)])]);
    }

    // How far along the box from its first corner lies each corner (without an arm) and each arm.
    private static IEnumerable<(int? Arm, double Along)> Round(TrackBody body)
    {
        (double x, double y) = body.HalfBox;
        double begin = 0;
        for (int side = 0; side < 4; side++)
        {
            double length = side % 2 == 0 ? 2 * y : 2 * x;
            yield return (null, begin);
            foreach ((int? arm, double along) in body.Arms.Select((arm, i) => (Arm: (int?)i, arm)).Where(pair => Side(pair.arm) == side)
                .Select(pair => (pair.Arm, Along: AlongSide(pair.arm, side))).OrderBy(pair => pair.Along))
            {
                yield return (arm, begin + (length / 2) + along);
            }

            begin += length;
        }
    }

    private static double Perimeter(TrackBody body) => 4 * (body.HalfBox.X + body.HalfBox.Y);

    private static int Side(BodyArm arm) => (int)Math.Floor((arm.Heading / (Math.PI / 2)) + 0.5 + 1e-9) & 3;

    private static double AlongSide(BodyArm arm, int side) => side switch { 0 => arm.Y, 1 => -arm.X, 2 => -arm.Y, _ => arm.X };

    private static double Room(double side) => Math.Max(0.05, (side - Clearance) / 2);

    private int NewNode()
    {
        _nodes.Add(new(NodeKind.Corner, null, [], []));
        return _nodes.Count - 1;
    }

    private int Enter(int half, int port)
    {
        _edges[half / 2] = (half & 1) == 0 ? _edges[half / 2] with { From = port } : _edges[half / 2] with { To = port };
        return half;
    }
}
