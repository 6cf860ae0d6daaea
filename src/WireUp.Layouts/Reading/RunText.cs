using WireUp.Layouts.Text;

namespace WireUp.Layouts.Reading;

/// <summary>The parts of a run as written: <c>main &gt; P1 2.0 m</c>, with the wire behind it where it is not that of the bus.</summary>
internal sealed record RunText(ChainPart From, ChainPart To, ChainPart Length, ChainPart? Wire)
{
    public const string Example = "a run such as main > P1 2.0 m, or main > P1 2.0 m 10 AWG";

    private static readonly string[] WireUnits = ["AWG", "awg", "mm2", "mm²"];

    /// <summary>The parts, or null when the text has another form.</summary>
    public static RunText? Split(TextNode.Scalar scalar)
    {
        string text = scalar.Value;
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
        return from.Text.Length == 0 || to.Text.Length == 0 || length.Text.Length == 0 ? null : new RunText(from, to, length, wire);
    }

    /// <summary>Where the wire begins: at the number before a wire's unit at the very end; else the end of the text.</summary>
    private static int WireBegin(string text, int from)
    {
        string trimmed = text.TrimEnd();
        string? unit = Array.Find(WireUnits, word => trimmed.EndsWith(word, StringComparison.Ordinal));
        if (unit is null)
        {
            return text.Length;
        }

        int i = trimmed.Length - unit.Length;
        while (i > from && char.IsWhiteSpace(trimmed[i - 1]))
        {
            i--;
        }

        while (i > from && !char.IsWhiteSpace(trimmed[i - 1]))
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
