namespace WireUp.Web.Desk;

/// <summary>
/// Long work, done once for everybody who asks for it and kept for the version of the layout it was done for. Work that nobody waits
/// for any longer is stopped. No more of it runs at a time than the machine has processors.
/// </summary>
internal sealed class SharedWork : IDisposable
{
    private const int MostKept = 60;

    private readonly Lock _gate = new();
    private readonly SemaphoreSlim _room = new(Math.Max(1, Environment.ProcessorCount));
    private readonly Dictionary<(string Version, string What), Job> _jobs = [];
    private readonly Queue<(string Version, string What)> _order = new();

    /// <summary>What work came to, if it is done already.</summary>
    public T? Done<T>(string version, string what)
        where T : class
    {
        lock (_gate)
        {
            return _jobs.TryGetValue((version, what), out Job? job) && job.Task.IsCompletedSuccessfully ? (T)job.Task.Result : null;
        }
    }

    /// <summary>What the work comes to, done before, shared with others who wait, or begun now.</summary>
    /// <param name="version">The version of the layout.</param>
    /// <param name="what">The name of the work; it and the version say all that the result depends on.</param>
    /// <param name="work">The work; told where to report, and when to stop.</param>
    /// <param name="watch">Told how far it is, or null.</param>
    /// <param name="cancel">Stops waiting; and the work, if nobody else waits.</param>
    public async Task<T> GetAsync<T>(
        string version, string what, Func<IProgress<string>, CancellationToken, T> work, IProgress<string>? watch, CancellationToken cancel)
        where T : class
    {
        cancel.ThrowIfCancellationRequested();
        Job job = Join(version, what, (progress, stop) => work(progress, stop), watch);
        try
        {
            return (T)await job.Task.WaitAsync(cancel);
        }
        finally
        {
            Leave(job, version, what, watch);
        }
    }

    public void Dispose()
    {
        lock (_gate)
        {
            foreach (Job job in _jobs.Values) job.Stop.Cancel();
            _jobs.Clear();
        }

        _room.Dispose();
    }

    private Job Join(string version, string what, Func<IProgress<string>, CancellationToken, object> work, IProgress<string>? watch)
    {
        lock (_gate)
        {
            if (!_jobs.TryGetValue((version, what), out Job? job))
            {
                job = new();
                job.Task = RunAsync(job, work);
                _jobs.Add((version, what), job);
                _order.Enqueue((version, what));
                while (_order.Count > MostKept && _order.TryDequeue(out (string, string) oldest)) _jobs.Remove(oldest);
            }

            job.Waiting++;
            if (watch is not null) job.Watchers.Add(watch);
            return job;
        }
    }

    private void Leave(Job job, string version, string what, IProgress<string>? watch)
    {
        lock (_gate)
        {
            if (watch is not null) job.Watchers.Remove(watch);
            if (--job.Waiting > 0 || job.Task.IsCompletedSuccessfully) return;
            if (_jobs.GetValueOrDefault((version, what)) == job) _jobs.Remove((version, what));
            job.Stop.Cancel();
        }
    }

    private async Task<object> RunAsync(Job job, Func<IProgress<string>, CancellationToken, object> work)
    {
        await Task.Yield();
        await _room.WaitAsync(job.Stop.Token);
        try
        {
            return await Task.Run(() => work(new Spread(this, job), job.Stop.Token), job.Stop.Token);
        }
        finally
        {
            _room.Release();
        }
    }

    private sealed class Job
    {
        public CancellationTokenSource Stop { get; } = new();

        public List<IProgress<string>> Watchers { get; } = [];

        public Task<object> Task { get; set; } = null!;

        public int Waiting { get; set; }
    }

    private sealed class Spread(SharedWork work, Job job) : IProgress<string>
    {
        public void Report(string value)
        {
            IProgress<string>[] watchers;
            lock (work._gate) watchers = [.. job.Watchers];
            foreach (IProgress<string> watcher in watchers) watcher.Report(value);
        }
    }
}
