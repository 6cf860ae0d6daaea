using System.Globalization;

namespace WireUp.Documents;

/// <summary>An opaque colour.</summary>
/// <param name="Red">Red, 0 to 255.</param>
/// <param name="Green">Green, 0 to 255.</param>
/// <param name="Blue">Blue, 0 to 255.</param>
public readonly record struct SceneColour(byte Red, byte Green, byte Blue)
{
    /// <summary>The colour mixed with white.</summary>
    /// <param name="share">How much of this colour is left, from 0 (white) to 1 (unchanged).</param>
    public SceneColour Tint(double share) => new(Mix(Red, share), Mix(Green, share), Mix(Blue, share));

    /// <summary>As written in SVG: <c>#0072b2</c>.</summary>
    public override string ToString() => string.Create(CultureInfo.InvariantCulture, $"#{Red:x2}{Green:x2}{Blue:x2}");

    private static byte Mix(byte part, double share) => (byte)Math.Round(255 - (share * (255 - part)));
}

/// <summary>
/// The colours of the drawings. Source of the eight named hues: M. Okabe and K. Ito, "Color Universal Design", 2008, the set that
/// people with any common kind of colour vision can tell apart. No drawing relies on them alone.
/// </summary>
public static class SceneColours
{
    /// <summary>Ink for lines and words.</summary>
    public static readonly SceneColour Ink = new(32, 32, 32);

    /// <summary>Quiet ink for what is only context.</summary>
    public static readonly SceneColour Quiet = new(105, 105, 105);

    /// <summary>Hair lines and borders.</summary>
    public static readonly SceneColour Hair = new(190, 188, 182);

    /// <summary>The shade behind every second line of a table.</summary>
    public static readonly SceneColour Zebra = new(244, 242, 237);

    /// <summary>Paper.</summary>
    public static readonly SceneColour Paper = new(255, 255, 255);

    /// <summary>Okabe–Ito blue: rail A.</summary>
    public static readonly SceneColour Blue = new(0, 114, 178);

    /// <summary>Okabe–Ito vermilion: rail B.</summary>
    public static readonly SceneColour Vermilion = new(213, 94, 0);

    /// <summary>Okabe–Ito orange.</summary>
    public static readonly SceneColour Orange = new(230, 159, 0);

    /// <summary>Okabe–Ito sky blue.</summary>
    public static readonly SceneColour SkyBlue = new(86, 180, 233);

    /// <summary>Okabe–Ito bluish green.</summary>
    public static readonly SceneColour Green = new(0, 158, 115);

    /// <summary>Okabe–Ito yellow.</summary>
    public static readonly SceneColour Yellow = new(240, 228, 66);

    /// <summary>Okabe–Ito reddish purple.</summary>
    public static readonly SceneColour Purple = new(204, 121, 167);
}
