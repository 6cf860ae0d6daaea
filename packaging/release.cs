// Everything that is given out: dotnet run packaging/release.cs            what it can do
// Needs the .NET 10 SDK and nothing else; every system's files are made on any of them.
#:property ManagePackageVersionsCentrally=false
#:property RestorePackagesWithLockFile=false
#:property PublishAot=false

using System.Diagnostics;
using System.Formats.Tar;
using System.IO.Compression;
using System.Security.Cryptography;
using System.Text;
using System.Text.Json;
using System.Text.RegularExpressions;
using System.Xml.Linq;

const string Usage = """
    dotnet run packaging/release.cs COMMAND

      all [SYSTEM ...]   everything below into artifacts/release; systems: linux-x64 linux-arm64 win-x64 osx-arm64
      tool               only the package for 'dotnet tool install'
      third-party        write the list of packages in docs/third-party.md anew
      check              fail where that list is not what the program is built from
    """;
string[] systems = ["linux-x64", "linux-arm64", "win-x64", "osx-arm64"];
string root = Root(Environment.CurrentDirectory) ?? throw new InvalidOperationException("found no WireUp.sln in this folder or any above it");
string release = Path.Combine(root, "artifacts", "release");
string version = XDocument.Load(Path.Combine(root, "Directory.Build.props")).Descendants("Version").Single().Value;
switch (args)
{
    case ["all", .. var asked] when asked.All(systems.Contains):
        Directory.CreateDirectory(release);
        foreach (string system in asked.Length == 0 ? systems : asked) Publish(system);
        Tool();
        Bill();
        Sums();
        return 0;
    case ["tool"]:
        Directory.CreateDirectory(release);
        Tool();
        return 0;
    case ["third-party"]:
        File.WriteAllText(ListPath(), Listed());
        return 0;
    case ["check"]:
        if (File.ReadAllText(ListPath()) == Listed()) return 0;
        Console.Error.WriteLine("docs/third-party.md does not list what the program is built from: dotnet run packaging/release.cs third-party");
        return 1;
    default:
        Console.Error.WriteLine(Usage);
        return 2;
}

// One file that needs nothing installed, in an archive with its licences.
void Publish(string system)
{
    string name = $"wireup-{version}-{system}", folder = Path.Combine(release, name);
    if (Directory.Exists(folder)) Directory.Delete(folder, recursive: true);
    string kept = system == "osx-arm64" ? "|osx|osx-arm64|" : $"|{system}|";
    Run("dotnet", "publish", "src/WireUp", "-c", "Release", "-r", system, "--self-contained", "-o", folder, "--artifacts-path", Path.Combine(root, "artifacts", "build"),
        "-p:PublishSingleFile=true", "-p:IncludeAllContentForSelfExtract=true", "-p:EnableCompressionInSingleFile=true", "-p:DebugType=none",
        "-p:ContinuousIntegrationBuild=true", "-p:NuGetLockFilePath=obj/release.lock.json", $"-p:KeepRids=\"{kept}\"");
    string program = Path.Combine(folder, system.StartsWith("win", StringComparison.Ordinal) ? "wireup.exe" : "wireup");
    foreach (string other in Directory.EnumerateFileSystemEntries(folder).Where(path => path != program).ToArray())
    {
        if (Directory.Exists(other)) Directory.Delete(other, recursive: true);
        else File.Delete(other);
    }

    File.Copy(Path.Combine(root, "LICENSE"), Path.Combine(folder, "LICENSE"));
    File.WriteAllText(Path.Combine(folder, "THIRD-PARTY-NOTICES.txt"), Notices());
    string archive = Path.Combine(release, name + (system.StartsWith("win", StringComparison.Ordinal) ? ".zip" : ".tar.gz"));
    File.Delete(archive);
    if (archive.EndsWith(".zip", StringComparison.Ordinal))
    {
        ZipFile.CreateFromDirectory(folder, archive, CompressionLevel.Optimal, includeBaseDirectory: true);
    }
    else
    {
        if (!OperatingSystem.IsWindows()) File.SetUnixFileMode(program, (UnixFileMode)0b111_101_101);
        using GZipStream packed = new(File.Create(archive), CompressionLevel.Optimal);
        TarFile.CreateFromDirectory(folder, packed, includeBaseDirectory: true);
    }

    Console.WriteLine($"{name}: {Megabytes(program)} the program, {Megabytes(archive)} the archive");
}

void Tool()
{
    Run("dotnet", "pack", "src/WireUp", "-c", "Release", "-o", release, "--artifacts-path", Path.Combine(root, "artifacts", "build-tool"),
        "-p:PackAsTool=true", "-p:DebugType=none", "-p:ContinuousIntegrationBuild=true", "-p:KeepRids=\"|linux-x64|linux-arm64|win-x64|osx|osx-arm64|\"");
    string package = Path.Combine(release, $"WireUp.{version}.nupkg");
    Console.WriteLine($"WireUp.{version}.nupkg: {Megabytes(package)}");
}

// A software bill of materials in SPDX, by a tool named in .config/dotnet-tools.json.
void Bill()
{
    string manifest = Path.Combine(release, "_manifest");
    if (Directory.Exists(manifest)) Directory.Delete(manifest, recursive: true);
    Run("dotnet", "tool", "restore");
    Run("dotnet", "sbom-tool", "generate", "-b", release, "-bc", Path.Combine(root, "artifacts", "build-tool", "obj"), "-pn", "WireUp", "-pv", version, "-ps", "WireUp contributors", "-nsb", "https://wireup.invalid", "-V", "Warning");
    File.Copy(Path.Combine(manifest, "spdx_2.2", "manifest.spdx.json"), Path.Combine(release, $"wireup-{version}.spdx.json"), overwrite: true);
    Directory.Delete(manifest, recursive: true);
}

