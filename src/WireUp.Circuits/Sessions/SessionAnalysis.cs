using WireUp.Layouts;
using WireUp.Rails;

namespace WireUp.Circuits.Sessions;

/// <summary>
/// Simulates operating sessions: trains run at random over the railway, and what each district and booster carries is put down. Model,
/// method and limits are in docs/loading.md.
/// </summary>
public static class SessionAnalysis
{
    /// <summary>Simulates sessions until the result is sure enough, or there have been enough of them.</summary>
    /// <param name="graph">The rails.</param>
    /// <param name="options">How.</param>
    /// <param name="progress">Told after every batch of sessions.</param>
    /// <param name="cancellation">Ends it after the sessions under way; the result is of those done so far.</param>
    /// <exception cref="ArgumentOutOfRangeException">The session has no length, or fewer than two sessions are asked for.</exception>
    public static SessionAnswer Run(
        RailGraph graph, SessionOptions options, IProgress<SessionProgress>? progress = null, CancellationToken cancellation = default)
    {
        ArgumentOutOfRangeException.ThrowIfLessThanOrEqual(options.Length.Seconds, 0, nameof(options));
        ArgumentOutOfRangeException.ThrowIfLessThan(options.LeastSessions, 2, nameof(options));
        ArgumentOutOfRangeException.ThrowIfLessThan(options.MostSessions, options.LeastSessions, nameof(options));
        if (graph.Layout.Control == ControlSystem.Direct)
        {
            return new SessionAnswer.NothingToRun(
                "Under direct current a cab drives one train at a time, so no district carries more than that train; sessions are for command control and three-rail.");
        }

        SessionRailway railway = new(graph);
        if (railway.Stock.Units.IsEmpty || railway.Stock.MovingAtOnce == 0)
        {
            return new SessionAnswer.NothingToRun("No locomotive of the stock list may move.");
        }

        return railway.Track.Lines.Any()
            ? new SessionBatchesWorkspace(railway, options).Run(progress, cancellation)
            : new SessionAnswer.NothingToRun("No district feeds any track that trains run on: 'wireup plan' proposes the wiring.");
    }
}
