// Which lines and branches of each room the tests of the room pass: dotnet run tests/coverage.cs [ROOM…]
// What came out: docs/mutation.md. Coverlet rewrites the room's assembly while its tests run; nothing else is measured with it.
#:property ManagePackageVersionsCentrally=false
#:property RestorePackagesWithLockFile=false
#:property PublishAot=false

using System.Diagnostics;
using System.Globalization;
using System.Xml.Linq;

CultureInfo.CurrentCulture = CultureInfo.InvariantCulture;
string? root = Environment.CurrentDirectory;
while (root is not null && !File.Exists(Path.Combine(root, "WireUp.sln"))) root = Path.GetDirectoryName(root);
if (root is null)
{
    Console.Error.WriteLine("coverage: found no WireUp.sln in this folder or any above it.");
    return 2;
}

string[] rooms = args.Length > 0 ? args : ["Layouts", "Rails", "Circuits", "Checking", "Planning", "Faults"];
List<string> rows = [];
foreach (string room in rooms)
{
    string results = Path.Combine(root, "artifacts", "coverage", room);
    if (Directory.Exists(results)) Directory.Delete(results, recursive: true);
    int code = Run(
        "test", "--project", $"tests/WireUp.{room}.Tests", "-c", "Release", "-p:WithCoverage=true", "--results-directory", results,
        "--coverlet", "--coverlet-output-format", "cobertura", "--coverlet-include", $"[WireUp.{room}]*");
    string? report = Directory.Exists(results) ? Directory.EnumerateFiles(results, "*cobertura*.xml", SearchOption.AllDirectories).FirstOrDefault() : null;
    if (code != 0 || report is null)
    {
        Console.Error.WriteLine($"coverage: the tests of {room} ended with code {code}{(report is null ? " and left no report" : "")}.");
        return 1;
    }

    XElement covered = XDocument.Load(report).Root!;
    rows.Add($"| {room} | {Share(covered, "lines-covered", "lines-valid")} | {Share(covered, "branches-covered", "branches-valid")} |");
}

Console.WriteLine("\n| room | lines | branches |\n| --- | ---: | ---: |");
rows.ForEach(Console.WriteLine);
return 0;

static string Share(XElement report, string part, string whole)
{
    double covered = (double)report.Attribute(part)!, all = (double)report.Attribute(whole)!;
    return $"{covered:0} of {all:0}: {100 * covered / all:0.0} %";
}

int Run(params string[] command)
{
    using Process process = Process.Start(new ProcessStartInfo("dotnet", command) { WorkingDirectory = root })!;
    process.WaitForExit();
    return process.ExitCode;
}
