using System.Collections.Immutable;

namespace WireUp.Layouts.Text;

/// <summary>Collects the problems of one file.</summary>
internal sealed class ProblemList(string file)
{
    private readonly List<LayoutProblem> _problems = [];
    private bool _full;

    public bool HasErrors => _problems.Exists(problem => problem.Severity == ProblemSeverity.Error);

    /// <summary>Whether no further problem is listed: then nothing is worth finding out for it.</summary>
    public bool IsFull => _problems.Count >= LayoutLimits.Problems;

    /// <summary>Whether the one error is that of a message.</summary>
    public bool HasOnly(string message) => _problems.FindAll(problem => problem.Severity == ProblemSeverity.Error) is [var only] && only.Message == message;

    public void Add(LayoutRule rule, TextPosition at, string text, string message, string expected)
    {
        if (!IsFull)
        {
            _problems.Add(new(rule, file, at.Line, at.Column, Shorten(text), message, expected));
        }
        else if (!_full)
        {
            _full = true;
            _problems.Add(new(LayoutRules.TooManyProblems, file, at.Line, at.Column, "",
                $"the file has more than {LayoutLimits.Problems} problems", "a file with fewer: mend those listed first"));
        }
    }

    public ImmutableArray<LayoutProblem> InOrder() =>
        [.. _problems.OrderBy(problem => problem.Rule == LayoutRules.TooManyProblems).ThenBy(problem => problem.Line)
            .ThenBy(problem => problem.Column).ThenBy(problem => problem.Code, StringComparer.Ordinal)];

    /// <summary>Text fit for a message: on one line, cut where it is long.</summary>
    public static string Shorten(string text)
    {
        string line = text.ReplaceLineEndings(" ");
        return line.Length <= 80 ? line : line[..77] + "...";
    }
}
