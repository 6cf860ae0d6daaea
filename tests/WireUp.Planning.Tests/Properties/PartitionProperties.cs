using System.Collections.Immutable;
using WireUp.Planning.Districts;

namespace WireUp.Planning.Tests.Properties;

public sealed class PartitionProperties
{
    [Fact]
    public void The_best_division_of_small_tracks_is_what_trying_everything_finds()
    {
        int divided = 0;
        for (int seed = 0; seed < 300; seed++)
        {
            PartitionProblem problem = Problem(seed);
            long? best = Best(problem);
            PartitionOutcome outcome = PartitionSolver.Solve(problem, effort: 5);
            if (best is null)
            {
                Assert.True(outcome is PartitionOutcome.Impossible, $"seed {seed}: {outcome}");
                continue;
            }

            Assert.True(outcome is PartitionOutcome.Divided, $"seed {seed} {outcome} {best} cells {string.Join(",", problem.CellMillimetres)} edges {string.Join(" ", problem.Edges)} wishes {string.Join(";", problem.Wishes.Select(w => string.Join(",", w)))} n {problem.OrdinaryCount} most {problem.MostMillimetres}");
            PartitionResult result = Assert.IsType<PartitionOutcome.Divided>(outcome).Result;
            Assert.True(result.Cost == best && result.Bound == best && IsAllowed(problem, result.DistrictOf), $"seed {seed}: {result.Cost}, bound {result.Bound}, exhaustive {best}");
            divided++;
        }

        Assert.InRange(divided, 120, 300);
    }

    // A line of four cells of 1 m: with its second cell dead, the first is parted from the two behind. A way outside from the first to the
    // last joins them again.
    [Fact]
    public void What_a_dead_district_cuts_off_is_all_but_the_longest_part_of_the_rest()
    {
        PartitionProblem line = new([1000, 1000, 1000, 1000], [(0, 1, 100), (1, 2, 100), (2, 3, 100)], [], 2);
        Assert.Equal(1000, line.CutOffBy(cell => cell == 1));
        Assert.Equal(0, line.CutOffBy(cell => cell == 0));
        Assert.Equal(0, (line with { Around = [(0, 3)] }).CutOffBy(cell => cell == 1));
    }

    private static PartitionProblem Problem(int seed)
    {
        Random chance = new(seed);
        int cells = chance.Next(2, 9);
        List<(int From, int To, int Cost)> edges = [];
        for (int cell = 1; cell < cells; cell++)
        {
            edges.Add((chance.Next(cell), cell, 100 + (10 * chance.Next(4))));
        }

        for (int extra = chance.Next(3); extra > 0; extra--)
        {
            int from = chance.Next(cells), to = chance.Next(cells);
            if (from != to)
            {
                edges.Add((from, to, 100));
            }
        }

        ImmutableArray<int> lengths = [.. Enumerable.Range(0, cells).Select(_ => 100 * chance.Next(0, 80))];
        ImmutableArray<ImmutableArray<int>> wishes = chance.Next(2) == 0 ? [] : [[.. Enumerable.Range(0, cells).Where(_ => chance.Next(4) == 0).DefaultIfEmpty(0)]];
        PartitionProblem problem = new(lengths, [.. edges], wishes, chance.Next(wishes.Length == 0 ? 1 : 0, 4));
        problem = chance.Next(3) == 0 ? problem with { MostMillimetres = lengths.Sum() * 2 / 3 } : problem;
        return problem with
        {
            Apart = chance.Next(3) == 0 ? [(chance.Next(cells), chance.Next(cells))] : [],
            WayRound = chance.Next(2) == 0,
            MostOfBuilt = wishes.Length > 0 && chance.Next(3) == 0 ? [lengths.Sum() / 2] : [],
            Around = chance.Next(2) == 0 ? [(chance.Next(cells), chance.Next(cells))] : [],
        };
    }

    private static long? Best(PartitionProblem problem)
    {
        int cells = problem.CellMillimetres.Length, districts = problem.DistrictCount;
        long? best = null;
        int[] districtOf = new int[cells];
        for (int code = 0; code < (int)Math.Pow(districts, cells); code++)
        {
            for (int cell = 0, left = code; cell < cells; cell++, left /= districts)
            {
                districtOf[cell] = left % districts;
            }

            if (IsAllowed(problem, districtOf))
            {
                long cost = problem.CostOf(districtOf);
                best = best is null ? cost : Math.Min(best.Value, cost);
            }
        }

        return best;
    }

    private static bool IsAllowed(PartitionProblem problem, IReadOnlyList<int> districtOf) =>
        Enumerable.Range(0, problem.DistrictCount).All(district =>
        {
            HashSet<int> left = [.. Enumerable.Range(0, districtOf.Count).Where(cell => districtOf[cell] == district)];
            bool isWish = district < problem.Wishes.Length;
            bool holds = !isWish || problem.Wishes[district].All(left.Contains);
            int asked = isWish ? problem.Wishes[district].Sum(cell => problem.CellMillimetres[cell]) : 0;
            long most = isWish && !problem.MostOfBuilt.IsEmpty ? problem.MostOfBuilt[district]!.Value : problem.MostMillimetres;
            bool fits = left.Sum(cell => problem.CellMillimetres[cell]) <= Math.Max(asked, most);
            bool apart = problem.Apart.All(pair => !left.Contains(pair.One) || !left.Contains(pair.Other));
            return left.Count > 0 && holds && fits && apart && IsConnected(problem, left);
        });

    private static bool IsConnected(PartitionProblem problem, HashSet<int> left)
    {
        Stack<int> open = new([left.First()]);
        left.Remove(open.Peek());
        while (open.TryPop(out int cell))
        {
            foreach ((int from, int to, _) in problem.Edges.Where(edge => edge.From == cell || edge.To == cell))
            {
                int other = from == cell ? to : from;
                if (left.Remove(other))
                {
                    open.Push(other);
                }
            }
        }

        return left.Count == 0;
    }
}
