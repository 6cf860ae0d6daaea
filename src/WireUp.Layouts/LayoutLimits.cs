namespace WireUp.Layouts;

/// <summary>
/// What a layout file may be at most. Far above any railway, low enough that a hostile file costs neither the memory nor the
/// stack of the machine that reads it.
/// </summary>
public static class LayoutLimits
{
    /// <summary>Characters of the whole file.</summary>
    public const int Characters = 16 * 1024 * 1024;

    /// <summary>Levels of mappings and lists within each other.</summary>
    public const int Depth = 64;

    /// <summary>Keys, values, list items and brackets of the whole file.</summary>
    public const int Parts = 2_000_000;

    /// <summary>Characters of one key or value.</summary>
    public const int ScalarCharacters = 10_000;

    /// <summary>Pieces of track.</summary>
    public const int Pieces = 100_000;

    /// <summary>Points of the benchwork's corridors and outlines.</summary>
    public const int BenchworkPoints = 2000;

    /// <summary>Characters of one name.</summary>
    public const int NameCharacters = 64;

    /// <summary>Problems listed; further ones are only mentioned.</summary>
    public const int Problems = 200;
}
