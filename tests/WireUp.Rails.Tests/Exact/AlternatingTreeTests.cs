namespace WireUp.Rails.Tests.Exact;

/// <summary>Alternating paths in graphs so small that there is one to each vertex. The root is 0; pairs are (1, 2), (3, 4) and so on.</summary>
public sealed class AlternatingTreeTests
{
    [Fact]
    public void On_a_chain_every_other_vertex_ends_a_path()
    {
        AlternatingTreeWorkspace tree = Grown(3, (0, 1), (2, 3));
        Assert.Equal([0, 2, 4], Even(tree, 6));
        Assert.Equal([4, 3, 2, 1, 0], tree.PathToRoot(4));
    }

    [Fact]
    public void An_odd_cycle_on_a_stem_is_passed_both_ways_round_and_its_stem_one_way_only()
    {
        AlternatingTreeWorkspace tree = Grown(3, (0, 1), (2, 3), (4, 2));
        Assert.Equal([0, 2, 3, 4], Even(tree, 6));
        Assert.Equal([4, 3, 2, 1, 0], tree.PathToRoot(4));
        Assert.Equal([3, 4, 2, 1, 0], tree.PathToRoot(3));
    }

    [Fact]
    public void An_even_cycle_gives_no_second_way_round()
    {
        AlternatingTreeWorkspace tree = Grown(3, (0, 1), (0, 3), (2, 5), (4, 5));
        Assert.Equal([0, 2, 4, 6], Even(tree, 6));
    }

    [Fact]
    public void A_cycle_of_five_at_the_root_opens_a_cycle_beyond_it()
    {
        // 0-1=2-4=3-0; from 1, which is reached the long way round, on to 5=6; and from 6 back to 3.
        AlternatingTreeWorkspace tree = Grown(4, (0, 1), (0, 3), (2, 4), (1, 5));
        Assert.Equal([0, 1, 2, 3, 4, 6], Even(tree, 8));
        Assert.Equal([1, 2, 4, 3, 0], tree.PathToRoot(1));
        Assert.Equal([2, 1, 0], tree.PathToRoot(2));
        Assert.Equal([3, 4, 2, 1, 0], tree.PathToRoot(3));
        Assert.Equal([4, 3, 0], tree.PathToRoot(4));
        Assert.Equal([6, 5, 1, 2, 4, 3, 0], tree.PathToRoot(6));

        AlternatingTreeWorkspace closed = Grown(4, (0, 1), (0, 3), (2, 4), (1, 5), (6, 3));
        Assert.Equal([0, 1, 2, 3, 4, 5, 6], Even(closed, 8));
        Assert.Equal([5, 6, 3, 4, 2, 1, 0], closed.PathToRoot(5));
    }

    private static AlternatingTreeWorkspace Grown(int pairs, params (int One, int Other)[] edges)
    {
        AlternatingTreeWorkspace tree = new();
        for (int pair = 0; pair < pairs; pair++)
        {
            tree.AddMatched();
        }

        foreach ((int one, int other) in edges)
        {
            tree.Join(one, other);
        }

        tree.Grow(0);
        return tree;
    }

    private static IEnumerable<int> Even(AlternatingTreeWorkspace tree, int last) => Enumerable.Range(0, last + 1).Where(tree.IsEven);
}
