using System.Collections.Frozen;
using System.Globalization;
using System.Text;

namespace WireUp.Layouts.Writing;

/// <summary>
/// Writes texts and names: plain where YAML reads them back as text, else in double quotes, so that no other reader takes a piece
/// named <c>1</c> for a number or one named <c>no</c> for a yes-or-no.
/// </summary>
internal static class ScalarText
{
    private static readonly FrozenSet<string> WordsOfYaml =
        new[] { "null", "true", "false", "yes", "no", "on", "off", "y", "n" }.ToFrozenSet(StringComparer.OrdinalIgnoreCase);

    public static string Write(string value) => IsSafe(value) ? value : Quote(value);

    private static bool IsSafe(string value) =>
        value.Length > 0 && char.IsLetter(value[0]) && value[^1] != ' ' && !WordsOfYaml.Contains(value)
        && value.All(c => char.IsLetterOrDigit(c) || c is ' ' or '-' or '_' or '.' or '&' or '(' or ')' or '/' or '+' or '\'');

    private static string Quote(string value)
    {
        StringBuilder text = new("\"");
        foreach (char c in value)
        {
            _ = c switch
            {
                '"' => text.Append("\\\""),
                '\\' => text.Append("\\\\"),
                _ when char.IsControl(c) || c is '\u2028' or '\u2029' or '\uFEFF' => text.Append(CultureInfo.InvariantCulture, $"\\u{(int)c:X4}"),
                _ => text.Append(c),
            };
        }

        return text.Append('"').ToString();
    }
}
