using WireUp.Layouts;

namespace WireUp.Documents;

/// <summary>One thing to do to make the later layout out of the earlier one.</summary>
/// <param name="Part">What it is done to: <c>track</c>, <c>joint</c>, <c>gap</c>, <c>feeder</c>, <c>bus</c>, <c>contact</c>, …</param>
/// <param name="Kind">How the layouts differ there.</param>
/// <param name="Name">The thing's name.</param>
/// <param name="Work">What to do, in a word or two: <c>cut</c>, <c>solder in</c>, <c>take away</c>.</param>
public sealed record Change(string Part, DifferenceKind Kind, string Name, string Work)
{
    /// <summary>What it was, in the words of the layout file; empty where it was not there.</summary>
    public string Before { get; init; } = string.Empty;

    /// <summary>What it is to be; empty where it goes.</summary>
    public string After { get; init; } = string.Empty;

    /// <summary>The letter beside it on the drawing of changes and in the lists: N new, T taken away, M moved or made different, R renamed.</summary>
    public string Sign => Signs.Of(Kind);

    /// <summary>Both as one line of words.</summary>
    public string Details => Kind switch
    {
        DifferenceKind.Added => After,
        DifferenceKind.Removed => Before,
        DifferenceKind.Renamed => $"was {Before}",
        _ => $"{Before} → {After}",
    };

    /// <summary>The difference it follows from, or null for contacts, which follow from their trackwork.</summary>
    internal LayoutDifference? Difference { get; init; }

    /// <summary>Letters of kinds.</summary>
    internal static class Signs
    {
        public static string Of(DifferenceKind kind) => kind switch
        {
            DifferenceKind.Added => "N",
            DifferenceKind.Removed => "T",
            DifferenceKind.Moved or DifferenceKind.Changed => "M",
            DifferenceKind.Renamed => "R",
            _ => throw new ArgumentOutOfRangeException(nameof(kind), kind, "no letter"),
        };
    }
}
