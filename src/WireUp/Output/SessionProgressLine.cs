using Spectre.Console;
using WireUp.Circuits.Sessions;

namespace WireUp.Output;

/// <summary>Shows how many sessions are done, on standard error, where somebody is looking.</summary>
internal static class SessionProgressLine
{
    /// <summary>Runs the work with a progress line; without one when standard error is not a terminal.</summary>
    public static SessionAnswer Show(Terminal terminal, Func<IProgress<SessionProgress>?, SessionAnswer> work)
    {
        if (!terminal.ShowsProgress)
        {
            return work(null);
        }

        SessionAnswer? answer = null;
        terminal.Error.Status().Start("sessions", status => answer = work(new Line(status)));
        return answer!;
    }

    private sealed class Line(StatusContext status) : IProgress<SessionProgress>
    {
        public void Report(SessionProgress value) =>
            status.Status = Words.Plain($"{Words.Count(value.Sessions, "session", "sessions")} of at most {value.AtMost}");
    }
}
