using System.Collections.Immutable;
using WireUp.Planning.Blocks;

namespace WireUp.Planning.Tests.Blocks;

public sealed class BlockDivisionTests
{
    // 10 m between two turnouts, joints at every metre from 1 to 9: 8 m for blocks, room for two of 3 m. Two of 4 m and 1 m at either end cost 16·1 + 16 + 16 + 16·1, two of 3 m
    // and 2 m at either end 16·4 + 9 + 9 + 16·4.
    [Fact]
    public void As_many_blocks_as_there_is_room_for_between_two_turnouts_about_equal()
    {
        BlockRun run = new([.. Enumerable.Range(1, 9).Select(i => (i * 1000, 100))], 10_000, OpenStart: false, OpenEnd: false);
        Assert.Equal([0, 4, 8], BlockDivision.Of(run, 3000));
        Assert.Empty(BlockDivision.Of(run, 8001));
    }

    [Fact]
    public void The_division_is_what_trying_every_set_of_gaps_finds()
    {
        int divided = 0;
        for (int seed = 0; seed < 400; seed++)
        {
            Random chance = new(seed);
            int at = 0;
            ImmutableArray<(int, int)> places = [.. Enumerable.Range(0, chance.Next(1, 11)).Select(_ => (at += chance.Next(100, 1500), 100 + (10 * chance.Next(3))))];
            BlockRun run = new(places, at + chance.Next(100, 1500), chance.Next(2) == 0, chance.Next(2) == 0);
            int shortest = chance.Next(500, 3000);
            (int Blocks, int Cost, long Squares)? best = Enumerable.Range(0, 1 << places.Length)
                .Select(set => Value(run, [.. Enumerable.Range(0, places.Length).Where(i => (set >> i & 1) != 0)], shortest))
                .Where(value => value is { Blocks: > 0 })
                .OrderByDescending(value => value!.Value.Blocks).ThenBy(value => value!.Value.Cost).ThenBy(value => value!.Value.Squares)
                .FirstOrDefault();
            ImmutableArray<int> found = BlockDivision.Of(run, shortest);
            (int Blocks, int Cost, long Squares)? value = Value(run, found, shortest);
            Assert.True(best is null ? found.IsEmpty : value == best, $"seed {seed}: {value}, exhaustive {best}");
            divided += best is null ? 0 : 1;
        }

        Assert.InRange(divided, 150, 399);
    }

    /// <summary>Blocks, cost and squares of a set of gaps; null where some block is too short.</summary>
    private static (int Blocks, int Cost, long Squares)? Value(BlockRun run, ImmutableArray<int> gaps, int shortest)
    {
        int[] marks = [0, .. gaps.Select(i => run.Places[i].Millimetres), run.LengthMillimetres];
        int blocks = 0;
        for (int i = 1; i < marks.Length; i++)
        {
            bool isOuter = (i == 1 && !run.OpenStart) || (i == marks.Length - 1 && !run.OpenEnd);
            if (!isOuter && marks[i] - marks[i - 1] < shortest)
            {
                return null;
            }

            blocks += isOuter ? 0 : 1;
        }

        long squares = Enumerable.Range(1, marks.Length - 1).Sum(i => (long)(marks[i] - marks[i - 1]) * (marks[i] - marks[i - 1])
            * ((i == 1 && !run.OpenStart) || (i == marks.Length - 1 && !run.OpenEnd) ? 16 : 1));
        return (blocks, gaps.Sum(i => run.Places[i].Cost), squares);
    }
}
