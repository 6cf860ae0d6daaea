using WireUp.Layouts;

namespace WireUp.Web.Folders;

/// <summary>The name of a layout file of the folder, without its ending; never a path.</summary>
public readonly record struct LayoutName : IComparable<LayoutName>
{
    /// <summary>What a name may be, for a message.</summary>
    public const string Expected = "1 to 80 letters, digits, spaces, hyphens, underscores and dots, the first a letter or digit, no two dots together";

    private const int Longest = 80;

    private LayoutName(string text) => Text = text;

    /// <summary>The bare name, such as <c>attic</c>.</summary>
    public string Text { get; }

    /// <summary>The name of the file in the folder.</summary>
    public string FileName => Text + LayoutFile.Ending;

    /// <summary>Takes a bare name, or null where it could not be one.</summary>
    public static LayoutName? Of(string? text) => text is { Length: > 0 and <= Longest }
        && char.IsAsciiLetterOrDigit(text[0])
        && !text.EndsWith(' ') && !text.EndsWith('.')
        && !text.Contains("..", StringComparison.Ordinal)
        && text.All(letter => char.IsLetterOrDigit(letter) || letter is ' ' or '-' or '_' or '.')
        ? new(text)
        : null;

    /// <summary>Takes the name of a file, or null where it is none of a layout.</summary>
    public static LayoutName? OfFile(string? fileName) =>
        fileName is not null && fileName.EndsWith(LayoutFile.Ending, StringComparison.Ordinal) ? Of(fileName[..^LayoutFile.Ending.Length]) : null;

    /// <summary>Orders by name, character by character.</summary>
    public int CompareTo(LayoutName other) => string.CompareOrdinal(Text, other.Text);

    /// <summary>The bare name.</summary>
    public override string ToString() => Text;
}
