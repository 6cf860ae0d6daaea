using UnitsNet;

namespace WireUp.Layouts;

/// <summary>A picture of the plan, such as a scan, that the track is drawn over. It says nothing about the railway.</summary>
/// <param name="File">Name of the picture's file, which lies beside the layout file.</param>
/// <param name="Width">How wide the picture lies on the plan, in the size of the railway; its height follows.</param>
public sealed record PlanPicture(string File, Length Width)
{
    /// <summary>What a name of a file may end in.</summary>
    public const string Expected = "the name of a picture beside this file, without folders, that ends in .png, .jpg, .jpeg or .svg, for instance attic.picture.png";

    private const int LongestName = 120;

    private static readonly string[] Endings = [".png", ".jpg", ".jpeg", ".svg"];

    /// <summary>Where its lower left corner lies, in metres.</summary>
    public PlanPoint At { get; init; }

    /// <summary>How far it is turned counter-clockwise about its lower left corner, 0 to 360 degrees.</summary>
    public Angle Turn { get; init; }

    /// <summary>Whether a text can be the name of a picture's file: a plain name that leads to no other folder.</summary>
    public static bool IsFileName(string text) => text.Length is > 0 and <= LongestName
        && char.IsLetterOrDigit(text[0])
        && text.All(letter => char.IsLetterOrDigit(letter) || letter is ' ' or '-' or '_' or '.')
        && !text.Contains("..", StringComparison.Ordinal)
        && Endings.Any(ending => text.Length > ending.Length && text.EndsWith(ending, StringComparison.Ordinal));
}
