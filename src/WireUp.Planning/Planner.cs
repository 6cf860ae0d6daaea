using System.Collections.Immutable;
using WireUp.Layouts;
using WireUp.Planning.Blocks;
using WireUp.Planning.Devices;

namespace WireUp.Planning;

/// <summary>
/// Plans what a layout lacks to run: reversing sections, frog gaps, power districts, boosters and supplies, feeders, bus and
/// its wire. What is built stays as it is. The result is checked and solved as anybody's layout would be, and a plan that does not
/// pass says what remains.
/// </summary>
public static class Planner
{
    /// <summary>Part of the whole that is done when boosters, bus and wire begin, in per cent.</summary>
    internal const int PowerPercent = 55;

    /// <summary>The same when the wire of the bus is chosen.</summary>
    internal const int WirePercent = 88;

    /// <summary>Plans.</summary>
    /// <param name="layout">A layout as the reader makes it: names are unique, and whatever is named exists.</param>
    /// <param name="options">What the person settled, or null for the defaults.</param>
    /// <param name="progress">Told at the start of each stage, or null.</param>
    /// <param name="cancel">
    /// Stops the plan between two steps of a stage. What was settled until then is handed back as an unfinished plan; nothing is thrown.
    /// </param>
    public static PlanResult Plan(
        Layout layout, PlanOptions? options = null, IProgress<PlanProgress>? progress = null, CancellationToken cancel = default)
    {
        PlanResult plan = Made(layout, options, progress, cancel);
        return plan with
        {
            Proposals = [.. plan.Proposals.Select(proposal => proposal.Told(layout))],
            Remains = [.. plan.Remains.Select(remains => layout.Retell(remains))],
        };
    }

    private static PlanResult Made(Layout layout, PlanOptions? options, IProgress<PlanProgress>? progress, CancellationToken cancel)
    {
        PlanStages stages = new(options ?? PlanOptions.Default, progress, cancel);
        Cabs? cabs = Cabs.Of(layout);
        PlanDraft draft = cabs is null ? new(layout, layout) : new(cabs.WithFirst, cabs.WithFirst);
        ImmutableArray<(string Name, int Percent, Func<PlanDraft, PlanDraft> Work)> steps =
        [
            ("reversing sections", 0, stages.Reverse),
            ("frogs", 30, PlanStages.Frogs),
            ("districts", 35, stages.Districts),
            ("blocks", 43, PlanStages.Block),
            ("feeders", 45, stages.Feed),
            ("boosters, bus and wire", PowerPercent, stages.Power),
            ("accessories", 94, AccessoryPlanner.Plan),
        ];
        foreach ((string name, int percent, Func<PlanDraft, PlanDraft> work) in steps)
        {
            progress?.Report(new(name, percent));
            try
            {
                cancel.ThrowIfCancellationRequested();
                draft = work(draft);
            }
            catch (OperationCanceledException) when (cancel.IsCancellationRequested)
            {
                return stages.Unfinished(cabs?.Restore(draft) ?? draft, name);
            }
        }

        if (cancel.IsCancellationRequested)
        {
            return stages.Unfinished(cabs?.Restore(draft) ?? draft, "checking");
        }

        draft = cabs is null ? draft : stages.Select(draft, cabs);

        progress?.Report(new("checking", 95));
        PlanResult result = stages.Verify(draft);
        progress?.Report(new("done", 100));
        return result;
    }
}
