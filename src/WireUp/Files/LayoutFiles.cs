using System.Text;
using WireUp.Layouts;
using WireUp.Output;

namespace WireUp.Files;

/// <summary>Reads layout files and writes results so that a file is always the old one or the new one, never half of each.</summary>
internal sealed class LayoutFiles(Terminal terminal)
{
    /// <summary>Bytes that a layout file has at most.</summary>
    internal const long LargestBytes = 16 * 1024 * 1024;

    /// <summary>Reads a layout; every problem of the file is printed, one a line.</summary>
    /// <exception cref="InputRefused">The file is missing, unreadable or has problems.</exception>
    public Layout Read(FileInfo file) => ReadDocument(file).Reading.Layout!;

    /// <summary>Reads a layout together with its text, for writing it back with its comments.</summary>
    public LayoutDocument ReadDocument(FileInfo file)
    {
        LayoutDocument document = LayoutDocument.Open(Text(file), file.Name);
        foreach (LayoutProblem problem in document.Reading.Problems)
        {
            terminal.Note(problem.ToString());
        }

        if (document.Reading.Layout is null)
        {
            string problems = Words.Count(document.Reading.Problems.Length, "problem", "problems");
            throw new InputRefused($"'{file.Name}' cannot be used: {problems} to mend, listed above");
        }

        return document;
    }

    /// <summary>Reads a file of readings made on a layout; every problem is printed, one a line.</summary>
    /// <param name="layout">The layout.</param>
    /// <param name="name">Name of the file, or <c>-</c> for standard input.</param>
    /// <param name="layoutFile">The layout's file, held against the name that the readings give.</param>
    /// <exception cref="InputRefused">It is missing, unreadable or has problems.</exception>
    public ReadingSet ReadReadings(Layout layout, string name, FileInfo layoutFile)
    {
        ReadingsReading read = name == "-"
            ? ReadingsFile.Read(layout, terminal.ReadInput(LargestBytes), "standard input")
            : ReadingsFile.Read(layout, Text(new FileInfo(name)), Path.GetFileName(name));
        foreach (LayoutProblem problem in read.Problems)
        {
            terminal.Note(problem.ToString());
        }

        if (read.Readings is not { } set)
        {
            throw new InputRefused($"'{name}' cannot be used: {Words.Count(read.Problems.Length, "problem", "problems")} to mend, listed above");
        }

        if (set.LayoutFile is { } other && Path.GetFileName(other) != layoutFile.Name)
        {
            terminal.Note($"note: the readings were made on '{other}', and are held against '{layoutFile.Name}'");
        }

        return set;
    }

    /// <summary>Reads the text of a fault log; every problem is printed, one a line.</summary>
    /// <exception cref="InputRefused">It has problems.</exception>
    public FaultLog ReadLog(string text, string name)
    {
        FaultLogReading read = FaultLogFile.Read(text, name);
        foreach (LayoutProblem problem in read.Problems)
        {
            terminal.Note(problem.ToString());
        }

        return read.Log ?? throw new InputRefused($"'{name}' cannot be used: {Words.Count(read.Problems.Length, "problem", "problems")} to mend, listed above");
    }

    /// <summary>The text of a file that may be missing, or null when it is.</summary>
    public static string? TextIfThere(FileInfo file) => file.Exists ? Text(file) : null;

    /// <summary>The text of a drawing.</summary>
    /// <exception cref="InputRefused">It is missing, unreadable or too large.</exception>
    public static string DrawingText(FileInfo file) => Text(file);

    /// <summary>Writes text, without byte order mark.</summary>
    public static void Write(FileInfo file, string text) => Write(file, new UTF8Encoding(false).GetBytes(text));

    /// <summary>Writes bytes beside the target first, then moves them over it.</summary>
    public static void Write(FileInfo file, byte[] bytes)
    {
        try
        {
            file.Directory?.Create();
            string beside = file.FullName + ".new";
            using (FileStream stream = new(beside, FileMode.Create, FileAccess.Write, FileShare.None))
            {
                stream.Write(bytes);
                stream.Flush(flushToDisk: true);
            }

            File.Move(beside, file.FullName, overwrite: true);
        }
        catch (Exception failure) when (failure is IOException or UnauthorizedAccessException)
        {
            throw new InputRefused($"cannot write '{file}': {failure.Message}");
        }
    }

    private static string Text(FileInfo file)
    {
        try
        {
            if (!file.Exists)
            {
                throw new InputRefused($"there is no file '{file}'");
            }

            if (file.Length > LargestBytes)
            {
                throw new InputRefused($"'{file}' has {file.Length} bytes; at most {LargestBytes} are read");
            }

            return File.ReadAllText(file.FullName, new UTF8Encoding(false, throwOnInvalidBytes: true));
        }
        catch (Exception failure) when (failure is IOException or UnauthorizedAccessException)
        {
            throw new InputRefused($"cannot read '{file}': {failure.Message}");
        }
        catch (DecoderFallbackException)
        {
            throw new InputRefused($"'{file}' is not UTF-8 text");
        }
    }
}
