using WireUp.Layouts.Reading;

namespace WireUp.Layouts;

/// <summary>The layout file as text: reading it, and writing a new one.</summary>
public static class LayoutFile
{
    /// <summary>
    /// Reads the text of a layout file. Whatever is wrong with the text becomes a problem with line and column, several at once;
    /// no text makes this throw.
    /// </summary>
    /// <param name="text">The whole text; a byte order mark at its beginning is passed over.</param>
    /// <param name="fileName">The name of the file, for messages only.</param>
    /// <returns>The layout, or null in its place when there are errors; and all problems.</returns>
    public static LayoutReading Read(string text, string fileName) => LayoutReader.Read(text, fileName);
}
