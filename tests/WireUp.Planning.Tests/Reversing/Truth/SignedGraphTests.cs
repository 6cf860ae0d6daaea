using WireUp.Planning.Reversing;

namespace WireUp.Planning.Tests.Reversing.Truth;

/// <summary>The frustration index of signed graphs that others have printed.</summary>
public sealed class SignedGraphTests
{
    private const double Budget = 20;

    private const string TribesFriends =
        "1-2 3-4 3-6 3-7 5-7 6-7 3-8 4-8 6-8 7-8 5-9 9-10 6-11 7-11 8-11 6-12 7-12 8-12 11-12 7-13 9-13 10-13 5-14 13-14 1-15 2-15 1-16 2-16 15-16";

    private const string TribesFoes =
        "1-3 2-3 1-4 1-5 2-5 1-6 2-6 2-9 6-9 2-10 9-11 10-11 1-12 6-13 11-13 8-14 12-14 5-15 9-15 10-15 11-15 12-15 13-15 5-16 6-16 11-16 12-16 13-16 14-16";

    /// <summary>Edges less the largest cut.</summary>
    public static TheoryData<string, int, int, int> AllNegative => new()
    {
        { "K4", 4, 6, 2 }, { "K5", 5, 10, 4 }, { "K6", 6, 15, 6 }, { "C5", 5, 5, 1 }, { "C7", 7, 7, 1 },
        { "wheel 4", 5, 8, 2 }, { "wheel 5", 6, 10, 3 }, { "wheel 6", 7, 12, 3 }, { "prism", 6, 9, 2 }, { "octahedron", 6, 12, 4 },
        { "cube", 8, 12, 0 }, { "Wagner", 8, 12, 2 }, { "Petersen", 10, 15, 3 }, { "Groetzsch", 11, 20, 4 }, { "Frucht", 12, 18, 3 },
        { "Chvatal", 12, 24, 4 }, { "truncated tetrahedron", 12, 18, 4 }, { "icosahedron", 12, 30, 10 }, { "Heawood", 14, 21, 0 },
        { "Moebius-Kantor", 16, 24, 0 }, { "Pappus", 18, 27, 0 }, { "dodecahedron", 20, 30, 6 }, { "Desargues", 20, 30, 0 },
    };

    [Theory]
    [MemberData(nameof(AllNegative))]
    public void All_negative_graphs_have_the_index_that_their_largest_cut_says(string name, int vertices, int edges, int index)
    {
        SignedGraph graph = NamedGraphs.AllNegative(NamedGraphs.Of(name));
        Assert.Equal((vertices, edges), (graph.Vertices, graph.Edges.Length));
        AssertIndex(index, graph);
    }

    [Theory]
    [InlineData(3, 1)]
    [InlineData(4, 2)]
    [InlineData(5, 4)]
    [InlineData(6, 6)]
    [InlineData(7, 9)]
    [InlineData(8, 12)]
    public void The_all_negative_complete_graph_is_the_most_frustrated(int n, int index) =>
        AssertIndex(index, NamedGraphs.AllNegative(NamedGraphs.Complete(n)));

    [Fact]
    public void A_ring_is_frustrated_when_its_negative_edges_are_odd_in_number()
    {
        for (int signs = 0; signs < 1 << 7; signs++)
        {
            SignedGraph ring = new(7, [.. NamedGraphs.Cycle(7).Edges.Select((edge, i) => new SignedEdge(edge.One, edge.Other, (signs >> i & 1) == 1))]);
            AssertIndex(int.PopCount(signs) % 2, ring);
        }
    }