void Sums() => File.WriteAllLines(Path.Combine(release, "SHA256SUMS"), Directory.EnumerateFiles(release).Where(file => Path.GetFileName(file) != "SHA256SUMS").Order(StringComparer.Ordinal)
    .Select(file => $"{Convert.ToHexStringLower(SHA256.HashData(File.ReadAllBytes(file)))}  {Path.GetFileName(file)}"));

string ListPath() => Path.Combine(root, "docs", "third-party.md");

// The page with its list of packages written anew.
string Listed()
{
    const string Begin = "<!-- packages: written by packaging/release.cs -->\n", End = "<!-- end -->";
    string page = File.ReadAllText(ListPath());
    StringBuilder rows = new("| package | version | licence |\n| --- | --- | --- |\n");
    foreach (Package package in Packages()) rows.Append($"| {package.Name} | {package.Version} | {package.Licence} |\n");
    int from = page.IndexOf(Begin, StringComparison.Ordinal) + Begin.Length, to = page.IndexOf(End, StringComparison.Ordinal);
    return page[..from] + rows + page[to..];
}

// Who owns what is shipped and under which terms.
string Notices()
{
    StringBuilder text = new("WireUp is built with the packages below. Each is used under the licence that stands with it.\n");
    foreach (Package package in Packages()) text.Append($"\n{new string('=', 78)}\n{package.Name} {package.Version}, {package.Licence}\n{package.Copyright}\n\n{package.Text.Trim()}\n");
    text.Append($"\n{new string('=', 78)}\n.NET runtime and ASP.NET Core, MIT\n(c) .NET Foundation and contributors\n\n{File.ReadAllText(Path.Combine(root, "packaging", "licences", "MIT.txt")).Trim()}\n");
    text.Append($"\n{new string('=', 78)}\nDejaVu fonts\n\n{File.ReadAllText(Path.Combine(root, "src", "WireUp.Documents", "Fonts", "LICENCE.txt")).Trim()}\n");
    return text.ToString();
}

// What the lock file of the program names and is not only there to build it.
IEnumerable<Package> Packages()
{
    string[] ofBuild = ["Meziantou.Analyzer", "Microsoft.CodeAnalysis.BannedApiAnalyzers"];
    using JsonDocument locked = JsonDocument.Parse(File.ReadAllText(Path.Combine(root, "src", "WireUp", "packages.lock.json")));
    foreach (JsonProperty entry in locked.RootElement.GetProperty("dependencies").EnumerateObject().Single().Value.EnumerateObject().OrderBy(entry => entry.Name, StringComparer.OrdinalIgnoreCase))
    {
        if (ofBuild.Contains(entry.Name) || entry.Value.GetProperty("type").GetString() == "Project") continue;
        yield return Read(entry.Name, entry.Value.GetProperty("resolved").GetString()!);
    }
}

Package Read(string name, string resolved)
{
    string store = Environment.GetEnvironmentVariable("NUGET_PACKAGES") ?? Path.Combine(Environment.GetFolderPath(Environment.SpecialFolder.UserProfile), ".nuget", "packages");
    string folder = Path.Combine(store, name.ToLowerInvariant(), resolved);
    if (!Directory.Exists(folder)) throw new InvalidOperationException($"{name} {resolved} is not restored: dotnet restore");
    XElement about = XDocument.Load(Directory.EnumerateFiles(folder, "*.nuspec").Single()).Descendants().Single(element => element.Name.LocalName == "metadata");
    string Of(string key) => about.Elements().FirstOrDefault(element => element.Name.LocalName == key)?.Value.Trim() ?? "";
    XElement licence = about.Elements().Single(element => element.Name.LocalName == "license");
    bool isFile = licence.Attribute("type")?.Value == "file";
    string? inside = isFile ? Path.Combine(folder, licence.Value) : Directory.EnumerateFiles(folder).FirstOrDefault(file => Regex.IsMatch(Path.GetFileName(file), "^licen[cs]e", RegexOptions.IgnoreCase, TimeSpan.FromSeconds(1)));
    string text = File.ReadAllText(inside ?? Path.Combine(root, "packaging", "licences", licence.Value + ".txt"));
    string? more = Directory.EnumerateFiles(folder).FirstOrDefault(file => Path.GetFileName(file).StartsWith("third-party", StringComparison.OrdinalIgnoreCase));
    string kind = !isFile ? licence.Value : text.Contains("Permission is hereby granted, free of charge", StringComparison.Ordinal) ? "MIT" : throw new InvalidOperationException($"read the licence of {name}: {inside}");
    return new(name, resolved, kind, Of("copyright") is { Length: > 0 } copyright ? copyright : Of("authors"), more is null ? text : text + "\n\n" + File.ReadAllText(more));
}

void Run(string program, params string[] arguments)
{
    using Process process = Process.Start(new ProcessStartInfo(program, arguments) { WorkingDirectory = root })!;
    process.WaitForExit();
    if (process.ExitCode != 0) throw new InvalidOperationException($"'{program} {string.Join(' ', arguments)}' ended with {process.ExitCode}");
}

static string Megabytes(string file) => $"{new FileInfo(file).Length / 1e6:0.0} MB";

static string? Root(string? folder) => folder is null || File.Exists(Path.Combine(folder, "WireUp.sln")) ? folder : Root(Path.GetDirectoryName(folder));

internal sealed record Package(string Name, string Version, string Licence, string Copyright, string Text);
