using System.Collections.Immutable;
using WireUp.Commands;
using WireUp.Faults;
using WireUp.Layouts;

namespace WireUp.Files;

/// <summary>The fault log beside a layout file.</summary>
internal sealed class FaultBook
{
    private readonly FileInfo _file;
    private readonly string? _text;
    private readonly FaultLog _log;

    private FaultBook(FileInfo file, string? text, FaultLog log) => (_file, _text, _log) = (file, text, log);

    /// <summary>Opens the log of a layout: <c>club.layout.yaml</c> has <c>club.faults.yaml</c>. One that is not there is empty.</summary>
    /// <exception cref="InputRefused">It is unreadable or has problems.</exception>
    public static FaultBook Open(LayoutFiles files, FileInfo layout)
    {
        FileInfo file = new(Path.Combine(layout.DirectoryName ?? ".", LayoutFiles.BaseName(layout) + FaultLogFile.Ending));
        string? text = LayoutFiles.TextIfThere(file);
        return new(file, text, text is null ? FaultLog.None : files.ReadLog(text, file.Name));
    }

    /// <summary>How often parts fail, by the layout and by this log.</summary>
    public FaultPriors Learn(Layout layout) => FaultHistory.Learn(layout, layout.FaultPriors, _log);

    /// <summary>Adds a fault that was cured; says what was written.</summary>
    /// <exception cref="InputRefused">The part is not one of the layout, or not clear.</exception>
    public string Write(Layout layout, ReadingSet set, CureArguments cure)
    {
        FaultElement part = Part(layout, cure.Part);
        DateOnly date = cure.Date ?? set.Date ?? throw new InputRefused("--cured needs the day: --date 2026-03-01");
        LoggedFault fault = FaultHistory.Entry(part, State(layout, set, part), set, cure.Cure, date);
        LayoutFiles.WriteOver(_file, FaultLogFile.WithAdded(_text, fault), _text);
        return $"wrote {_file.Name}: {fault.Part}, {(fault.State is { } state ? state.Word() : "state not known")}, {Output.Words.Count(_log.Faults.Length + 1, "fault", "faults")} in all";
    }

    private static FaultElement Part(Layout layout, string name)
    {
        ImmutableArray<FaultElement> parts = FaultSearch.Parts(layout), found = PartNames.Find(parts, parts.FirstOrDefault(part => layout.Lengths.Retell(part.Place) == name.Trim())?.Place ?? name);
        return found switch
        {
            [var one] => one,
            [] => throw new InputRefused($"--cured '{name}': no part of '{layout.Name}' is called so; name it as diagnose does, such as '{(parts.IsEmpty ? "feeder f1, leg A" : parts[0].Place)}'"),
            _ => throw new InputRefused($"--cured '{name}' may be any of {found.Length} parts; which one?\n" + string.Join('\n', found.Take(8).Select(part => "  " + part.Place))),
        };
    }

    /// <summary>How the part was faulty by the readings, where they suspect it at all.</summary>
    private FaultState? State(Layout layout, ReadingSet set, FaultElement part) => set.Readings.IsEmpty ? null
        : FaultSearch.Rank(layout, set, Learn(layout), new() { MostNext = 0, Most = 200 })?.Faults
            .SelectMany(ranked => ranked.Parts).FirstOrDefault(fault => fault.Element == part)?.State;
}
