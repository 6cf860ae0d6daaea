using System.Collections.Immutable;
using WireUp.Layouts.Text;

namespace WireUp.Layouts.Reading;

/// <summary>Walks a bus from its booster: turns every run so that it leads away, and reports what hangs on nothing or closes a ring.</summary>
internal sealed class BusTree(ReadContext context, string booster)
{
    /// <summary>The runs in the order of the file, each leading away from the booster.</summary>
    public ImmutableArray<BusRun> Order(ImmutableArray<WrittenRun> runs)
    {
        bool?[] turned = Walk(runs);
        for (int i = 0; i < runs.Length; i++)
        {
            if (turned[i] is null)
            {
                Report(runs[i]);
            }
        }

        return [.. runs.Select((run, i) => turned[i] == true ? run.Run with { From = run.Run.To, To = run.Run.From } : run.Run)];
    }

    /// <summary>For each run: whether it is written towards the booster; null where the walk does not reach it.</summary>
    private bool?[] Walk(ImmutableArray<WrittenRun> runs)
    {
        bool?[] turned = new bool?[runs.Length];
        ILookup<string, int> runsAt = runs
            .SelectMany((run, i) => new[] { (Point: run.Run.From, i), (Point: run.Run.To, i) })
            .ToLookup(pair => pair.Point, pair => pair.i, StringComparer.Ordinal);
        HashSet<string> reached = new(StringComparer.Ordinal) { booster };
        Queue<string> next = new([booster]);
        while (next.TryDequeue(out string? point))
        {
            foreach (int i in runsAt[point].Where(i => turned[i] is null))
            {
                turned[i] = runs[i].Run.From != point;
                string far = turned[i] == true ? runs[i].Run.From : runs[i].Run.To;
                if (reached.Add(far))
                {
                    next.Enqueue(far);
                }
                else
                {
                    turned[i] = false;
                    ReportRing(runs[i]);
                }
            }
        }

        return turned;
    }

    private void Report(WrittenRun run) =>
        context.Add(LayoutRules.BusNotConnected, run.From.At, run.From.Text,
            $"no run leads from the booster \"{booster}\" to \"{ProblemList.Shorten(run.From.Text)}\"", $"a run from \"{booster}\" or from a point it reaches");

    private void ReportRing(WrittenRun run) =>
        context.Add(LayoutRules.BusRing, run.To.At, run.To.Text,
            $"the run from \"{run.From.Text}\" to \"{run.To.Text}\" closes a ring", "a point that no other run leads to");
}
