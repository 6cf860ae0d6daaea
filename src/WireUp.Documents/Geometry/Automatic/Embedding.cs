using System.Collections.Immutable;

namespace WireUp.Documents.Geometry.Automatic;

/// <summary>Finds a planar map of a network: how each crossing is turned, in which order runs are put down.</summary>
internal static class Embedding
{
    private const int Tries = 40;
    private const int Seed = 20; // any number; the same on every run

    /// <summary>The map with the fewest bridges found.</summary>
    public static PlanarMap Of(TrackNetwork network, double[] runLengths, CancellationToken cancellation)
    {
        TrackNetwork turned = TurnCrossings(network);
        var random = new Random(Seed);
        int[] order = [.. Enumerable.Range(0, turned.Runs.Length).OrderBy(run => runLengths[run])];
        PlanarMapBuilder best = Draw(turned, runLengths, order);
        for (int i = 1; i < Tries && best.Bridges > 0; i++)
        {
            cancellation.ThrowIfCancellationRequested();
            random.Shuffle(order);
            PlanarMapBuilder other = Draw(turned, runLengths, order);
            if (other.Bridges < best.Bridges) best = other;
        }

        return best.Build();
    }

    private static PlanarMapBuilder Draw(TrackNetwork network, double[] runLengths, int[] order)
    {
        var map = new PlanarMapBuilder(network, runLengths);
        foreach (int run in order) map.Insert(run);
        return map;
    }

    // Turns one crossing after another over, as long as that gives more faces: more faces, fewer handles on the surface.
    private static TrackNetwork TurnCrossings(TrackNetwork network)
    {
        int[] crossings = [.. Enumerable.Range(0, network.Nodes.Length).Where(node => TrackNetwork.MayBeTurnedOver(network.Nodes[node].Piece))];
        int faces = CountFaces(network);
        for (bool better = true; better;)
        {
            better = false;
            foreach (int node in crossings)
            {
                TrackNetwork turned = Turn(network, node);
                int count = CountFaces(turned);
                if (count <= faces) continue;
                (network, faces, better) = (turned, count, true);
            }
        }

        return network;
    }

    private static TrackNetwork Turn(TrackNetwork network, int node) =>
        network with { Nodes = network.Nodes.SetItem(node, network.Nodes[node].Over()) };

    private static int CountFaces(TrackNetwork network)
    {
        ImmutableArray<MapNode> nodes = [.. network.Nodes.Select(node => MapNode.Of(node, node.Halves))];
        ImmutableArray<MapEdge> edges = [.. network.Runs.Select((run, i) => new MapEdge(i, run.From, run.To))];
        return new PlanarMap(nodes, edges, []).Faces().Length;
    }
}
