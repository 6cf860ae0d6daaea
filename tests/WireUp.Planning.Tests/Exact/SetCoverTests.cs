using System.Collections.Immutable;
using WireUp.Planning.Feeders;

namespace WireUp.Planning.Tests.Exact;

public sealed class SetCoverTests
{
    // Every point of a path is to have itself or a neighbour chosen: one point serves three, so ⌈n/3⌉ are enough and needed.
    [Theory]
    [InlineData(1)]
    [InlineData(30)]
    [InlineData(500)]
    public void A_path_is_covered_by_every_third_point(int points)
    {
        Cover cover = Solve([.. Enumerable.Range(0, points).Select(point => Near(point - 1, point, point + 1).Where(each => each >= 0 && each < points).ToImmutableArray())]);
        Assert.Equal(((points + 2) / 3, (points + 2) / 3), (cover.Chosen.Length, (int)cover.Bound));
    }

    // On a ring no row or column gives way to another: nothing is decided before the solver is asked.
    [Theory]
    [InlineData(31, 11)]
    [InlineData(100, 34)]
    public void A_ring_is_covered_by_every_third_point(int points, int expected)
    {
        Cover cover = Solve([.. Enumerable.Range(0, points).Select(point => Near((point + points - 1) % points, point, (point + 1) % points))]);
        Assert.Equal((expected, expected), (cover.Chosen.Length, (int)cover.Bound));
    }

    // Grids of points with their neighbours: 3×4 takes 4 and 4×5 takes 6, by trying every choice.
    [Theory]
    [InlineData(3, 3, 3)]
    [InlineData(3, 4, 4)]
    [InlineData(4, 5, 6)]
    [InlineData(5, 5, 7)]
    public void Grids_take_what_trying_every_choice_takes(int rows, int columns, int expected)
    {
        ImmutableArray<int>[] near = [.. Enumerable.Range(0, rows * columns).Select(point => Enumerable.Range(0, rows * columns)
            .Where(other => Math.Abs((point / columns) - (other / columns)) + Math.Abs((point % columns) - (other % columns)) <= 1)
            .ToImmutableArray())];
        Assert.Equal((expected, expected), (Solve(near).Chosen.Length, (int)Solve(near).Bound));
    }

    [Fact]
    public void Of_columns_that_cover_the_same_the_more_welcome_one_is_taken() =>
        Assert.Equal([1], SetCover.Solve([[0, 1], [0, 1]], [3, 1], effort: 1, TestContext.Current.CancellationToken).Chosen);

    private static ImmutableArray<int> Near(params int[] points) => [.. points.Distinct().Order()];

    private static Cover Solve(IReadOnlyList<ImmutableArray<int>> rows)
    {
        Cover cover = SetCover.Solve(rows, new double[rows.Count], effort: 5, TestContext.Current.CancellationToken);
        Assert.All(rows, row => Assert.Contains(row, column => cover.Chosen.Contains(column)));
        return cover;
    }
}
