using WireUp.Circuits.Numerics;

namespace WireUp.Circuits.Network;

/// <summary>Conductances between unknowns, as parallel arrays.</summary>
internal sealed class EquationSystem
{
    private EquationSystem(int count)
    {
        (From, To) = (GC.AllocateUninitializedArray<int>(count), GC.AllocateUninitializedArray<int>(count));
        (Siemens, Drive) = (GC.AllocateUninitializedArray<double>(count), GC.AllocateUninitializedArray<double>(count));
    }

    /// <summary>One unknown of each conductance, or the reference.</summary>
    internal int[] From { get; }

    /// <summary>The other unknown of each conductance, or the reference.</summary>
    internal int[] To { get; }

    /// <summary>The conductances.</summary>
    internal double[] Siemens { get; }

    /// <summary>Fixed difference of potential that each conductance has besides that of its unknowns, volt.</summary>
    internal double[] Drive { get; }

    /// <summary>How many conductances there are.</summary>
    internal int Count => From.Length;

    /// <summary>Writes the equations down.</summary>
    /// <param name="circuit">The circuit.</param>
    /// <param name="unknowns">Its unknowns.</param>
    /// <param name="graph">
    /// What is coupled, needed to order the unknowns and no longer. Vertices are pairs of unknowns that lie side by side. Coupled are
    /// the ends of each conductance and, so that the inverse holds what a place between them needs, the four corners of each
    /// segment of track.
    /// </param>
    internal static EquationSystem Of(Circuit circuit, Unknowns unknowns, out VertexGraph graph)
    {
        int[] kept = GC.AllocateUninitializedArray<int>(circuit.Elements.Length);
        int count = 0;
        for (int i = 0; i < circuit.Elements.Length; i++)
        {
            CircuitElement element = circuit.Elements[i];
            int from = unknowns.Of(element.From);
            if (element.Ohms > 0 && from != Unknowns.Unfed && from != unknowns.Of(element.To))
            {
                kept[count++] = i;
            }
        }

        int[] vertexOf = Vertices(circuit, unknowns, out int vertexCount);
        graph = new VertexGraph(vertexOf, vertexCount, circuit.Elements.Length);
        EquationSystem system = new(count);
        for (int i = 0; i < count; i++)
        {
            CircuitElement element = circuit.Elements[kept[i]];
            system.Set(i, element, unknowns);

            // Rails are coupled by their segments.
            if (element.Kind != ElementKind.Rail && system.From[i] >= 0 && system.To[i] >= 0)
            {
                graph.Connect(vertexOf[system.From[i]], vertexOf[system.To[i]]);
            }
        }

        ConnectSegments(circuit, unknowns, graph);
        return system;
    }

    private void Set(int i, in CircuitElement element, Unknowns unknowns)
    {
        (From[i], To[i]) = (unknowns.Of(element.From), unknowns.Of(element.To));
        Siemens[i] = 1 / element.Ohms;
        Drive[i] = unknowns.Offset(element.From) - unknowns.Offset(element.To);
    }

    /// <summary>Each unknown is paired at most once, with the first free one beside it.</summary>
    private static int[] Vertices(Circuit circuit, Unknowns unknowns, out int count)
    {
        int[] vertexOf = new int[unknowns.Count];
        Array.Fill(vertexOf, -1);
        count = 0;
        foreach ((int first, int second) in circuit.Pairs)
        {
            (int a, int b) = (unknowns.Of(first), unknowns.Of(second));
            if (a >= 0 && b >= 0 && a != b && vertexOf[a] < 0 && vertexOf[b] < 0)
            {
                vertexOf[a] = vertexOf[b] = count++;
            }
        }

        for (int i = 0; i < vertexOf.Length; i++)
        {
            vertexOf[i] = vertexOf[i] < 0 ? count++ : vertexOf[i];
        }

        return vertexOf;
    }

    private static void ConnectSegments(Circuit circuit, Unknowns unknowns, VertexGraph graph)
    {
        Span<int> corners = stackalloc int[4];
        foreach (TrackSegment segment in circuit.Segments)
        {
            int count = 0;
            foreach (int node in (ReadOnlySpan<int>)[segment.FirstAtStart, segment.SecondAtStart, segment.FirstAtEnd, segment.SecondAtEnd])
            {
                int unknown = unknowns.Of(node);
                if (unknown >= 0 && !corners[..count].Contains(graph.VertexOf[unknown]))
                {
                    corners[count++] = graph.VertexOf[unknown];
                }
            }

            ConnectAll(corners[..count], graph);
        }
    }

    private static void ConnectAll(ReadOnlySpan<int> corners, VertexGraph graph)
    {
        for (int a = 0; a < corners.Length; a++)
        {
            for (int b = a + 1; b < corners.Length; b++)
            {
                graph.Connect(corners[a], corners[b]);
            }
        }
    }
}
