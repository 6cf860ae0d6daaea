using System.Collections.Immutable;
using WireUp.Layouts;
using WireUp.Planning.Reversing;

namespace WireUp.Planning.Tests.Reversing.Audit;

/// <summary>
/// The candidates against a fine grid: every set of the turnouts that lie on odd cycles, every choice of runs left out between them, and
/// ends at many places of every run. No single section on the grid cures what no candidate does, nor with fewer gaps.
/// </summary>
public sealed class ExhaustivePlacesTests
{
    private const int Steps = 6;
    private const int MostTried = 30_000;

    [Fact]
    public void No_section_on_a_fine_grid_of_places_does_what_no_candidate_does()
    {
        int cured = 0, incurable = 0;
        for (int seed = 1; seed <= 100; seed++)
        {
            var layout = RandomTrack.Of(seed, 2 + (seed % 3));
            RunMap map = new RunMapBuilder(new(layout)).Build();
            Clearances clearances = Clearances.Of(layout, ReversingOptions.Default);
            var blocks = BlockFinder.Of(map, _ => true);
            ImmutableArray<Block> odd = [.. blocks.Where(block => block.IsOdd)];
            if (odd.IsEmpty)
            {
                continue;
            }

            EffectSpace effects = new(map, odd);
            var candidates = new CandidateFinder(map, BuiltWiring.Of(map), clearances, ReversingOptions.Default, blocks)
                .Find(odd, TestContext.Current.CancellationToken);
            int? fewest = Fewest(candidates, effects, clearances);
            int? onGrid = Fewest(new Grid(map, clearances, blocks, odd).Sections().Take(MostTried), effects, clearances);
            Assert.True(onGrid is null || fewest <= onGrid, $"seed {seed}: candidates {fewest}, grid {onGrid}");
            cured += fewest is null ? 0 : 1;
            incurable += onGrid is null ? 1 : 0;
        }

        Assert.True(cured >= 30, $"only {cured} cured");
        Assert.True(incurable >= 8, $"only {incurable} without any cure on the grid");
    }

    private static int? Fewest(IEnumerable<Candidate> sections, EffectSpace effects, Clearances clearances) => sections
        .Where(section => effects.CuresAll(section, clearances.Required))
        .Min(section => (int?)section.Gaps);

    private sealed class Grid(RunMap map, Clearances clearances, ImmutableArray<Block> blocks, ImmutableArray<Block> odd)
    {
        private readonly CandidateMaker _maker = new(map, clearances, ReversingOptions.Default);
        private readonly CoreBuilder _cores = new(map, new HangingParts(map, blocks, _ => true), _ => true, roadsAllowed: 2);

        public IEnumerable<Candidate> Sections() => OnRuns().Concat(AroundTurnouts());

        private IEnumerable<Candidate> OnRuns() =>
            from run in odd.SelectMany(block => block.Runs).Select(run => map.Runs[run])
            from low in Places(run)
            from high in Places(run)
            where high - low >= clearances.Required
            let section = _maker.FromRun(At(run, low), At(run, high))
            where section is not null
            select section;

        private IEnumerable<Candidate> AroundTurnouts() =>
            from turnouts in Subsets([.. TurnoutSets.TurnoutsOf(map, odd.SelectMany(block => block.Runs))])
            where turnouts.Length > 0
            from leftOut in Subsets([.. _cores.RunsBetween(turnouts)])
            from takeIn in Enum.GetValues<TakeIn>()
            let core = _cores.Build(turnouts, leftOut, takeIn)
            where core is { Exits.Length: > 0 and <= 5 }
            let drives = CoreDrives.Of(map, core)
            from ends in Ends(core, 0)
            where Fits(core, ends)
            let section = _maker.FromCore(core, drives, ends)
            where section is not null
            select section;

        private static IEnumerable<int[]> Subsets(int[] items) => Enumerable.Range(0, 1 << items.Length)
            .Select(pattern => items.Where((_, i) => ((pattern >> i) & 1) == 1).ToArray());

        private bool Fits(Core core, ImmutableList<Placement> ends) => Enumerable.Range(1, ends.Count - 1).All(i =>
            core.Exits[i].Run != core.Exits[i - 1].Run
            || ends[i].Extent + ends[i - 1].Extent + clearances.Buffer <= map.Runs[core.Exits[i].Run].Length);

        private IEnumerable<ImmutableList<Placement>> Ends(Core core, int exit)
        {
            if (exit == core.Exits.Length)
            {
                return [[]];
            }

            Tip tip = core.Exits[exit];
            Run run = map.Runs[tip.Run];
            return from extent in Places(run)
                   let spot = At(run, tip.Side == 0 ? extent : run.Length - extent)
                   from rest in Ends(core, exit + 1)
                   select rest.Insert(0, new(spot, extent));
        }

        private double[] Places(Run run)
        {
            double low = Math.Max(clearances.Frog, clearances.RailEnd), high = run.Length - low;
            return high <= low ? [] : [.. Enumerable.Range(0, Steps + 1).Select(step => low + ((high - low) * step / Steps))];
        }

        private static Spot At(Run run, double position)
        {
            RunPiece piece = run.Pieces.First(piece => position <= piece.End + 1e-9);
            return new(run.Index, position, new GapPlace.InSection(new(piece.Piece, piece.MetresFromA(position))), Exists: false);
        }
    }
}
