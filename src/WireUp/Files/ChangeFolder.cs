using WireUp.Checking;
using WireUp.Documents;

namespace WireUp.Files;

/// <summary>The papers of a change in a folder.</summary>
internal static class ChangeFolder
{
    /// <summary>How many files are written.</summary>
    public const int Count = 4;

    /// <summary>Writes the drawing, the schedule of new wires and the papers.</summary>
    public static void Write(
        DirectoryInfo folder, FileInfo source, ChangeList changes, CheckReport check, BookOptions options, CancellationToken cancel)
    {
        string name = LayoutFiles.BaseName(source);
        FileInfo In(string file) => new(Path.Combine(folder.FullName, file));
        Scene drawing = ChangeDrawing.Draw(changes, cancellation: cancel);
        byte[] papers = ChangeBook.Compose(changes, check, options, cancel);
        LayoutFiles.Write(In($"{name}-changes.svg"), SvgScene.Write(drawing));
        LayoutFiles.Write(In($"{name}-changes.png"), PngScene.Write(drawing));
        LayoutFiles.Write(In($"{name}-new-wires.csv"), changes.NewWires.ToCsv());
        LayoutFiles.Write(In($"{name}-changes.pdf"), papers);
    }
}
