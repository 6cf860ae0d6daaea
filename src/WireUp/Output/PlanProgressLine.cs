using Spectre.Console;
using WireUp.Planning;

namespace WireUp.Output;

/// <summary>Shows how far a plan is, on standard error, where somebody is looking.</summary>
internal static class PlanProgressLine
{
    /// <summary>Runs the work with a progress line; without one when standard error is not a terminal.</summary>
    public static PlanResult Show(Terminal terminal, Func<IProgress<PlanProgress>?, PlanResult> work)
    {
        if (!terminal.ShowsProgress)
        {
            return work(null);
        }

        PlanResult? result = null;
        terminal.Error.Status().Start("planning", status => result = work(new Line(status)));
        return result!;
    }

    private sealed class Line(StatusContext status) : IProgress<PlanProgress>
    {
        public void Report(PlanProgress value) => status.Status = Words.Plain($"{value.Stage} ({value.Percent} %)");
    }
}