    [Theory]
    [InlineData(3, 1, 2)]
    [InlineData(4, 1, 3)]
    [InlineData(5, 2, 3)]
    public void The_worst_signs_of_a_generalised_Petersen_graph_reach_the_published_maximum(int n, int k, int most)
    {
        (int vertices, (int One, int Other)[] edges) = NamedGraphs.Petersen(n, k);
        int[] choices = [.. Classes(vertices, edges)];
        (int worst, SignedGraph shown) = choices
            .Select(signs => new SignedGraph(vertices, [.. edges.Select((edge, i) => new SignedEdge(edge.One, edge.Other, (signs >> i & 1) == 1))]))
            .Select(graph => (Index: NamedGraphs.IndexByTrial(graph), Graph: graph))
            .MaxBy(pair => pair.Index);
        Assert.Equal(most, worst);
        AssertIndex(most, shown);
    }

    [Fact]
    public void The_highland_tribes_have_index_seven()
    {
        SignedGraph tribes = new(16, [.. Edges(TribesFriends, negative: false), .. Edges(TribesFoes, negative: true)]);
        Assert.Equal(58, tribes.Edges.Length);
        AssertIndex(7, tribes);
        Assert.Equal(7, NamedGraphs.IndexByTrial(tribes));
    }

    [Fact]
    public void Small_random_graphs_have_the_index_that_trying_every_labelling_finds()
    {
        Random random = new(11);
        int frustrated = 0;
        for (int i = 0; i < 150; i++)
        {
            int vertices = random.Next(2, 10), edges = random.Next(1, 22);
            SignedGraph graph = new(vertices,
            [
                .. Enumerable.Range(0, edges).Select(_ =>
                    new SignedEdge(random.Next(vertices), random.Next(vertices), random.Next(2) == 0, random.Next(3) == 0 ? random.Next(1, 4) : 1)),
            ]);
            int index = NamedGraphs.IndexByTrial(graph);
            AssertIndex(index, graph);
            frustrated += index > 0 ? 1 : 0;
        }

        Assert.InRange(frustrated, 75, 149);
    }

    [Fact]
    public void Long_chains_of_loops_are_reduced_away_without_solving()
    {
        // A thousand triangles in a row, each with one negative edge: index one each.
        List<SignedEdge> edges = [];
        for (int i = 0; i < 1000; i++)
        {
            edges.AddRange([new(2 * i, (2 * i) + 1, Negative: true), new((2 * i) + 1, (2 * i) + 2, Negative: false), new(2 * i, (2 * i) + 2, Negative: false)]);
        }

        SignedGraph chain = new(2001, [.. edges]);
        SignedReductionWorkspace reduced = new(chain);
        Assert.Equal((1000, 0), (reduced.Lost, reduced.Core.Length));
        AssertIndex(1000, chain);
    }

    /// <summary>One choice of signs for each way of switching: positive along a spanning tree, anything elsewhere.</summary>
    private static IEnumerable<int> Classes(int vertices, (int One, int Other)[] edges)
    {
        Rails.SignUnionWorkspace tree = new(vertices);
        int[] free = [.. Enumerable.Range(0, edges.Length).Where(i =>
        {
            bool closes = tree.Find(edges[i].One).Root == tree.Find(edges[i].Other).Root;
            _ = closes || tree.Join(edges[i].One, edges[i].Other);
            return closes;
        })];
        return Enumerable.Range(0, 1 << free.Length).Select(bits => free.Select((edge, i) => (bits >> i & 1) << edge).Sum());
    }

    private static IEnumerable<SignedEdge> Edges(string list, bool negative) => list.Split(' ')
        .Select(pair => pair.Split('-'))
        .Select(ends => new SignedEdge(int.Parse(ends[0], System.Globalization.CultureInfo.InvariantCulture) - 1, int.Parse(ends[1], System.Globalization.CultureInfo.InvariantCulture) - 1, negative));

    private static void AssertIndex(int index, SignedGraph graph)
    {
        FrustrationIndex found = FrustrationIndex.Of(graph, Budget);
        Assert.Equal((index, index), (found.Value, found.Bound));
        Rails.SignUnionWorkspace rest = new(graph.Vertices);
        Assert.All(
            Enumerable.Range(0, graph.Edges.Length).Except(found.Cut),
            edge => Assert.True(rest.Join(graph.Edges[edge].One, graph.Edges[edge].Other, graph.Edges[edge].Negative)));
    }
}
