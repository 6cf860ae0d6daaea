using System.Collections.Immutable;

namespace WireUp.Faults;

/// <summary>Finds parts by what a person calls them: <c>joint main-7.b/left</c>, <c>feeder f4/A</c>, <c>bus run P1–P2 wire B</c>.</summary>
public static class PartNames
{
    /// <summary>The parts meant: one where the name is clear, several where it is not, none where nothing is called so.</summary>
    /// <param name="parts">The parts of the layout.</param>
    /// <param name="name">What the person calls it; the words that results name it by always do.</param>
    public static ImmutableArray<FaultElement> Find(ImmutableArray<FaultElement> parts, string name)
    {
        string said = name.Trim();
        ImmutableArray<FaultElement> exact = [.. parts.Where(part => part.Place == said)];
        if (!exact.IsEmpty)
        {
            return exact;
        }

        string[] words = Tokens(said);
        ImmutableArray<FaultElement> holding = [.. parts.Where(part => words.Length > 0 && Holds(part, words))];

        // A tap is a part of its feeder in words only: who names a feeder first means the feeder.
        ImmutableArray<FaultElement> begun = [.. holding.Where(part => part.Place.StartsWith(words[0] + " ", StringComparison.OrdinalIgnoreCase))];
        return begun.IsEmpty ? holding : begun;
    }

    private static bool Holds(FaultElement part, string[] words)
    {
        string[] own = Tokens(part.Place);
        int left = Array.IndexOf(words, "left"), right = Array.IndexOf(words, "right"), side = Math.Max(left, right);

        // The rail of a joint is told as seen from the first end; who names the second end sees it from there.
        bool turned = side > 0 && part.End is { } first && own.Length > 2 && words.Contains(own[2]) && !words.Contains(first.ToString());
        return words.Select((word, i) => turned && i == side ? word == "left" ? "right" : "left" : word).All(own.Contains);
    }

    private static string[] Tokens(string text) => text.Split([' ', ',', '/', '–', ':'], StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries);
}
