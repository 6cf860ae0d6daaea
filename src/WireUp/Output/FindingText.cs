using WireUp.Checking;
using WireUp.Layouts;
using WireUp.Rails;

namespace WireUp.Output;

/// <summary>Findings as a person reads them: the problem, the facts, one action.</summary>
internal static class FindingText
{
    private const int LongestPath = 12;

    /// <summary>Writes every finding, errors first, and a line that counts them.</summary>
    public static void Write(Terminal terminal, IReadOnlyCollection<Finding> findings, LengthStyle lengths)
    {
        foreach (Finding finding in findings.OrderByDescending(finding => finding.Severity))
        {
            terminal.Markup($"{Words.Marked(finding.Severity)} [bold]{finding.Code}[/] {Words.Plain(finding.Message)}");
            if (finding.Path.Length > 0)
            {
                terminal.Markup($"    path: {Words.Plain(lengths.Retell(string.Join(" > ", Shorten(finding.Path))))}");
            }

            if (finding.Turnouts.Count > 0)
            {
                IEnumerable<string> positions = finding.Turnouts.Select(turnout => Moment.Of(turnout.Value) is { } moment
                    ? $"{turnout.Key} moving from {moment.From} to {moment.To}"
                    : $"{turnout.Key} set {turnout.Value}");
                terminal.Markup($"    when: {Words.Plain(string.Join(", ", positions))}");
            }

            terminal.Markup($"    do:   {Words.Plain(finding.Remedy)}");
        }

        terminal.Markup(Words.Plain(Summary(findings)));
    }

    /// <summary>How many of each.</summary>
    public static string Summary(IReadOnlyCollection<Finding> findings) =>
        $"{Words.Count(Of(findings, Severity.Error), "error", "errors")}, "
        + $"{Words.Count(Of(findings, Severity.Warning), "warning", "warnings")}, "
        + $"{Words.Count(Of(findings, Severity.Advice), "piece of advice", "pieces of advice")}";

    private static int Of(IReadOnlyCollection<Finding> findings, Severity severity) =>
        findings.Count(finding => finding.Severity == severity);

    private static IEnumerable<string> Shorten(IReadOnlyList<string> path) => path.Count <= LongestPath
        ? path
        : [.. path.Take(LongestPath / 2), $"… {path.Count - LongestPath} more …", .. path.Skip(path.Count - (LongestPath / 2))];
}
