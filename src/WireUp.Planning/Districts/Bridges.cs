namespace WireUp.Planning.Districts;

/// <summary>
/// Which edges of a graph are bridges: edges without which it falls apart. By lowest reachable depth-first numbers.
/// Source: R. Tarjan, A note on finding the bridges of a graph, Information Processing Letters 2 (1974) 160–161.
/// </summary>
internal static class Bridges
{
    /// <summary>For each edge whether it is a bridge. Parallel edges are none.</summary>
    public static bool[] Of(int nodes, IReadOnlyList<(int From, int To)> edges)
    {
        List<(int Edge, int To)>[] next = [.. Enumerable.Range(0, nodes).Select(_ => new List<(int Edge, int To)>())];
        for (int i = 0; i < edges.Count; i++)
        {
            next[edges[i].From].Add((i, edges[i].To));
            next[edges[i].To].Add((i, edges[i].From));
        }

        bool[] bridge = new bool[edges.Count];
        int[] number = new int[nodes], low = new int[nodes], position = new int[nodes], reachedBy = new int[nodes];
        int count = 0;
        for (int start = 0; start < nodes; start++)
        {
            if (number[start] == 0)
            {
                Visit(start);
            }
        }

        return bridge;

        void Visit(int start)
        {
            Stack<int> path = new([start]);
            (number[start], low[start], reachedBy[start]) = (++count, count, -1);
            while (path.TryPeek(out int node))
            {
                if (position[node] < next[node].Count)
                {
                    (int edge, int to) = next[node][position[node]++];
                    if (number[to] == 0)
                    {
                        (number[to], low[to], reachedBy[to]) = (++count, count, edge);
                        path.Push(to);
                    }
                    else if (edge != reachedBy[node])
                    {
                        low[node] = Math.Min(low[node], number[to]);
                    }
                }
                else
                {
                    path.Pop();
                    if (path.TryPeek(out int parent))
                    {
                        low[parent] = Math.Min(low[parent], low[node]);
                        bridge[reachedBy[node]] = low[node] > number[parent];
                    }
                }
            }
        }
    }
}
