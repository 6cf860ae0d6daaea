using System.Text.Json.Nodes;
using WireUp.Circuits;
using WireUp.Circuits.Sessions;
using WireUp.Documents;
using WireUp.Rails;

namespace WireUp.Output;

/// <summary>Sessions that were asked for beside the solved circuit, ready to be shown.</summary>
/// <param name="Answer">What came of them.</param>
/// <param name="Loading">Beside the other loadings, or null where nothing ran.</param>
internal sealed record SessionOutput(SessionAnswer Answer, LoadingComparison? Loading)
{
    /// <summary>Runs them, with a progress line; stopped early, they give what is known so far.</summary>
    public static SessionOutput Run(
        Terminal terminal, RailGraph graph, SessionOptions sessions, (PowerOptions Options, PowerReport Report) power, CancellationToken cancel)
    {
        SessionAnswer answer = SessionProgressLine.Show(terminal, progress => SessionAnalysis.Run(graph, sessions, progress, cancel));
        return new(answer, answer is SessionAnswer.Simulated simulated
            ? LoadingComparison.Of(graph, power.Options, power.Report, simulated.Report)
            : null);
    }

    /// <summary>Whether somebody stopped them.</summary>
    public bool WasStopped => Answer is SessionAnswer.Simulated { Report.WasStopped: true };

    /// <summary>The currents drawn, or null where nothing ran.</summary>
    public Scene? Plot() => Answer is SessionAnswer.Simulated simulated ? SessionPlot.Draw(simulated.Report, Loading!) : null;

    /// <summary>Adds the key <c>session</c>.</summary>
    public JsonObject Add(JsonObject node)
    {
        node["session"] = Answer switch
        {
            SessionAnswer.Simulated { Report: var report } => SessionJson.Of(report, Loading!),
            SessionAnswer.NothingToRun { Reason: var reason } => new JsonObject { ["reason"] = reason },
            _ => throw new InvalidOperationException($"not an answer: {Answer}"),
        };
        return node;
    }

    /// <summary>Writes tables and verdicts.</summary>
    public void Show(Terminal terminal)
    {
        switch (Answer)
        {
            case SessionAnswer.Simulated { Report: var report }:
                SessionText.Show(terminal, report, Loading!);
                break;
            case SessionAnswer.NothingToRun { Reason: var reason }:
                terminal.Markup(Words.Plain(reason));
                break;
            default:
                throw new InvalidOperationException($"not an answer: {Answer}");
        }
    }
}
