namespace WireUp.Layouts.Reading;

/// <summary>Guesses which word somebody meant.</summary>
internal static class Spelling
{
    /// <summary>Beyond this many known words nothing is guessed: it would cost more than it helps.</summary>
    private const int MostWords = 5_000;

    /// <summary>What to expect instead of a wrong word: the nearest known one, or else all of them.</summary>
    public static string Expect(string wrong, IEnumerable<string> known)
    {
        List<string> words = [.. known];
        return Nearest(wrong, words) is { } nearest ? $"\"{nearest}\" (did you mean that?)" : List(words);
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

        int allowed = Math.Max(1, wrong.Length / 3);
        string? best = null;
        foreach (string word in known)
        {
            int slips = Slips(wrong, word, allowed);
            if (slips < (best is null ? allowed + 1 : Slips(wrong, best, allowed)))
            {
                best = word;
            }
        }

        return best;
    }

    /// <summary>
    /// Insertions, deletions, substitutions and swaps of neighbours that turn one word into the other, letter case aside;
    /// <paramref name="allowed"/> + 1 when there are more than that.
    /// Source: optimal string alignment, the restricted form of F. J. Damerau's distance, Communications of the ACM 7 (1964) 171–176.
    /// </summary>
    private static int Slips(string from, string to, int allowed)
    {
        if (Math.Abs(from.Length - to.Length) > allowed)
        {
            return allowed + 1;
        }

        int[,] table = new int[from.Length + 1, to.Length + 1];
        for (int i = 0; i <= from.Length; i++)
        {
            for (int j = 0; j <= to.Length; j++)
            {
                table[i, j] = i == 0 || j == 0 ? i + j : Cheapest(from, to, table, (i, j));
            }
        }

        return Math.Min(table[from.Length, to.Length], allowed + 1);
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
