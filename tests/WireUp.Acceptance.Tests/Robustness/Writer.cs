using WireUp.Acceptance.Tests.Program;

namespace WireUp.Acceptance.Tests.Robustness;

/// <summary>Every command of the program that writes files, with what stood there before.</summary>
internal sealed class Writer
{
    private const string Earlier = "what stood here before\n";

    private Writer(string name, string[] arguments) => (Name, Arguments) = (name, arguments);

    public static IReadOnlyList<Writer> All { get; } =
    [
        new("new", ["new", "fresh/attic.layout.yaml"]) { Fresh = true, Folder = "fresh" },
        new("import", ["import", "sample-drawings/oval.svg", "-o", "traced/oval.layout.yaml", "--layer", "track", "--replace"]) { Folder = "traced" },
        new("export spice", ["export", "sample-layouts/balloon-loop.layout.yaml", "--format", "spice", "--out", "netlist/balloon.cir"]) { Folder = "netlist" },
        new("export csv", ["export", "sample-layouts/home-yard.layout.yaml", "--format", "csv", "--out", "wires/wires.csv"]) { Folder = "wires" },
        new("export json", ["export", "sample-layouts/home-yard.layout.yaml", "--format", "json", "--out", "rails/rails.json"]) { Folder = "rails" },
        new("export lists", ["export", "sample-layouts/balloon-loop.layout.yaml", "--format", "lists", "--out", "lists"]) { Folder = "lists" },
        new("draw", ["draw", "sample-layouts/balloon-loop.layout.yaml", "--out", "drawn/balloon.png"]) { Folder = "drawn" },
        new("power --plot", ["power", "sample-layouts/home-yard.layout.yaml", "--route", "main-1 > main-2", "--plot", "route/route.pdf"]) { Folder = "route" },
        new("power --session --plot", ["power", "sample-layouts/home-yard.layout.yaml", "--session", "1h", "--plot", "session/session.svg"]) { Folder = "session" },
        new("diagnose --picture", ["diagnose", "sample-layouts/slate-branch.layout.yaml", "--readings", "sample-layouts/slate-branch.readings.yaml", "--picture", "suspects/suspects.svg"]) { Folder = "suspects" },
        new("diagnose --cured", ["diagnose", "log/slate-branch.layout.yaml", "--cured", "joint quarry-1.b–quarry-2.a, left rail", "--cure", "soldered a jumper", "--date", "2026-03-01"])
        {
            Folder = "log",
            Given = ["slate-branch.layout.yaml", "slate-branch.faults.yaml"],
        },
        new("plan --write", ["plan", "mine/balloon-loop.layout.yaml", "--write"]) { Folder = "mine", Given = ["balloon-loop.layout.yaml"] },
        new("plan --out", ["plan", "sample-layouts/balloon-loop.layout.yaml", "--out", "book", "--labels", "38.1x21.2"]) { Folder = "book" },
        new("compare --out", ["compare", "sample-layouts/wye.layout.yaml", "sample-layouts/balloon-loop.layout.yaml", "--out", "change"]) { Folder = "change" },
    ];

    public string Name { get; }

    public string[] Arguments { get; }

    /// <summary>The folder that everything is written into.</summary>
    public required string Folder { get; init; }

    /// <summary>Sample layouts that lie in it, to be written over.</summary>
    public string[] Given { get; private init; } = [];

    /// <summary>Whether it refuses to write over a file.</summary>
    public bool Fresh { get; private init; }

    /// <summary>Whether it works for seconds before it writes.</summary>
    public bool IsSlow => Arguments[0] is "draw" or "power" or "plan" or "compare" || Name == "diagnose --picture";

    /// <summary>Runs it undisturbed: the files that it leaves, by name, and what it says.</summary>
    public async Task<Dictionary<string, byte[]>> UndisturbedAsync(ScratchFolder scratch)
    {
        Put(scratch, []);
        Wireup.Outcome outcome = await Wireup.RunAsync(scratch.Path, Arguments);
        Assert.True(outcome.ExitCode is 0 or 1, outcome.ToString());
        Dictionary<string, byte[]> files = Files(scratch);
        Assert.NotEmpty(files);
        return files;
    }

    /// <summary>Puts back what stood there before; gives it by name.</summary>
    public Dictionary<string, byte[]> Put(ScratchFolder scratch, IEnumerable<string> names)
    {
        string folder = scratch.PathOf(Folder);
        if (Directory.Exists(folder)) Directory.Delete(folder, recursive: true);
        Directory.CreateDirectory(folder);
        foreach (string given in Given) File.Copy(RepoFiles.PathOf($"sample-layouts/{given}"), Path.Combine(folder, given));
        foreach (string name in names.Where(name => !Fresh && !Given.Contains(name))) File.WriteAllText(Path.Combine(folder, name), Earlier + name);
        return Files(scratch);
    }

    /// <summary>The files in its folder, by name.</summary>
    public Dictionary<string, byte[]> Files(ScratchFolder scratch) =>
        Directory.EnumerateFiles(scratch.PathOf(Folder)).ToDictionary(file => Path.GetFileName(file), File.ReadAllBytes, StringComparer.Ordinal);

    public override string ToString() => Name;
}
