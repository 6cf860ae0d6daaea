using System.Collections.Immutable;
using WireUp.Layouts;

namespace WireUp.Documents.Geometry.Automatic;

/// <summary>A stretch of a run between two nodes of the map, directed as its run. Half 2s leaves its from node, half 2s + 1 its to node.</summary>
/// <param name="Run">The run it belongs to.</param>
/// <param name="From">Node at which it begins.</param>
/// <param name="To">Node at which it ends.</param>
internal readonly record struct MapEdge(int Run, int From, int To);

/// <summary>A node of the map and the halves that leave it, counter-clockwise, with the ends of its piece by which they leave.</summary>
internal sealed record MapNode(NodeKind Kind, Piece? Piece, ImmutableArray<int> Halves, ImmutableArray<string> Arms)
{
    /// <summary>Whether it is turned over; see <see cref="NetworkNode.Turned"/>.</summary>
    public bool Turned { get; init; }

    /// <summary>Of a part of a box: room it needs along each of its halves, in units of track spacing.</summary>
    public ImmutableArray<double> Rooms { get; init; } = [];

    /// <summary>The node of the network, on the map with other halves.</summary>
    public static MapNode Of(NetworkNode node, ImmutableArray<int> halves) => new(node.Kind, node.Piece, halves, node.Arms) { Turned = node.Turned };

    /// <summary>The arm of a named end of its piece: a place in <see cref="Halves"/>.</summary>
    public int ArmOf(string end) => Arms.IndexOf(end);
}

/// <summary>
/// The network on paper, up to stretching: which edges meet at which node in which order, without any two of them crossing.
/// </summary>
/// <param name="Nodes">Nodes of the network in its order, then the bridges.</param>
/// <param name="Edges">Stretches of runs.</param>
/// <param name="EdgesOfRun">For each run its edges in order.</param>
internal sealed record PlanarMap(
    ImmutableArray<MapNode> Nodes,
    ImmutableArray<MapEdge> Edges,
    ImmutableArray<ImmutableArray<int>> EdgesOfRun)
{
    /// <summary>The node a half leaves.</summary>
    public int NodeOf(int half) => (half & 1) == 0 ? Edges[half / 2].From : Edges[half / 2].To;

    /// <summary>Whether an edge has the end of a track at one of its ends.</summary>
    public bool LeadsNowhere(int edge) => Nodes[Edges[edge].From].Kind == NodeKind.End || Nodes[Edges[edge].To].Kind == NodeKind.End;

    /// <summary>The face to the left of a half and on, all round: each half followed by the next clockwise at the node it reaches.</summary>
    public ImmutableArray<ImmutableArray<int>> Faces()
    {
        var next = new int[2 * Edges.Length];
        foreach (MapNode node in Nodes)
        {
            int arms = node.Halves.Length;
            for (int arm = 0; arm < arms; arm++) next[node.Halves[arm] ^ 1] = node.Halves[(arm + arms - 1) % arms];
        }

        return Cycles(next);
    }

    /// <summary>For each half the number of the face to its left.</summary>
    public int[] FaceOfHalf()
    {
        var faceOf = new int[2 * Edges.Length];
        ImmutableArray<ImmutableArray<int>> faces = Faces();
        for (int face = 0; face < faces.Length; face++) foreach (int half in faces[face]) faceOf[half] = face;
        return faceOf;
    }

    private static ImmutableArray<ImmutableArray<int>> Cycles(int[] next)
    {
        var faces = ImmutableArray.CreateBuilder<ImmutableArray<int>>();
        var seen = new bool[next.Length];
        for (int first = 0; first < next.Length; first++)
        {
            if (seen[first]) continue;
            var face = ImmutableArray.CreateBuilder<int>();
            for (int half = first; !seen[half]; half = next[half])
            {
                seen[half] = true;
                face.Add(half);
            }

            faces.Add(face.ToImmutable());
        }

        return faces.ToImmutable();
    }
}
