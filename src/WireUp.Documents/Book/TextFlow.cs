namespace WireUp.Documents.Book;

/// <summary>Breaks text into lines of a width.</summary>
internal static class TextFlow
{
    /// <summary>The lines; words longer than the width are broken. Never empty.</summary>
    public static IReadOnlyList<string> Lines(string text, double width, TextStyle style)
    {
        List<string> lines = [];
        string line = string.Empty;
        foreach (string word in SceneText.Clean(text).Split(' ', StringSplitOptions.RemoveEmptyEntries).SelectMany(word => Parts(word, width, style)))
        {
            string longer = line.Length == 0 ? word : $"{line} {word}";
            if (line.Length == 0 || Width(longer, style) <= width)
            {
                line = longer;
                continue;
            }

            lines.Add(line);
            line = word;
        }

        lines.Add(line);
        return lines;
    }

    /// <summary>The line with … at its end, short enough for a width.</summary>
    public static string Shorten(string line, double width, TextStyle style)
    {
        string kept = line;
        while (kept.Length > 1 && Width(kept + "…", style) > width) kept = kept[..^1];
        return kept.TrimEnd() + "…";
    }

    /// <summary>The style made smaller until the words fit a width, not below a size in millimetres.</summary>
    public static TextStyle Fitting(string words, TextStyle style, double width, double least)
    {
        const double Safely = 0.99;
        double needed = Width(words, style);
        return needed <= width ? style : style with { SizeMillimetres = Math.Max(Math.Min(least, style.SizeMillimetres), Safely * style.SizeMillimetres * width / needed) };
    }

    /// <summary>Width of a line of text in a style.</summary>
    public static double Width(string text, TextStyle style) => SceneText.Width(text, style.SizeMillimetres, style.Bold);

    /// <summary>A word in parts that fit, broken after a mark that separates where there is one.</summary>
    private static IEnumerable<string> Parts(string word, double width, TextStyle style)
    {
        while (word.Length > 1 && Width(word, style) > width)
        {
            int fit = word.Length - 1;
            while (fit > 1 && Width(word[..fit], style) > width) fit--;
            int mark = word.LastIndexOfAny(['/', '@', '.', '-', ':', ','], fit - 1);
            if (mark > fit / 3) fit = mark + 1;
            if (char.IsHighSurrogate(word[fit - 1]) && fit > 1) fit--;
            yield return word[..fit];
            word = word[fit..];
        }

        yield return word;
    }
}
