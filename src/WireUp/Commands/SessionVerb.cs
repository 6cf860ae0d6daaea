using System.CommandLine;
using System.CommandLine.Invocation;
using System.Text.Json.Nodes;
using WireUp.Circuits;
using WireUp.Circuits.Sessions;
using WireUp.Documents;
using WireUp.Files;
using WireUp.Layouts;
using WireUp.Output;
using WireUp.Rails;

namespace WireUp.Commands;

/// <summary><c>wireup power --session</c>: the operated load, beside rule and placed loads.</summary>
internal sealed class SessionVerb(LayoutFiles files, Terminal terminal)
{
    /// <summary>Gives the verb <c>power</c> the options of sessions; with <c>--session</c> it shows them and nothing else.</summary>
    public static void AddTo(Command power)
    {
        Option<string?> session = SessionArguments.SessionOption();
        Option<ulong> seed = SessionArguments.SeedOption();
        power.Options.Add(session);
        power.Options.Add(seed);
        AsynchronousCommandLineAction circuit = (AsynchronousCommandLineAction)power.Action!;
        power.Runs<SessionVerb>((verb, parsed, cancel) => Task.FromResult(verb.Run(
            parsed.GetRequiredValue<FileInfo>("layout"),
            new(parsed.GetValue<string[]>("--load") ?? [], [], parsed.GetValue<string[]>("--set") ?? []),
            new(parsed.GetValue(session), parsed.GetValue(seed), parsed.GetValue<FileInfo?>("--plot")),
            (parsed.GetValue<LengthStyle?>("--lengths"), parsed.GetValue<bool>("--json")),
            cancel)));
        AsynchronousCommandLineAction sessions = (AsynchronousCommandLineAction)power.Action!;
        power.SetAction((parsed, cancel) => (parsed.GetValue(session) is null ? circuit : sessions).InvokeAsync(parsed, cancel));
    }

    private int Run(FileInfo file, PlaceArguments asked, SessionArguments sessions, (LengthStyle? Lengths, bool Json) shown, CancellationToken cancel)
    {
        SessionOptions options = sessions.Options!;
        if (sessions.Plot is not null)
        {
            PictureFile.Check(sessions.Plot);
        }

        Layout layout = files.Read(file).In(shown.Lengths);
        PowerOptions places = asked.Options(layout);
        RailGraph graph = RailGraph.Build(layout, places.Places);
        SessionAnswer answer = ProgressLine.Show<SessionProgress, SessionAnswer>(
            terminal,
            "sessions",
            progress => $"{Words.Count(progress.Sessions, "session", "sessions")} of at most {progress.AtMost}",
            progress => SessionAnalysis.Run(graph, options, progress, cancel));
        return answer switch
        {
            SessionAnswer.Simulated { Report: var report } =>
                Shown(report, LoadingComparison.Of(graph, PowerAnalysis.Solve(graph, places, CancellationToken.None), report), sessions.Plot, (layout.Lengths, shown.Json)),
            SessionAnswer.NothingToRun { Reason: var reason } => Said(reason, shown.Json),
            _ => throw new InvalidOperationException($"not an answer: {answer}"),
        };
    }

    private int Shown(SessionReport report, LoadingComparison loading, FileInfo? plot, (LengthStyle Lengths, bool Json) shown)
    {
        if (plot is not null)
        {
            PictureFile.Write(plot, SessionPlot.Draw(report, loading));
            terminal.Note($"wrote {plot}");
        }

        if (shown.Json)
        {
            terminal.Json(new JsonObject { ["session"] = SessionJson.Of(report, loading) });
        }
        else
        {
            SessionText.Show(terminal, report, loading, shown.Lengths);
        }

        return report.WasStopped ? ExitCode.Stopped : ExitCode.Fine;
    }

    private int Said(string reason, bool json)
    {
        if (json)
        {
            terminal.Json(new JsonObject { ["session"] = new JsonObject { ["reason"] = reason } });
        }
        else
        {
            terminal.Markup(Words.Plain(reason));
        }

        return ExitCode.Fine;
    }
}
