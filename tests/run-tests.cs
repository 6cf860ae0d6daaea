// The test command: dotnet run tests/run-tests.cs
// Installs what some tests compare with (where it may), runs every test project, adds up the results.
#:property ManagePackageVersionsCentrally=false
#:property RestorePackagesWithLockFile=false
#:property PublishAot=false

using System.Diagnostics;
using System.Globalization;
using System.Text.RegularExpressions;

var root = FindRoot();
if (root is null)
{
    Console.Error.WriteLine("run-tests: found no WireUp.sln in this folder or any above it.");
    return 2;
}

Tool[] tools = [new("ngspice", "ngspice"), new("pdftotext", "poppler-utils"), new("chromium", "chromium")];
Provide(tools);

var summary = new Summary();
var exitCode = RunTests(root, args, summary);
Console.WriteLine();
if (!summary.IsComplete)
{
    Console.WriteLine("run-tests: the test run ended without a summary, so its tests cannot be counted.");
    return exitCode == 0 ? 1 : exitCode;
}

foreach (var tool in tools.Where(tool => !tool.IsThere))
{
    Console.WriteLine($"Without {tool.Program} ({tool.Package}): the tests that compare with it did not run, see their names above.");
}

foreach (var line in summary.Failures) Console.WriteLine(line);
if (summary.Broken > 0) Console.WriteLine($"{summary.Broken} test project(s) ended badly beside their tests: each counts as one failure.");
Console.WriteLine(summary);
return exitCode == 0 && (summary.Passed == 0 || summary.Failed > 0) ? 1 : exitCode;

static string? FindRoot()
{
    for (var folder = new DirectoryInfo(Environment.CurrentDirectory); folder is not null; folder = folder.Parent)
    {
        if (File.Exists(Path.Combine(folder.FullName, "WireUp.sln"))) return folder.FullName;
    }

    return null;
}

// Debian and its relatives only, and only where it can be done without asking for a password.
static void Provide(Tool[] tools)
{
    var missing = tools.Where(tool => !tool.IsThere).ToArray();
    if (missing.Length == 0) return;

    var packages = missing.Select(tool => tool.Package).ToArray();
    Console.WriteLine($"Missing: {string.Join(", ", missing.Select(tool => tool.Program))}.");
    string[]? prefix = !OperatingSystem.IsLinux() || !new Tool("apt-get", "apt").IsThere ? null
        : Environment.IsPrivilegedProcess ? []
        : new Tool("sudo", "sudo").IsThere && Run(["sudo", "-n", "true"], _ => { }) == 0 ? ["sudo", "-n"]
        : null;
    if (prefix is null)
    {
        Console.WriteLine($"To run every test, install: {string.Join(' ', packages)}. Going on without: the tests that need them are skipped by name.");
        return;
    }

    _ = Run([.. prefix, "apt-get", "update", "-qq"], Console.WriteLine);
    var outcome = Run([.. prefix, "apt-get", "install", "-y", "-qq", "--no-install-recommends", .. packages], Console.WriteLine);
    if (outcome != 0) Console.WriteLine("apt-get could not install them. Going on without: the tests that need them are skipped by name.");
}

static int RunTests(string root, string[] extra, Summary summary)
{
    Console.WriteLine("Building everything (Release), then running every test.");
    string[] command = ["dotnet", "test", "--solution", Path.Combine(root, "WireUp.sln"), "-c", "Release", .. extra];
    return Run(command, line =>
    {
        Console.WriteLine(line);
        summary.Read(line);
    });
}

static int Run(string[] command, Action<string> onLine)
{
    var start = new ProcessStartInfo(command[0], command[1..]) { RedirectStandardOutput = true, RedirectStandardError = true };
    start.Environment["DOTNET_CLI_UI_LANGUAGE"] = "en";
    start.Environment["DEBIAN_FRONTEND"] = "noninteractive";
    // A project that has no tests yet ends with code 8; the run as a whole must still have some.
    start.Environment["TESTINGPLATFORM_EXITCODE_IGNORE"] = "8";
    using var process = Process.Start(start) ?? throw new InvalidOperationException($"Cannot start {command[0]}.");
    var gate = new Lock();
    process.OutputDataReceived += (_, line) => Pass(line.Data);
    process.ErrorDataReceived += (_, line) => Pass(line.Data);
    process.BeginOutputReadLine();
    process.BeginErrorReadLine();
    process.WaitForExit();
    return process.ExitCode;

    void Pass(string? line)
    {
        if (line is null) return;
        lock (gate) onLine(line);
    }
}

internal sealed record Tool(string Program, string Package)
{
    public bool IsThere => (Environment.GetEnvironmentVariable("PATH") ?? "")
        .Split(Path.PathSeparator, StringSplitOptions.RemoveEmptyEntries)
        .Any(folder => File.Exists(Path.Combine(folder, OperatingSystem.IsWindows() ? Program + ".exe" : Program)));
}

/// <summary>The figures that `dotnet test` prints last, over all projects.</summary>
internal sealed partial class Summary
{
    private const int MostLines = 16;

    private readonly Dictionary<string, int> figures = new(StringComparer.Ordinal);
    private readonly List<string> failures = [];
    private bool begun;
    private int left;

    public bool IsComplete => new[] { "succeeded", "failed", "skipped" }.All(figures.ContainsKey);

    public int Passed => figures["succeeded"];

    public int Failed => figures["failed"] + Broken;

    /// <summary>Test projects that crashed or could not start.</summary>
    public int Broken => figures.GetValueOrDefault("error");

    /// <summary>Every test that failed, with the first lines of what it said: once more at the end, where they are looked for.</summary>
    public IReadOnlyList<string> Failures => failures;

    public void Read(string line)
    {
        var isNew = !begun && line.StartsWith("failed ", StringComparison.Ordinal);
        left = isNew ? MostLines : left > 0 && line.StartsWith(' ') ? left - 1 : 0;
        if (left > 0) failures.Add(isNew ? "FAILED: " + line["failed ".Length..] : line);
        begun |= line.StartsWith("Test run summary:", StringComparison.Ordinal);
        if (begun && Figure().Match(line) is { Success: true } match)
        {
            figures[match.Groups[1].Value] = int.Parse(match.Groups[2].ValueSpan, CultureInfo.InvariantCulture);
        }
    }

    public override string ToString() => $"{Passed} passed, {Failed} failed, {figures["skipped"]} skipped";

    [GeneratedRegex(@"^\s+(error|succeeded|failed|skipped): (\d+)$")]
    private static partial Regex Figure();
}
