using System.Collections.Frozen;
using WireUp.Layouts;

namespace WireUp.Documents;

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
}

/// <summary>Which colour each leg has, by IEC 60757 letters.</summary>
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

    /// <summary>What is wrong with the palette, or null: an unknown letter, GNYE, or two legs that cannot be told apart.</summary>
    public string? Problem =>
        new[] { LegA, LegB, Frog }.FirstOrDefault(letter => !ColourLetters.Names.ContainsKey(letter)) is { } unknown
            ? $"'{unknown}' is no colour letter for a layout wire: use {string.Join(' ', ColourLetters.Names.Keys.Order(StringComparer.Ordinal))}"
            : LegA == LegB ? $"leg A and leg B are both {LegA}" : null;
}
