using WireUp.Layouts.Text;

namespace WireUp.Layouts.Reading;

/// <summary>
/// The parts of a run as written: <c>main &gt; P1 2.0 m</c>, with the wire behind it where it is not that of the bus, and behind that the
/// connectors it goes through: <c>P1 &gt; P2 3.1 m 10 AWG 2 connectors</c>.
/// </summary>
internal sealed record RunText(ChainPart From, ChainPart To, ChainPart Length, ChainPart? Wire, ChainPart? Connectors)
{
    public const string Example = "a run such as main > P1 2.0 m, or main > P1 2.0 m 10 AWG 2 connectors";

    private static readonly string[] WireUnits = ["AWG", "awg", "mm2", "mm²"];

    private static readonly string[] ConnectorWords = ["connectors", "connector"];

    /// <summary>The parts, or null when the text has another form.</summary>
    public static RunText? Split(TextNode.Scalar scalar)
    {
        string whole = scalar.Value.TrimEnd();
        int connectorsBegin = ConnectorsBegin(whole);
        string text = whole[..connectorsBegin];
        int arrow = text.IndexOf('>', StringComparison.Ordinal);
        if (arrow < 0)
        {
            return null;
        }

        int toBegin = SkipBlanks(text, arrow + 1);
        int toEnd = toBegin;
        while (toEnd < text.Length && !char.IsWhiteSpace(text[toEnd]))
        {
            toEnd++;
        }

        int lengthBegin = SkipBlanks(text, toEnd);
        int wireBegin = WireBegin(text, lengthBegin);
        int fromBegin = SkipBlanks(text, 0);
        ChainPart from = new(text[Math.Min(fromBegin, arrow)..arrow].TrimEnd(), scalar.At(fromBegin));
        ChainPart to = new(text[toBegin..toEnd], scalar.At(toBegin));
        ChainPart length = new(text[lengthBegin..wireBegin].TrimEnd(), scalar.At(lengthBegin));
        ChainPart? wire = wireBegin < text.Length ? new ChainPart(text[wireBegin..].TrimEnd(), scalar.At(wireBegin)) : null;
        ChainPart? connectors = connectorsBegin < whole.Length
            ? new ChainPart(whole[connectorsBegin..whole.LastIndexOf(' ')].TrimEnd(), scalar.At(connectorsBegin))
            : null;
        return from.Text.Length == 0 || to.Text.Length == 0 || length.Text.Length == 0 ? null : new RunText(from, to, length, wire, connectors);
    }

    /// <summary>Where the number before the word for connectors begins, at the very end of the text; else the end of the text.</summary>
    private static int ConnectorsBegin(string text) =>
        Array.Find(ConnectorWords, word => text.EndsWith($" {word}", StringComparison.Ordinal)) is { } word
            ? NumberBegin(text, text.Length - word.Length, 0)
            : text.Length;

    /// <summary>Where the wire begins: at the number before a wire's unit at the very end; else the end of the text.</summary>
    public static int WireBegin(string text, int from)
    {
        string trimmed = text.TrimEnd();
        foreach (string make in (ReadOnlySpan<string>)[Quantities.WireText.Stranded, Quantities.WireText.Solid])
        {
            trimmed = trimmed.EndsWith($" {make}", StringComparison.Ordinal) ? trimmed[..^make.Length].TrimEnd() : trimmed;
        }

        string? unit = Array.Find(WireUnits, word => trimmed.EndsWith(word, StringComparison.Ordinal));
        if (unit is null)
        {
            return text.Length;
        }

        return NumberBegin(trimmed, trimmed.Length - unit.Length, from);
    }

    /// <summary>Where the word before a place begins, at or behind <paramref name="from"/>.</summary>
    private static int NumberBegin(string text, int before, int from)
    {
        int i = before;
        while (i > from && char.IsWhiteSpace(text[i - 1]))
        {
            i--;
        }

        while (i > from && !char.IsWhiteSpace(text[i - 1]))
        {
            i--;
        }

        return i;
    }

    private static int SkipBlanks(string text, int from)
    {
        int i = from;
        while (i < text.Length && char.IsWhiteSpace(text[i]))
        {
            i++;
        }

        return i;
    }
}
