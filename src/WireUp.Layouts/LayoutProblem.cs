namespace WireUp.Layouts;

/// <summary>One thing in a layout file that cannot be read, or is probably not what was meant.</summary>
/// <param name="Rule">The kind of problem.</param>
/// <param name="File">Name of the file, as given to the reader.</param>
/// <param name="Line">Line, counted from 1.</param>
/// <param name="Column">Column, counted from 1 in UTF-16 units.</param>
/// <param name="Text">The text that is wrong, as written; empty where something is missing.</param>
/// <param name="Message">What is wrong, one sentence without a full stop.</param>
/// <param name="Expected">What would be right.</param>
public sealed record LayoutProblem(
    LayoutRule Rule, string File, int Line, int Column, string Text, string Message, string Expected)
{
    /// <summary>The code, for instance <c>WU1010</c>.</summary>
    public string Code => Rule.Code;

    /// <summary>How much it matters.</summary>
    public ProblemSeverity Severity => Rule.Severity;

    /// <summary>One line in the form compilers use: <c>file:line:column: error WU1010: message; expected …</c>.</summary>
    public override string ToString()
    {
        string severity = Severity == ProblemSeverity.Error ? "error" : "warning";
        return $"{File}:{Line}:{Column}: {severity} {Code}: {Message}; expected {Expected}";
    }
}
