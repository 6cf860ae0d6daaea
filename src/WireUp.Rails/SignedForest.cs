using System.Collections.Immutable;

namespace WireUp.Rails;

/// <summary>Labels a <see cref="ParityGraph"/> along a forest of its links, breadth first from the lowest part of each component.</summary>
internal static class SignedForest
{
    internal static (ImmutableArray<int> Components, ImmutableArray<int> Signs) Label(ParityGraph graph) =>
        Label(graph.Parts.Length, graph.Links, Adjacency(graph), static _ => true);

    /// <summary>For each part, the indices of the links that touch it; a link of a part with itself appears once.</summary>
    internal static ImmutableArray<ImmutableArray<int>> Adjacency(ParityGraph graph)
    {
        ImmutableArray<int>.Builder[] touching =
            [.. Enumerable.Range(0, graph.Parts.Length).Select(_ => ImmutableArray.CreateBuilder<int>())];
        for (int i = 0; i < graph.Links.Length; i++)
        {
            touching[graph.Links[i].From].Add(i);
            if (graph.Links[i].To != graph.Links[i].From)
            {
                touching[graph.Links[i].To].Add(i);
            }
        }

        return [.. touching.Select(list => list.ToImmutable())];
    }

    internal static (ImmutableArray<int> Components, ImmutableArray<int> Signs) Label(
        int parts, ImmutableArray<PartLink> links, ImmutableArray<ImmutableArray<int>> adjacency, Func<int, bool> keep)
    {
        int[] component = new int[parts], sign = new int[parts];
        int components = 0;
        Queue<int> queue = new();
        for (int start = 0; start < parts; start++)
        {
            if (sign[start] != 0)
            {
                continue;
            }

            (sign[start], component[start]) = (1, components);
            queue.Enqueue(start);
            while (queue.TryDequeue(out int part))
            {
                foreach (int link in adjacency[part].Where(keep))
                {
                    int next = links[link].Opposite(part);
                    if (sign[next] == 0)
                    {
                        sign[next] = links[link].Flips ? -sign[part] : sign[part];
                        component[next] = components;
                        queue.Enqueue(next);
                    }
                }
            }

            components++;
        }

        return ([.. component], [.. sign]);
    }
}
