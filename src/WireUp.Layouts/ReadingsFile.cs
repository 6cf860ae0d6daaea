using WireUp.Layouts.Reading;

namespace WireUp.Layouts;

/// <summary>The readings file as text.</summary>
public static class ReadingsFile
{
    /// <summary>What the name of a readings file ends in.</summary>
    public const string Ending = ".readings.yaml";

    /// <summary>Readings of one file.</summary>
    public const int MostReadings = 1000;

    /// <summary>
    /// Reads the text of a readings file. Whatever is wrong with it becomes a problem with line and column, several at once; no text
    /// makes this throw. The limits are those of a layout file, and <see cref="MostReadings"/>.
    /// </summary>
    /// <param name="layout">The layout that was measured; places and names are looked up in it.</param>
    /// <param name="text">The whole text; a byte order mark at its beginning is passed over.</param>
    /// <param name="fileName">The name of the file, for messages only.</param>
    public static ReadingsReading Read(Layout layout, string text, string fileName) => ReadingsReader.Read(layout, text, fileName);
}
