using WireUp.Layouts;
using WireUp.Planning.Reversing;

namespace WireUp.Planning.Tests.Reversing.Exact;

public sealed class ScratchTests(ITestOutputHelper output)
{
    [Fact]
    public void Dump()
    {
        foreach (var file in RepoFiles.SampleLayouts)
        {
            var layout = LayoutFile.Read(File.ReadAllText(file), file).Layout!;
            var watch = System.Diagnostics.Stopwatch.StartNew();
            var index = new LayoutIndex(layout);
            if (layout.Control == ControlSystem.ThreeRail) continue;
            var map = new RunMapBuilder(index).Build();
            var built = BuiltWiring.Of(map);
            var clear = Clearances.Of(layout, new ReversingOptions());
            var blocks = BlocksWorkspace.Of(map, _ => true);
            output.WriteLine($"== {Path.GetFileName(file)} {watch.ElapsedMilliseconds} junctions {map.Junctions.Length} runs {map.Runs.Length} blocks {string.Join(' ', blocks.Where(b => b.Runs.Length > 1 || b.IsOdd).Select(b => $"{b.Runs.Length}{(b.IsOdd ? "odd" : "")}"))}");
            if (Environment.GetEnvironmentVariable("DEEP") is { } deep) {
            var finder = new CandidateFinder(map, built, clear, new ReversingOptions { SetBudget = int.Parse(deep) }, blocks);
            var found = finder.Find([.. blocks.Where(b => b.IsOdd)], TestContext.Current.CancellationToken);
            output.WriteLine($"   {watch.ElapsedMilliseconds} candidates {found.Length}");
            output.WriteLine($"   {watch.ElapsedMilliseconds} touching {Touching.PairsOf(found).Count()}"); }
            if (Environment.GetEnvironmentVariable("PLAN") is null) continue;
            var plan = ReversingPlanner.Plan(layout, cancellation: TestContext.Current.CancellationToken);
            output.WriteLine($"== {Path.GetFileName(file)} {watch.ElapsedMilliseconds} ms {string.Join(' ', plan.Objectives)}");
            foreach (var proposal in plan.Proposals.Where(p => p.Kind == ProposalKind.ReversingSection))
            {
                output.WriteLine($"  {proposal.Id} {proposal.At}: {proposal.Reason}");
            }

            foreach (var section in plan.Sections)
            {
                output.WriteLine($"  {section.Name} turnouts {string.Join(',', section.Turnouts)} track {string.Join(',', section.Stretches.Select(s => s.Section))}");
            }

            foreach (var text in plan.Remains)
            {
                output.WriteLine($"  ! {text}");
            }
        }

        Assert.NotNull(output);
    }
}
