using System.Globalization;
using System.Text;

namespace WireUp.Layouts.Writing;

/// <summary>Writes single values: plain where YAML reads them back as they are, else in double quotes.</summary>
internal static class ScalarText
{
    public static string Write(string value) => IsSafe(value) ? value : Quote(value);

    private static bool IsSafe(string value) =>
        value.Length > 0 && value is not ("null" or "~") && char.IsLetterOrDigit(value[0]) && value[^1] != ' '
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
