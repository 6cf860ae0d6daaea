using System.CommandLine;
using WireUp.Checking;
using WireUp.Documents;
using WireUp.Files;
using WireUp.Layouts;
using WireUp.Output;

namespace WireUp.Commands;

/// <summary><c>wireup compare</c>: what to do to make one layout out of another.</summary>
internal sealed class CompareVerb(LayoutFiles files, Terminal terminal)
{
    /// <summary>The verb's arguments, options and help.</summary>
    public static Command Command()
    {
        Argument<FileInfo> before = new("old") { Description = "The layout file as it was, *.layout.yaml." };
        Argument<FileInfo> after = new("new") { Description = "The layout file as it is to be." };
        Option<DirectoryInfo?> folder = new("--out")
        {
            Description = "Folder for the drawing of what changes (SVG, PNG), the schedule of only the new wires (CSV), and the papers of the change (PDF).",
        };
        Option<PaperSize> paper = Common.Paper();
        Option<LengthStyle?> lengths = Common.Lengths();
        Option<bool> json = Common.Json();
        VerbCommand command = new("compare", """
            Says what to add, cut, move and take away to make one layout out of another.

            Track, joints, gaps, devices, bus, feeders and contacts are compared by what the files say of them; order and
            comments do not count. A piece with another name is told as renamed where everything about it and all of its joints
            is the same; else the old one goes and a new one comes.

            With --out it draws the plan with what changes and prints a schedule, shopping list and cut list of only the
            new wires: for wiring a new section onto an old layout.

            Examples:
              wireup compare old.layout.yaml new.layout.yaml
              wireup compare old.layout.yaml new.layout.yaml --out change/
              wireup compare club.layout.yaml book/club-wired.layout.yaml --json | jq '.counts'

            Ends with 0 when nothing differs, 1 when something does, 2 when a file cannot be read.
            """)
        {
            before, after, folder, paper, lengths, json,
        };
        command.Runs<CompareVerb>((verb, parsed, cancel) => Task.FromResult(verb.Run(
            (parsed.GetRequiredValue(before), parsed.GetRequiredValue(after)), parsed.GetValue(folder), (parsed.GetValue(paper), parsed.GetValue(lengths), parsed.GetValue(json)), cancel)));
        return command;
    }

    private int Run((FileInfo Before, FileInfo After) given, DirectoryInfo? folder, (PaperSize Paper, LengthStyle? Lengths, bool Json) asked, CancellationToken cancel)
    {
        ChangeList changes = ChangeList.Of(files.Read(given.Before).In(asked.Lengths), files.Read(given.After).In(asked.Lengths));
        cancel.ThrowIfCancellationRequested();
        if (folder is not null)
        {
            CheckReport check = Checker.Check(changes.Comparison.After, cancel);
            ChangeFolder.Write(folder, given.After, changes, check, new BookOptions { Paper = asked.Paper }, cancel);
            terminal.Note($"wrote {ChangeFolder.Count} files to {folder}");
        }

        if (asked.Json)
        {
            terminal.Json(ChangeText.Json(changes));
        }
        else
        {
            ChangeText.Write(terminal, changes);
        }

        return changes.Changes.IsEmpty ? ExitCode.Fine : ExitCode.Findings;
    }
}
