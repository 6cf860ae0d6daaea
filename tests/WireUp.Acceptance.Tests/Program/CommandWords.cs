using System.Text.RegularExpressions;

namespace WireUp.Acceptance.Tests.Program;

/// <summary>The words of a command as a page shows it, quotes taken off.</summary>
internal static partial class CommandWords
{
    public static string[] Of(string command) => [.. Word().Matches(command).Select(word => word.Value.Trim('\''))];

    [GeneratedRegex(@"'[^']*'|\S+", RegexOptions.None, matchTimeoutMilliseconds: 5000)]
    private static partial Regex Word();
}
