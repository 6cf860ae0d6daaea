using WireUp.Layouts.Reading;
using WireUp.Layouts.Writing;

namespace WireUp.Layouts;

/// <summary>The layout file as text: reading it, and writing a new one.</summary>
public static class LayoutFile
{
    /// <summary>What the name of a layout file ends in.</summary>
    public const string Ending = ".layout.yaml";

    /// <summary>
    /// Reads the text of a layout file. Whatever is wrong with the text becomes a problem with line and column, several at once;
    /// no text makes this throw.
    /// </summary>
    /// <param name="text">The whole text; a byte order mark at its beginning is passed over.</param>
    /// <param name="fileName">The name of the file, for messages only.</param>
    /// <returns>The layout, or null in its place when there are errors; and all problems.</returns>
    public static LayoutReading Read(string text, string fileName) => LayoutReader.Read(text, fileName);

    /// <summary>
    /// Writes a whole new layout file. Read back it gives an equal layout, so long as the layout keeps the rules of the format:
    /// unique names, lengths in range, and the like. Comments of an older file are lost: to add to a file, use
    /// <see cref="LayoutDocument"/>.
    /// </summary>
    /// <param name="layout">The layout.</param>
    /// <returns>The text, with line feeds as line ends; bare numbers in it are millimetres.</returns>
    public static string Write(Layout layout) => LayoutWriter.Write(layout);
}
