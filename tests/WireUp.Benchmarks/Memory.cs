namespace WireUp.Benchmarks;

/// <summary>Takes memory.</summary>
internal static class Memory
{
    /// <summary>
    /// The most that is live at one time while something runs, over what was live before, found by looking with a full collection
    /// each time that so much more has been allocated. (What the runtime keeps besides, until it tidies up, is its own choice.)
    /// </summary>
    internal static double PeakBytes(Action action)
    {
        long before = GC.GetTotalMemory(forceFullCollection: true), peak = 0;
        using ManualResetEventSlim ended = new();
        Thread watcher = new(() =>
        {
            while (!ended.Wait(2))
            {
                peak = Math.Max(peak, GC.GetTotalMemory(forceFullCollection: true) - before);
            }
        });
        watcher.Start();
        for (int i = 0; i < 3; i++)
        {
            action();
        }

        ended.Set();
        watcher.Join();
        return peak;
    }
}
