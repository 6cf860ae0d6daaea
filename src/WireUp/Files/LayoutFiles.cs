using System.Text;
using WireUp.Layouts;
using WireUp.Output;

namespace WireUp.Files;

/// <summary>Reads layout files and writes results so that a file is always the old one or the new one, never half of each.</summary>
internal sealed class LayoutFiles(Terminal terminal)
{
    /// <summary>Bytes that a layout file has at most.</summary>
    internal const long LargestBytes = 16 * 1024 * 1024;

    /// <summary>Whether <c>-</c> was given for a file: what is typed or piped in.</summary>
    public static bool IsStandardInput(FileInfo file) => file.ToString() == "-";

    /// <summary>What the files made of a layout are called after: <c>club.layout.yaml</c> gives <c>club</c>, standard input <c>layout</c>.</summary>
    public static string BaseName(FileInfo file)
    {
        if (IsStandardInput(file))
        {
            return "layout";
        }

        return file.Name.EndsWith(LayoutFile.Ending, StringComparison.Ordinal) ? file.Name[..^LayoutFile.Ending.Length] : Path.GetFileNameWithoutExtension(file.Name);
    }

    /// <summary>Reads a layout; every problem of the file is printed, one a line.</summary>
    /// <exception cref="InputRefused">The file is missing, unreadable or has problems.</exception>
    public Layout Read(FileInfo file) => ReadDocument(file).Reading.Layout!;

    /// <summary>Reads a layout together with its text, for writing it back with its comments.</summary>
    public LayoutDocument ReadDocument(FileInfo file)
    {
        LayoutDocument document = IsStandardInput(file)
            ? LayoutDocument.Open(terminal.ReadInput(LargestBytes), "standard input")
            : LayoutDocument.Open(Text(file), file.Name);
        Tell(document.Reading.Problems);

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
        if (name == "-" && IsStandardInput(layoutFile))
        {
            throw new InputRefused("layout and readings cannot both come from standard input");
        }

        ReadingsReading read = name == "-"
            ? ReadingsFile.Read(layout, terminal.ReadInput(LargestBytes), "standard input")
            : ReadingsFile.Read(layout, Text(new FileInfo(name)), Path.GetFileName(name));
        Tell(read.Problems);
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
        Tell(read.Problems);
        return read.Log ?? throw new InputRefused($"'{name}' cannot be used: {Words.Count(read.Problems.Length, "problem", "problems")} to mend, listed above");
    }

    /// <summary>The text of a file that may be missing, or null when it is.</summary>
    public static string? TextIfThere(FileInfo file) => file.Exists ? Text(file) : null;

    /// <summary>The text of a drawing.</summary>
    /// <exception cref="InputRefused">It is missing, unreadable or too large.</exception>
    public static string DrawingText(FileInfo file) => Text(file);

    /// <summary>Writes text, without byte order mark.</summary>
    public static void Write(FileInfo file, string text) => Write(file, new UTF8Encoding(false).GetBytes(text));

    /// <summary>Writes text over what was read from the file, and only where that still stands there: somebody may have edited it in the meantime.</summary>
    /// <param name="file">The file.</param>
    /// <param name="text">What it is to hold.</param>
    /// <param name="seen">What was read from it; null where there was none.</param>
    /// <exception cref="InputRefused">It was changed since, or cannot be written.</exception>
    public static void WriteOver(FileInfo file, string text, string? seen)
    {
        file.Refresh();
        if (TextIfThere(file) != seen)
        {
            throw new InputRefused($"'{file}' was changed by somebody else since it was read, and is left as it is; run the command again");
        }

        Write(file, text);
    }

    /// <summary>Writes bytes beside the target first, then moves them over it. A link stays one: what it leads to is written. What is no file, such as <c>/dev/stdout</c>, is written into.</summary>
    /// <exception cref="InputRefused">It cannot be written; what was there is as it was, and nothing is left beside it.</exception>
    public static void Write(FileInfo file, byte[] bytes)
    {
        try
        {
            if (file.DirectoryName is "/dev" or "/dev/fd")
            {
                using FileStream device = new(file.FullName, FileMode.Open, FileAccess.Write, FileShare.ReadWrite, bufferSize: 0);
                device.Write(bytes);
                return;
            }

            file.Refresh();
            file.Directory?.Create();
            WriteBeside(file.LinkTarget is null ? file.FullName : file.ResolveLinkTarget(returnFinalTarget: true)!.FullName, bytes);
        }
        catch (Exception failure) when (failure is IOException or UnauthorizedAccessException)
        {
            throw new InputRefused($"cannot write '{file}': {failure.Message}");
        }
    }

    private static void WriteBeside(string target, byte[] bytes)
    {
        string beside = target + ".new";
        FileStreamOptions options = new() { Mode = FileMode.Create, Access = FileAccess.Write, Share = FileShare.None, BufferSize = 0 };
        if (!OperatingSystem.IsWindows() && File.Exists(target))
        {
            options.UnixCreateMode = File.GetUnixFileMode(target);
        }

        using FileStream stream = new(beside, options);
        try
        {
            stream.Write(bytes);
            stream.Flush(flushToDisk: true);
            stream.Dispose();
            File.Move(beside, target, overwrite: true);
        }
        catch
        {
            stream.Dispose();
            File.Delete(beside);
            throw;
        }
    }

    private void Tell(IEnumerable<LayoutProblem> problems)
    {
        foreach (LayoutProblem problem in problems)
        {
            terminal.Problem(problem.ToString());
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
