using System.Collections.Frozen;
using System.Collections.Immutable;
using WireUp.Layouts;

namespace WireUp.Documents;

/// <summary>The letters of the districts on paper, in the order of the layout. A and B are left out: they name the rails.</summary>
internal sealed class DistrictLetters
{
    private const string Alphabet = "CDEFGHJKLMNPQRSTUVWXYZ"; // without I and O, which look like figures
    private readonly FrozenDictionary<string, int> _indices;

    public DistrictLetters(Layout layout) =>
        _indices = layout.Wiring.Districts.Select((district, i) => (district.Name, i)).ToFrozenDictionary(pair => pair.Name, pair => pair.i);

    /// <summary>The district's place in the layout; −1 for an unknown one.</summary>
    public int IndexOf(string district) => _indices.GetValueOrDefault(district, -1);

    /// <summary>The district's letter: C, D, …, Z, then CC, DD, ….</summary>
    public string Of(string district)
    {
        int index = IndexOf(district);
        return index < 0 ? "?" : new string(Alphabet[index % Alphabet.Length], 1 + (index / Alphabet.Length));
    }
}

/// <summary>How a district's band looks: a tint and a hatch, each with a meaning of its own so that either is enough.</summary>
/// <param name="Tint">The tint.</param>
/// <param name="Dark">The colour of its hatch.</param>
/// <param name="Hatch">The hatch.</param>
internal sealed record DistrictLook(SceneColour Tint, SceneColour Dark, HatchKind Hatch)
{
    private static readonly ImmutableArray<SceneColour> Hues =
    [
        SceneColours.Green, SceneColours.Orange, SceneColours.Purple, SceneColours.SkyBlue, SceneColours.Yellow, SceneColours.Quiet,
    ];

    /// <summary>The look of the district of that index; hues and hatches go out of step, so that pairs repeat late.</summary>
    public static DistrictLook Of(int index)
    {
        SceneColour hue = Hues[index % Hues.Length];
        HatchKind[] kinds = Enum.GetValues<HatchKind>();
        return new(hue.Tint(0.26), hue.Tint(0.95), kinds[(index + (2 * (index / Hues.Length))) % kinds.Length]);
    }
}

/// <summary>The strokes that fill a band.</summary>
internal enum HatchKind
{
    /// <summary>Strokes leaning forward.</summary>
    Forward,

    /// <summary>Strokes leaning back.</summary>
    Back,

    /// <summary>Strokes straight across, in pairs.</summary>
    Pairs,

    /// <summary>Crosses.</summary>
    Crosses,

    /// <summary>Single strokes straight across, far apart.</summary>
    Ladder,

    /// <summary>A line along each edge.</summary>
    Edges,
}
