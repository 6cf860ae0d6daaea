namespace WireUp.Documents.Geometry.Automatic;

/// <summary>A place on the network: how far it is along track to the two nodes it lies between.</summary>
/// <param name="Edge">The edge it lies on, −1 for a place in a node, −2 for one on the outline of a node.</param>
/// <param name="NodeA">Node at which the edge begins.</param>
/// <param name="ToA">Distance from the centre of that node.</param>
/// <param name="NodeB">Node at which the edge ends.</param>
/// <param name="ToB">Distance from the centre of that node.</param>
/// <param name="Step">How many points it is from the beginning of the edge.</param>
internal readonly record struct NetPlace(int Edge, int NodeA, double ToA, int NodeB, double ToB, double Step)
{
    /// <summary>Stands for the edge of a place on the outline of a node.</summary>
    public const int OnOutline = -2;
}

/// <summary>How far it is along the track from node to node.</summary>
internal static class NetDistances
{
    // Farther than this does not matter to the drawing.
    private const double Far = 12;

    /// <summary>Distance between the centres of every two nodes, cut off where it is far.</summary>
    public static double[,] Between(PlanarMap map, double[] lengths)
    {
        int n = map.Nodes.Length;
        double[] half = [.. map.Nodes.Select(node => TrackBody.Of(node).HalfLength)];
        var far = new double[n, n];
        for (int start = 0; start < n; start++)
        {
            for (int node = 0; node < n; node++) far[start, node] = node == start ? 0 : Far;
            var open = new PriorityQueue<int, (double, int)>([(start, (0.0, start))]);
            while (open.TryDequeue(out int node, out (double Distance, int) key))
            {
                if (key.Distance > far[start, node]) continue;
                foreach (int leaving in map.Nodes[node].Halves)
                {
                    int next = map.NodeOf(leaving ^ 1);
                    double there = key.Distance + half[node] + lengths[leaving / 2] + half[next];
                    if (there >= far[start, next]) continue;
                    far[start, next] = there;
                    open.Enqueue(next, (there, next));
                }
            }
        }

        return far;
    }

    /// <summary>The shortest way along track between two places.</summary>
    public static double Between(double[,] between, in NetPlace one, in NetPlace other)
    {
        double a = Math.Min(one.ToA + between[one.NodeA, other.NodeA] + other.ToA, one.ToA + between[one.NodeA, other.NodeB] + other.ToB);
        double b = Math.Min(one.ToB + between[one.NodeB, other.NodeA] + other.ToA, one.ToB + between[one.NodeB, other.NodeB] + other.ToB);
        double shortest = Math.Min(a, b);
        return one.Edge >= 0 && one.Edge == other.Edge ? Math.Min(shortest, Math.Abs(one.ToA - other.ToA)) : shortest;
    }
}
