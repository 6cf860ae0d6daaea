namespace WireUp.Rails.Tests.Exact;

public sealed class BiconnectedPartsTests
{
    [Fact]
    public void Two_rings_that_meet_in_a_point_a_bridge_between_them_and_a_loop_are_parts_by_themselves()
    {
        (int, int)[] edges = [(0, 1), (1, 2), (2, 0), (2, 3), (3, 4), (4, 5), (5, 3), (5, 5), (6, 7), (6, 7)];
        Assert.Equal(
            ["0 1 2", "3", "4 5 6", "7", "8 9"],
            BiconnectedParts.Of(9, edges).Select(part => string.Join(' ', part)));
    }

    /// <summary>Two edges are in one part when no single vertex, taken apart into one for each of its edges, parts them.</summary>
    [Fact]
    public void Parts_of_small_graphs_by_chance_are_those_that_no_vertex_parts()
    {
        int many = 0;
        for (int seed = 1; seed <= 300; seed++)
        {
            Random chance = new(seed);
            int vertices = chance.Next(2, 8);
            (int From, int To)[] edges = [.. Enumerable.Range(0, chance.Next(1, 12)).Select(_ => (chance.Next(vertices), chance.Next(vertices)))];
            int[] partOf = new int[edges.Length];
            foreach ((System.Collections.Immutable.ImmutableArray<int> part, int number) in BiconnectedParts.Of(vertices, edges).Select((part, i) => (part, i + 1)))
            {
                Assert.True(part.SequenceEqual(part.Order()), $"seed {seed}");
                part.ToList().ForEach(edge => partOf[edge] = partOf[edge] == 0 ? number : -1);
                many += part.Length > 1 ? 1 : 0;
            }

            for (int one = 0; one < edges.Length; one++)
            {
                Assert.True(partOf[one] > 0, $"seed {seed}: edge {one}");
                for (int other = one + 1; other < edges.Length; other++)
                {
                    bool together = Enumerable.Range(0, vertices).All(vertex => HangTogether(edges, vertex, one, other));
                    Assert.True(together == (partOf[one] == partOf[other]), $"seed {seed}: edges {one} and {other}");
                }
            }
        }

        Assert.True(many > 100, $"{many}");
    }

    private static bool HangTogether((int From, int To)[] edges, int apart, int one, int other)
    {
        HashSet<int> reached = [one];
        for (bool grew = true; grew;)
        {
            grew = false;
            for (int edge = 0; edge < edges.Length; edge++)
            {
                grew |= !reached.Contains(edge) && reached.Any(near => Touch(edges[near], edges[edge], apart)) && reached.Add(edge);
            }
        }

        return reached.Contains(other);
    }

    private static bool Touch((int From, int To) one, (int From, int To) other, int apart) =>
        new[] { one.From, one.To }.Intersect([other.From, other.To]).Any(vertex => vertex != apart);
}
