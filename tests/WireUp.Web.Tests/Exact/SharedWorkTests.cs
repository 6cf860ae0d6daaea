using WireUp.Web.Desk;

namespace WireUp.Web.Tests.Exact;

public sealed class SharedWorkTests
{
    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Fact]
    public async Task Work_is_done_once_for_everybody_who_asks_and_anew_for_a_new_version()
    {
        using SharedWork work = new();
        int runs = 0;
        Task<string> Ask(string version) => work.GetAsync(version, "check", (_, _) => $"{version} {Interlocked.Increment(ref runs)}", null, Cancel);
        string[] answers = await Task.WhenAll(Ask("v1"), Ask("v1"), Ask("v1"));
        Assert.Equal(["v1 1", "v1 1", "v1 1"], answers);
        Assert.Equal("v2 2", await Ask("v2"));
        Assert.Equal("v1 1", work.Done<string>("v1", "check"));
        Assert.Null(work.Done<string>("v3", "check"));
    }

    [Fact]
    public async Task Work_goes_on_while_one_waits_and_stops_when_nobody_does()
    {
        using SharedWork work = new();
        using CancellationTokenSource one = new(), other = new();
        TaskCompletionSource begun = new(), stopped = new();
        string Long(IProgress<string> progress, CancellationToken stop)
        {
            stop.Register(() => stopped.TrySetResult());
            begun.TrySetResult();
            stop.WaitHandle.WaitOne(TimeSpan.FromSeconds(20));
            stop.ThrowIfCancellationRequested();
            return "done";
        }

        Task<string> first = work.GetAsync("v", "plan", Long, null, one.Token), second = work.GetAsync("v", "plan", Long, null, other.Token);
        await begun.Task.WaitAsync(Cancel);
        await one.CancelAsync();
        await Assert.ThrowsAnyAsync<OperationCanceledException>(() => first);
        Assert.False(stopped.Task.IsCompleted);
        await other.CancelAsync();
        await Assert.ThrowsAnyAsync<OperationCanceledException>(() => second);
        await stopped.Task.WaitAsync(TimeSpan.FromSeconds(10), Cancel);
        Assert.Equal("again", await work.GetAsync("v", "plan", (_, _) => "again", null, Cancel));
    }

    [Fact]
    public async Task Work_that_failed_is_tried_again()
    {
        using SharedWork work = new();
        await Assert.ThrowsAsync<FormatException>(() => work.GetAsync<string>("v", "check", (_, _) => throw new FormatException(), null, Cancel));
        Assert.Equal("well", await work.GetAsync("v", "check", (_, _) => "well", null, Cancel));
    }
}
