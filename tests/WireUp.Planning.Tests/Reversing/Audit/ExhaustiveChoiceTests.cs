using System.Collections.Immutable;
using WireUp.Layouts;
using WireUp.Planning.Reversing;

namespace WireUp.Planning.Tests.Reversing.Audit;

/// <summary>The solver's choice against every choice there is, each judged on the rails.</summary>
public sealed class ExhaustiveChoiceTests
{
    private const int MostCandidates = 90;

    [Fact]
    public void The_choice_is_the_best_of_all_subsets_on_random_layouts()
    {
        (int compared, int withTwo, int impossible, _) = Compare(Enumerable.Range(1, 300).Select(seed => RandomTrack.Of(seed, 2 + (seed % 4))));
        Assert.True(compared >= 40, $"only {compared} compared");
        Assert.True(withTwo >= 5, $"only {withTwo} with more than one section");
        Assert.True(impossible >= 3, $"only {impossible} without any choice");
    }

    [Fact]
    public void The_choice_is_the_best_of_all_subsets_on_random_layouts_of_every_kind_of_trackwork()
    {
        (int compared, int withTwo, int impossible, HashSet<string> kinds) =
            Compare(Enumerable.Range(1, 300).Select(seed => RandomTrackwork.Of(seed, 1 + (seed % 4))));
        TestContext.Current.TestOutputHelper!.WriteLine($"{compared} compared, {withTwo} with more than one section, {impossible} impossible: {string.Join(", ", kinds.Order())}");
        Assert.True(compared >= 60, $"only {compared} compared");
        Assert.True(withTwo >= 5, $"only {withTwo} with more than one section");
        Assert.True(impossible >= 3, $"only {impossible} without any choice");
        Assert.Superset(new HashSet<string> { "Turnout", "MultiTurnout", "Crossing", "Slip", "Scissors", "Turntable", "TransferTable" }, kinds);
    }

    private static (int Compared, int WithTwo, int Impossible, HashSet<string> Kinds) Compare(IEnumerable<Layout> layouts)
    {
        int compared = 0, withTwo = 0, impossible = 0;
        HashSet<string> kinds = [];
        foreach (Layout layout in layouts)
        {
            if (Prepared(layout) is not { } problem || problem.Candidates.Length > MostCandidates)
            {
                continue;
            }

            var found = Solve(problem);
            var best = Best(problem, new(layout, problem.Required), mostSections: 3);
            Assert.True(best == found, $"{layout.Name}: all subsets {best}, solver {found}: {RandomTrackwork.Describe(layout)}");
            kinds.UnionWith(layout.Track.Select(piece => piece.GetType().Name));
            compared++;
            withTwo += best?.Sections > 1 ? 1 : 0;
            impossible += best is null ? 1 : 0;
        }

        return (compared, withTwo, impossible, kinds);
    }

    private static Problem? Prepared(Layout layout)
    {
        RunMap map = new RunMapBuilder(new(layout)).Build();
        BuiltWiring built = BuiltWiring.Of(map);
        Clearances clearances = Clearances.Of(layout, ReversingOptions.Default);
        var blocks = BlockFinder.Of(map, _ => true);
        ImmutableArray<Block> odd = [.. blocks.Where(block => block.IsOdd)];
        return odd.IsEmpty
            ? null
            : new(map, built, odd, clearances.Required, new CandidateFinder(map, built, clearances, ReversingOptions.Default, blocks)
                .Find(odd, TestContext.Current.CancellationToken));
    }

    private static (int Sections, int Roads, int Gaps, int Points)? Solve(Problem problem)
    {
        ChoiceModel? model = new ChoiceModelBuilder(problem.Map, problem.Built, problem.Candidates, problem.Required)
            .Build(new HashSet<int>(), problem.Odd);
        if (model is null)
        {
            return null;
        }

        (SectionChoice? choice, bool proved) = model.Solve(60, TestContext.Current.CancellationToken);
        Assert.True(proved);
        if (choice is null)
        {
            return null;
        }

        Assert.All(choice.Levels, level => Assert.Equal(level.Value, level.Bound, 1e-6));
        int Level(ChoiceLevel level) => (int)choice[level].Value;
        return (Level(ChoiceLevel.Sections), Level(ChoiceLevel.Roads), Level(ChoiceLevel.Gaps), Level(ChoiceLevel.Penalty));
    }

    private static (int Sections, int Roads, int Gaps, int Points)? Best(Problem problem, RailsJudge judge, int mostSections)
    {
        for (int count = 1; count <= mostSections; count++)
        {
            var values = Subsets(problem.Candidates, count).Select(judge.Value).OfType<(int, int, int, int)>().ToList();
            if (values.Count > 0)
            {
                return values.Min();
            }
        }

        return null;
    }

    private static IEnumerable<ImmutableList<Candidate>> Subsets(ImmutableArray<Candidate> candidates, int count, int from = 0)
    {
        if (count == 0)
        {
            yield return [];
            yield break;
        }

        for (int i = from; i < candidates.Length; i++)
        {
            foreach (var rest in Subsets(candidates, count - 1, i + 1).Where(rest => rest.All(other => !other.Touches(candidates[i]))))
            {
                yield return rest.Add(candidates[i]);
            }
        }
    }

    private sealed record Problem(
        RunMap Map, BuiltWiring Built, ImmutableArray<Block> Odd, double Required, ImmutableArray<Candidate> Candidates);
}
