using Spectre.Console;

namespace WireUp.Output;

/// <summary>Shows how far long work is, on standard error, where somebody is looking.</summary>
internal static class ProgressLine
{
    /// <summary>Runs the work with a progress line; without one when standard error is not a terminal, a line a step when all is to be told.</summary>
    /// <param name="terminal">Where.</param>
    /// <param name="title">What is being done, shown until the work reports something.</param>
    /// <param name="words">A report in a few words.</param>
    /// <param name="work">The work; told where to report, or null where nobody looks.</param>
    public static TResult Show<TProgress, TResult>(
        Terminal terminal, string title, Func<TProgress, string> words, Func<IProgress<TProgress>?, TResult> work)
    {
        if (!terminal.ShowsProgress)
        {
            return work(terminal.IsVerbose ? new Lines<TProgress>(terminal, words) : null);
        }

        TResult? result = default;
        terminal.Error.Status().Start(title, status => result = work(new Line<TProgress>(status, words)));
        return result!;
    }

    private sealed class Lines<TProgress>(Terminal terminal, Func<TProgress, string> words) : IProgress<TProgress>
    {
        private string? _last;

        public void Report(TProgress value)
        {
            string line = words(value);
            if (line == _last)
            {
                return;
            }

            _last = line;
            terminal.Note(line);
        }
    }

    private sealed class Line<TProgress>(StatusContext status, Func<TProgress, string> words) : IProgress<TProgress>
    {
        public void Report(TProgress value) => status.Status = Words.Plain(words(value));
    }
}
