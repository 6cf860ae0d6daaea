using System.Collections.Immutable;

namespace WireUp.Layouts;

/// <summary>How the people of a railway want its papers: colours of their own wire, words of their own, where its work sheet is.</summary>
public sealed record Papers
{
    /// <summary>Nothing is asked for.</summary>
    public static readonly Papers Usual = new();

    /// <summary>Letters of the colour of leg A, or null for what is usual under the control system.</summary>
    public string? LegA { get; init; }

    /// <summary>Letters of the colour of leg B, or null for what is usual under the control system.</summary>
    public string? LegB { get; init; }

    /// <summary>Letters of the colour of the wire from a frog to its contact, or null for what is usual.</summary>
    public string? Frog { get; init; }

    /// <summary>What these people call leg A, or null where they have no word of their own.</summary>
    public string? LegAName { get; init; }

    /// <summary>What these people call leg B, or null where they have no word of their own.</summary>
    public string? LegBName { get; init; }

    /// <summary>Letters of their own, each with the colour it stands for; they come before those of <see cref="ColourLetters"/>.</summary>
    public ImmutableSortedDictionary<string, string> Letters { get; init; } = ImmutableSortedDictionary.Create<string, string>(StringComparer.Ordinal);

    /// <summary>The address of the work sheet, which codes on labels lead to; null where codes hold words.</summary>
    public string? WorkSheet { get; init; }

    /// <summary>The colour that letters stand for; null where nobody has said.</summary>
    public string? ColourOf(string letters) => Letters.GetValueOrDefault(letters) ?? ColourLetters.Names.GetValueOrDefault(letters);

    /// <summary>Letters with their colour: <c>RD (red)</c>; the letters alone where nobody has said what they stand for.</summary>
    public string WithColour(string letters) => ColourOf(letters) is { } colour ? $"{letters} ({colour})" : letters;

    /// <summary>A leg with the word that these people have for it: <c>leg A</c>, <c>leg A (outer)</c>.</summary>
    /// <param name="leg">A or B.</param>
    public string Leg(string leg) => (leg == "A" ? LegAName : LegBName) is { } name ? $"leg {leg} ({name})" : $"leg {leg}";

    /// <summary>The address of a wire's line on the work sheet, or null where the sheet has none. The part behind # is the wire's name.</summary>
    /// <param name="wire">Its name: <c>f12/A</c>.</param>
    public string? LineOf(string wire) => WorkSheet is null
        ? null
        // Slash and colon may stand in that part as they are (RFC 3986, section 3.5); a shorter address makes a coarser code.
        : $"{WorkSheet}#{Uri.EscapeDataString(wire).Replace("%2F", "/", StringComparison.Ordinal).Replace("%3A", ":", StringComparison.Ordinal)}";
}
