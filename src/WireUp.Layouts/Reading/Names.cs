using WireUp.Layouts.Text;

namespace WireUp.Layouts.Reading;

/// <summary>What a name may look like.</summary>
internal static class Names
{
    private const string TightExpected = "letters, digits, hyphens and underscores, at most 64 of them, the first a letter or digit, not \"x-\"";

    private const string LooseExpected = "at most 64 letters, digits, spaces and simple punctuation, the first a letter or digit, not \"x-\"";

    /// <summary>Whether the text can name a piece, a bus point or a device: it must be readable within chains and runs.</summary>
    public static bool IsTight(string text) => HasLength(text) && text.All(IsTightCharacter);

    /// <summary>Whether the text can name a train or a locomotive.</summary>
    public static bool IsLoose(string text) =>
        HasLength(text) && text.All(c => IsTightCharacter(c) || c is ' ' or '.' or ',' or '\'' or '&' or '(' or ')' or '/' or '+' or '#')
        && text == text.Trim();

    /// <summary>Whether a key is a name of that kind; reports it when it is not.</summary>
    public static bool Check(TextNode.Scalar key, ReadContext context, bool loose = false)
    {
        if (loose ? IsLoose(key.Value) : IsTight(key.Value))
        {
            return true;
        }

        context.Add(LayoutRules.BadName, key.Start, key.Value, $"\"{ProblemList.Shorten(key.Value)}\" cannot be a name",
            loose ? LooseExpected : TightExpected);
        return false;
    }

    private static bool HasLength(string text) =>
        text.Length is > 0 and <= LayoutLimits.NameCharacters && char.IsLetterOrDigit(text[0]) && !text.StartsWith("x-", StringComparison.Ordinal);

    private static bool IsTightCharacter(char c) => char.IsLetterOrDigit(c) || c is '-' or '_';
}
