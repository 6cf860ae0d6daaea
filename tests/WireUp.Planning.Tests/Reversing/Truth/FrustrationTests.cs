using System.Collections.Immutable;
using WireUp.Layouts;
using WireUp.Planning.Reversing;

namespace WireUp.Planning.Tests.Reversing.Truth;

/// <summary>
/// Track as a signed graph: the fewest runs that must be cut for balance are its frustration index. Cubic graphs can be laid as
/// track, with a turnout for each vertex.
/// </summary>
public sealed class FrustrationTests
{
    private static CubicGraph Named(string name) => name switch
    {
        "complete graph on four" => CubicGraph.Chords(4, 2),
        "prism" => CubicGraph.Petersen(3, 1),
        "cube" => CubicGraph.Petersen(4, 1),
        "Wagner" => CubicGraph.Chords(8, 4),
        "Petersen" => CubicGraph.Petersen(5, 2),
        "Frucht" => CubicGraph.Chords(1, -5, -2, -4, 2, 5, -2, 2, 5, -2, -5, 4, 2),
        "truncated tetrahedron" => CubicGraph.Chords(4, 2, 6, -2),
        "Heawood" => CubicGraph.Chords(7, 5, -5),
        "Moebius-Kantor" => CubicGraph.Petersen(8, 3),
        "Pappus" => CubicGraph.Chords(3, 5, 7, -7, 7, -7, -5),
        "dodecahedron" => CubicGraph.Petersen(10, 2),
        "Desargues" => CubicGraph.Petersen(10, 3),
        _ => throw new ArgumentOutOfRangeException(nameof(name)),
    };

    /// <summary>Index when every edge is negative: edges less the largest cut.</summary>
    public static TheoryData<string, int> AllNegative => new()
    {
        { "complete graph on four", 2 }, { "prism", 2 }, { "cube", 0 }, { "Wagner", 2 }, { "Petersen", 3 }, { "Frucht", 3 },
        { "truncated tetrahedron", 4 }, { "Heawood", 0 }, { "Moebius-Kantor", 0 }, { "Pappus", 0 }, { "dodecahedron", 6 },
        { "Desargues", 0 },
    };

    [Theory]
    [MemberData(nameof(AllNegative))]
    public void Fewest_runs_to_cut_is_the_frustration_index(string name, int index)
    {
        CubicGraph graph = Named(name);
        int[] points = graph.MatchedPoints;
        Assert.All(graph.Negative(points), Assert.True);
        Assert.Equal(index, graph.IndexByTrial(graph.Negative(points)));

        RunMap map = new RunMapBuilder(new(graph.Track(points))).Build();
        Block block = Assert.Single(BlockFinder.Of(map, _ => true));
        Assert.Equal(index > 0, block.IsOdd);
        FewestCuts fewest = FewestCuts.Of(map, block, 5);
        Assert.Equal(index, fewest.Runs.Length);
        Assert.Equal(index, fewest.Bound);
        Assert.True(BlockFinder.IsBalanced(map, block.Runs.Except(fewest.Runs)));
    }

    [Theory]
    [MemberData(nameof(AllNegative))]
    public void Where_sections_may_lie_in_single_runs_only_as_many_are_chosen(string name, int index)
    {
        Layout layout = Named(name).Track(Named(name).MatchedPoints);
        RunMap map = new RunMapBuilder(new(layout)).Build();
        BuiltWiring built = BuiltWiring.Of(map);
        Clearances clearances = Clearances.Of(layout, ReversingOptions.Default);
        CandidateShapes shapes = new(map, built, clearances, ReversingOptions.Default);
        ImmutableArray<Candidate> candidates =
            [.. map.Runs.Select(run => shapes.Along(run).First()).Select((candidate, i) => candidate with { Index = i })];

        (SectionChoice? choice, bool proved) = new ChoiceModelBuilder(map, built, candidates, clearances.Required)
            .Build(new HashSet<int>(), BlockFinder.Of(map, _ => true).Where(block => block.IsOdd))!
            .Solve(60, TestContext.Current.CancellationToken);
        Assert.True(proved);
        Assert.Equal(new LevelValue(index, index), choice![ChoiceLevel.Sections]);
    }

    [Fact]
    public void The_worst_signs_of_the_cube_that_turnouts_can_make_reach_the_published_maximum()
    {
        CubicGraph cube = Named("cube");
        int[][] edgesAt =
        [
            .. Enumerable.Range(0, 8).Select(vertex => Enumerable.Range(0, 12)
                .Where(edge => cube.Edges[edge].One == vertex || cube.Edges[edge].Other == vertex)
                .ToArray()),
        ];
        (int worst, int[] points) = (-1, []);
        for (int choice = 0; choice < 6561; choice++)
        {
            int rest = choice;
            int[] turned = [.. edgesAt.Select(edges => { int edge = edges[rest % 3]; rest /= 3; return edge; })];
            int index = cube.IndexByTrial(cube.Negative(turned));
            (worst, points) = index > worst ? (index, turned) : (worst, points);
        }

        Assert.Equal(3, worst);
        RunMap map = new RunMapBuilder(new(cube.Track(points))).Build();
        FewestCuts fewest = FewestCuts.Of(map, Assert.Single(BlockFinder.Of(map, _ => true)), 5);
        Assert.Equal((3, 3), (fewest.Runs.Length, fewest.Bound));
    }
}
