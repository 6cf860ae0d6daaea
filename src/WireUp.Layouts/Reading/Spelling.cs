namespace WireUp.Layouts.Reading;

/// <summary>Guesses which word somebody meant.</summary>
internal static class Spelling
{
    /// <summary>Beyond this many known words nothing is guessed: it would cost more than it helps.</summary>
    private const int MostWords = 5_000;

    /// <summary>Most slips that are forgiven, in long words.</summary>
    private const int MostSlips = 3;

    /// <summary>What to expect instead of a wrong word: the one that it is said for, else the nearest known one, or else all of them.</summary>
    public static string Expect(string wrong, IEnumerable<string> known)
    {
        List<string> words = [.. known];
        return (TradeWords.Meant(wrong, words) ?? Nearest(wrong, words)) is { } nearest ? $"\"{nearest}\" (did you mean that?)" : List(words);
    }

    /// <summary>The words in quotes, at most a dozen of them.</summary>
    public static string List(IReadOnlyList<string> words) => words.Count switch
    {
        0 => "nothing",
        1 => $"\"{words[0]}\"",
        <= 12 => string.Join(", ", words.Take(words.Count - 1).Select(word => $"\"{word}\"")) + $" or \"{words[^1]}\"",
        _ => string.Join(", ", words.Take(10).Select(word => $"\"{word}\"")) + $" or one of {words.Count - 10} more",
    };

    /// <summary>The known word with the fewest slips of the pen from the wrong one, when these are few enough.</summary>
    public static string? Nearest(string wrong, IReadOnlyList<string> known)
    {
        if (known.Count > MostWords || wrong.Length > LayoutLimits.NameCharacters)
        {
            return null;
        }

        int fewest = Math.Clamp(wrong.Length / 3, 1, MostSlips) + 1;
        string? best = null;
        foreach (string word in known)
        {
            int slips = Slips(wrong, word, fewest - 1);
            if (slips < fewest)
            {
                (best, fewest) = (word, slips);
            }
        }

        return best;
    }

    /// <summary>
    /// Insertions, deletions, substitutions and swaps of neighbours that turn one word into the other, letter case aside;
    /// <paramref name="allowed"/> + 1 when there are more than that. Only the band of the table within that many places of its
    /// diagonal is filled: outside it every entry is larger.
    /// Source: optimal string alignment, the restricted form of F. J. Damerau's distance, Communications of the ACM 7 (1964) 171–176.
    /// </summary>
    private static int Slips(string from, string to, int allowed)
    {
        int tooMany = allowed + 1;
        if (Math.Abs(from.Length - to.Length) > allowed)
        {
            return tooMany;
        }

        int[,] table = new int[from.Length + 1, to.Length + 1];
        for (int i = 0; i <= from.Length; i++)
        {
            int fewest = tooMany;
            for (int j = Math.Max(0, i - tooMany); j <= Math.Min(to.Length, i + tooMany); j++)
            {
                bool inBand = Math.Abs(i - j) <= allowed;
                table[i, j] = !inBand ? tooMany : i == 0 || j == 0 ? i + j : Cheapest(from, to, table, (i, j));
                fewest = Math.Min(fewest, table[i, j]);
            }

            if (fewest == tooMany)
            {
                return tooMany;
            }
        }

        return Math.Min(table[from.Length, to.Length], tooMany);
    }

    private static int Cheapest(string from, string to, int[,] table, (int I, int J) at)
    {
        (int i, int j) = at;
        int differs = Same(from[i - 1], to[j - 1]) ? 0 : 1;
        int cost = Math.Min(Math.Min(table[i - 1, j] + 1, table[i, j - 1] + 1), table[i - 1, j - 1] + differs);
        bool swapped = i > 1 && j > 1 && Same(from[i - 1], to[j - 2]) && Same(from[i - 2], to[j - 1]);
        return swapped ? Math.Min(cost, table[i - 2, j - 2] + 1) : cost;
    }

    private static bool Same(char a, char b) => char.ToLowerInvariant(a) == char.ToLowerInvariant(b);
}
