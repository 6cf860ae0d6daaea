using System.Collections.Frozen;

namespace WireUp.Layouts;

/// <summary>
/// The letters that stand for a wire's colour. Source of the letters: IEC 60757, Code for designation of colours. Letters carry
/// the meaning in every paper; a colour alone never does.
/// </summary>
public static class ColourLetters
{
    /// <summary>Letters that may be chosen. GNYE is left out on purpose: green-yellow is for protective earth and nothing else.</summary>
    public static readonly FrozenDictionary<string, string> Names = new Dictionary<string, string>
    {
        ["BK"] = "black",
        ["BN"] = "brown",
        ["RD"] = "red",
        ["OG"] = "orange",
        ["YE"] = "yellow",
        ["GN"] = "green",
        ["BU"] = "blue",
        ["VT"] = "violet",
        ["GY"] = "grey",
        ["WH"] = "white",
        ["PK"] = "pink",
        ["TQ"] = "turquoise",
        ["SR"] = "silver",
        ["GD"] = "gold",
    }.ToFrozenDictionary();

    /// <summary>Whether a colour is that of protective earth, which no wire of a layout may have: green with yellow.</summary>
    /// <param name="letters">Its letters.</param>
    /// <param name="colour">The colour in words.</param>
    public static bool IsEarth(string letters, string colour) =>
        letters.ToUpperInvariant() is "GNYE" or "YEGN"
        || (colour.Contains("green", StringComparison.OrdinalIgnoreCase) && colour.Contains("yellow", StringComparison.OrdinalIgnoreCase));
}

/// <summary>Which colour each leg has, by its letters. All may be the same where only one colour is at hand: every wire is labelled at both ends.</summary>
/// <param name="LegA">Leg A.</param>
/// <param name="LegB">Leg B.</param>
/// <param name="Frog">The wire from a frog to its contact.</param>
public sealed record WirePalette(string LegA, string LegB, string Frog)
{
    /// <summary>
    /// What a layout gets when nobody chooses. Source: NEM 605 (2014): digital red and brown, DC traction white and yellow,
    /// AC grey with black for the common return, violet for whatever has no colour of its own.
    /// </summary>
    public static WirePalette For(ControlSystem control) => control switch
    {
        ControlSystem.Command => new("RD", "BN", "VT"),
        ControlSystem.Direct => new("WH", "YE", "VT"),
        ControlSystem.ThreeRail => new("GY", "BK", "VT"),
        _ => throw new ArgumentOutOfRangeException(nameof(control), control, "no palette"),
    };

    /// <summary>The colours of a layout: those its file names, else those of its control system.</summary>
    public static WirePalette Of(Layout layout)
    {
        WirePalette usual = For(layout.Control);
        return new(layout.Papers.LegA ?? usual.LegA, layout.Papers.LegB ?? usual.LegB, layout.Papers.Frog ?? usual.Frog);
    }
}
