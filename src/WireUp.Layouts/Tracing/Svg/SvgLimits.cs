namespace WireUp.Layouts.Tracing.Svg;

/// <summary>What an SVG drawing may be at most: far above any track plan, low enough that a hostile file costs neither memory nor stack.</summary>
public static class SvgLimits
{
    /// <summary>Characters of the whole file.</summary>
    public const int Characters = 16 * 1024 * 1024;

    /// <summary>Elements within each other, those that <c>use</c> brings in included.</summary>
    public const int Depth = 64;

    /// <summary>Elements of the file.</summary>
    public const int Elements = 200_000;

    /// <summary>Elements that are drawn, each time <c>use</c> brings one in counted again.</summary>
    public const int Drawn = 200_000;

    /// <summary>Rules in the style sheets of the file.</summary>
    public const int StyleRules = 300;

    /// <summary>Straight pieces that one curve is cut into.</summary>
    public const int CurvePieces = 500;
}
