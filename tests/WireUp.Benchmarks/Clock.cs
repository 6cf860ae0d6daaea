using System.Diagnostics;

namespace WireUp.Benchmarks;

/// <summary>Takes times: the least of many runs, for others may use the machine.</summary>
internal static class Clock
{
    // Enough for the runtime to compile the loops for good, and to have by then all the memory that the work needs: with less, what makes
    // a hundred megabytes anew each time is measured by how fast the system hands out memory.
    private const int WarmUpRuns = 40;

    internal static double Milliseconds(Action action, double budgetMilliseconds)
    {
        long begin = Stopwatch.GetTimestamp();
        for (int i = 0; i < WarmUpRuns || (i < 300 && Stopwatch.GetElapsedTime(begin).TotalMilliseconds < budgetMilliseconds / 2); i++)
        {
            action();
        }

        double best = double.PositiveInfinity;
        begin = Stopwatch.GetTimestamp();
        for (int i = 0; i < 5 || (i < 1000 && Stopwatch.GetElapsedTime(begin).TotalMilliseconds < budgetMilliseconds); i++)
        {
            long start = Stopwatch.GetTimestamp();
            action();
            best = Math.Min(best, Stopwatch.GetElapsedTime(start).TotalMilliseconds);
        }

        return best;
    }
}
