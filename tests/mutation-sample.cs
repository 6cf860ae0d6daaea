// Mutation score of one room, from a sample. What it counts and what came out: docs/mutation.md.
//   dotnet run tests/mutation-sample.cs prepare Rails Checking      puts every change of Rails into its assembly, each behind a switch, for
//                                                                   the tests of Rails and, in second place, of Checking
//   dotnet run tests/mutation-sample.cs sample Rails 100 20261128   draws 100 of them with that seed and runs the tests on each
//                                                                   (stopped, it goes on where it was; 25 behind it: so many now)
//   dotnet run tests/mutation-sample.cs try Rails 17 42             the same for changes named by number
// Everything it makes lies in artifacts/mutation. Linux only: the limit of processor time is the shell's.
#:property ManagePackageVersionsCentrally=false
#:property RestorePackagesWithLockFile=false
#:property PublishAot=false

using System.Diagnostics;
using System.Globalization;
using System.Security.Cryptography;
using System.Text.Json;
using System.Text.RegularExpressions;

CultureInfo.CurrentCulture = CultureInfo.InvariantCulture;
string? root = FindRoot();
if (root is null || args.Length < 2)
{
    Console.Error.WriteLine("mutation-sample: prepare ROOM [ROOM…] | sample ROOM SIZE SEED | try ROOM NUMBER…, somewhere below WireUp.sln.");
    return 2;
}

Room room = new(root, args[1]);
switch (args[0])
{
    case "prepare":
        room.Prepare(args[2..]);
        return 0;
    case "sample":
        Random chance = new(int.Parse(args[3]));
        Change[] all = room.Changes();
        Change[] drawn = [.. all];
        chance.Shuffle(drawn);
        drawn = [.. drawn.Take(int.Parse(args[2]))];
        Report(room, drawn, args.Length > 4 ? int.Parse(args[4]) : drawn.Length, all.Length, $"seed {args[3]}", room.Kept(args[3]));
        return 0;
    case "try":
        HashSet<int> wanted = [.. args.Skip(2).Select(int.Parse)];
        Report(room, [.. room.Changes().Where(change => wanted.Contains(change.Id))], wanted.Count, wanted.Count, "named", null);
        return 0;
    default:
        Console.Error.WriteLine($"mutation-sample: no such step as {args[0]}.");
        return 2;
}

static string? FindRoot()
{
    for (DirectoryInfo? folder = new(Environment.CurrentDirectory); folder is not null; folder = folder.Parent)
    {
        if (File.Exists(Path.Combine(folder.FullName, "WireUp.sln"))) return folder.FullName;
    }

    return null;
}

static void Report(Room room, Change[] drawn, int now, int all, string how, string? keep)
{
    TestClass[] classes = room.Classes();
    Dictionary<int, Outcome> outcomes = keep is not null && File.Exists(keep) ? JsonSerializer.Deserialize<Dictionary<int, Outcome>>(File.ReadAllText(keep))! : [];
    foreach (Change change in drawn.Where(change => !outcomes.ContainsKey(change.Id)).Take(now))
    {
        Outcome outcome = outcomes[change.Id] = room.Try(change, classes);
        Console.WriteLine($"{outcomes.Count,4} of {drawn.Length}: {change} {outcome}");
        if (keep is not null) File.WriteAllText(keep, JsonSerializer.Serialize(outcomes));
    }

    drawn = [.. drawn.Where(change => outcomes.ContainsKey(change.Id))];
    Console.WriteLine();
    foreach (Change change in drawn.Where(change => outcomes[change.Id].Column > Column.Facts).OrderBy(change => outcomes[change.Id].Column).ThenBy(change => change.File).ThenBy(change => change.Line))
    {
        Console.WriteLine($"{outcomes[change.Id]}: {change}");
    }

    Console.WriteLine($"{room.Name}, {how}: {drawn.Length} of {all} changes. Noticed by");
    int noticed = 0;
    foreach ((Column column, string words) in new[] { (Column.Facts, "the room's tests that state a fact"), (Column.Rest, "these and the rest of the room's tests"), (Column.Others, "these and the tests of other rooms") })
    {
        noticed += outcomes.Values.Count(outcome => outcome.Column == column);
        Console.WriteLine($"  {words}: {Share(noticed, drawn.Length)}");
    }

    Console.WriteLine($"  of them by running out of time: {outcomes.Values.Count(outcome => outcome.ByTime)}; not reached: {outcomes.Values.Count(outcome => outcome.Column == Column.NotReached)}.");
}

// The interval of Wilson, 95 %.
static string Share(int part, int whole)
{
    const double z = 1.959964;
    double p = (double)part / whole, n = whole, scale = 1 + (z * z / n);
    double middle = (p + (z * z / (2 * n))) / scale, half = z * Math.Sqrt((p * (1 - p) / n) + (z * z / (4 * n * n))) / scale;
    return $"{part}: {100 * p:0} % ({100 * (middle - half):0} to {100 * (middle + half):0} %)";
}

/// <summary>Which tests notice a change; the first of these kinds that does.</summary>
internal enum Column { Facts, Rest, Others, Survived, NotReached }

/// <summary>How a change came out: who noticed it, and whether by running out of time instead of by failing.</summary>
internal readonly record struct Outcome(Column Column, bool ByTime = false)
{
    public override string ToString() => $"{Column}{(ByTime ? " (time)" : "")}";
}

/// <summary>One change of the code, as Stryker lists it.</summary>
internal sealed record Change(int Id, string File, int Line, string Kind, string Before, string After)
{
    public override string ToString() => $"{Id} {File}:{Line} {Kind}: {Short(Before)} => {Short(After)}";

    private static string Short(string text)
    {
        string flat = Regex.Replace(text, @"\s+", " ");
        return flat.Length > 110 ? flat[..110] + "…" : flat;
    }
}

/// <summary>A test class, what it takes without a change, and the changes it passes: null if that is not known.</summary>
internal sealed record TestClass(string Room, string Name, double Seconds, HashSet<int>? Passes)
{
    private const double Quick = 15;

    public bool IsSlow => Seconds > Quick;

    /// <summary>The rest are tests on networks drawn by chance, and comparisons that run through all cases: they notice much and tell little.</summary>
    public Column ColumnFor(string room) => Room != room ? Column.Others : Name.Contains(".Properties.") || Name.Contains(".Audit.") ? Column.Rest : Column.Facts;

    public bool Reaches(Change change) => Passes?.Contains(change.Id) != false;
}

internal sealed class Room(string root, string name)
{
    /// <summary>A class that takes more seconds of processor time is left out: a change that survives runs all of them.</summary>
    private const int Longest = 60;

    private readonly string work = Path.Combine(root, "artifacts", "mutation", name);

    public string Name => name;

    private string Project => $"WireUp.{name}";

    private string Listed => Path.Combine(work, "reports", "mutation-report.json");

    private string Mutated => Path.Combine(work, $"{Project}.dll");

    /// <summary>Where the outcomes of a sample are kept; what is made ready anew begins anew.</summary>
    public string Kept(string seed) => Path.Combine(work, $"outcomes-{seed}.json");

    /// <summary>Makes the changed assembly where the code is not as it was last time, and puts it beside tests built anew.</summary>
    public void Prepare(string[] others)
    {
        Directory.CreateDirectory(work);
        string stamp = Path.Combine(work, "code"), code = HashOfCode();
        Build(name);
        if (!File.Exists(Mutated) || !File.Exists(stamp) || File.ReadAllText(stamp) != code)
        {
            Mutate();
            File.WriteAllText(stamp, code);
        }

        foreach (string old in Directory.EnumerateFiles(work, "outcomes-*.json")) File.Delete(old);
        List<TestClass> classes = [];
        foreach (string other in (string[])[name, .. others])
        {
            if (other != name) Build(other);
            string bin = Bin(other);
            if (Directory.Exists(bin)) Directory.Delete(bin, recursive: true);
            foreach (string file in Directory.EnumerateFiles(Built(other), "*", SearchOption.AllDirectories))
            {
                string copy = Path.Combine(bin, Path.GetRelativePath(Built(other), file));
                Directory.CreateDirectory(Path.GetDirectoryName(copy)!);
                File.Copy(file, copy);
            }

            File.Copy(Mutated, Path.Combine(bin, $"{Project}.dll"), overwrite: true);
            Survey(other, classes);
        }

        File.WriteAllText(Path.Combine(work, "classes.json"), JsonSerializer.Serialize(classes));
    }

    /// <summary>
    /// The changes that count: no texts, nothing the compiler refused, and a block left out only where nothing inside it was changed.
    /// </summary>
    public Change[] Changes()
    {
        List<(Change Change, (int, int) From, (int, int) To)> found = [];
        using JsonDocument report = JsonDocument.Parse(File.ReadAllText(Listed));
        foreach (JsonProperty file in report.RootElement.GetProperty("files").EnumerateObject())
        {
            string path = Path.GetRelativePath(Path.Combine(root, "src", Project), Path.Combine(root, file.Name));
            string[] lines = file.Value.GetProperty("source").GetString()!.ReplaceLineEndings("\n").Split('\n');
            foreach (JsonElement mutant in file.Value.GetProperty("mutants").EnumerateArray())
            {
                string kind = mutant.GetProperty("mutatorName").GetString()!, status = mutant.GetProperty("status").GetString()!;
                if (status == "CompileError" || kind.StartsWith("String ", StringComparison.Ordinal)) continue;
                (int, int) from = At(mutant, "start"), to = At(mutant, "end");
                Change change = new(
                    int.Parse(mutant.GetProperty("id").GetString()!), path, from.Item1, kind, Between(lines, from, to), mutant.GetProperty("replacement").GetString()!);
                found.Add((change, from, to));
            }
        }

        return
        [
            .. from item in found
               where !item.Change.Kind.StartsWith("Block ", StringComparison.Ordinal)
                   || !found.Exists(other => other.Change.Id != item.Change.Id && other.Change.File == item.Change.File && other.From.CompareTo(item.From) >= 0 && other.To.CompareTo(item.To) <= 0)
               orderby item.Change.Id
               select item.Change,
        ];
    }

    public TestClass[] Classes() => JsonSerializer.Deserialize<TestClass[]>(File.ReadAllText(Path.Combine(work, "classes.json")))!;

    /// <summary>Runs the tests that pass a change with it on: the quick ones that state a fact, the slow ones, then the rest.</summary>
    public Outcome Try(Change change, TestClass[] classes)
    {
        TestClass[] reaching = [.. classes.Where(item => item.Reaches(change))];
        if (reaching.Length == 0) return new(Column.NotReached);
        foreach (TestClass[] some in reaching.GroupBy(item => (Column: item.ColumnFor(name), item.IsSlow, item.Room)).OrderBy(group => group.Key).Select(group => group.ToArray()))
        {
            int limit = (int)(20 + (5 * some.Sum(item => item.Seconds)));
            int code = RunTests(some, limit, [("STRYKER_MUTANT_ID_CONTROL_VAR", "ActiveMutation"), ("ActiveMutation", $"{change.Id}")]);
            if (code != 0) return new(some[0].ColumnFor(name), ByTime: code is 137 or 152 or 124);
        }

        return new(Column.Survived);
    }

    private static (int Line, int Column) At(JsonElement mutant, string which)
    {
        JsonElement place = mutant.GetProperty("location").GetProperty(which);
        return (place.GetProperty("line").GetInt32(), place.GetProperty("column").GetInt32());
    }

    private static string Between(string[] lines, (int Line, int Column) from, (int Line, int Column) to) => from.Line == to.Line
        ? lines[from.Line - 1][(from.Column - 1)..(to.Column - 1)]
        : string.Join(' ', [lines[from.Line - 1][(from.Column - 1)..], .. lines[from.Line..(to.Line - 1)], lines[to.Line - 1][..(to.Column - 1)]]);

    private string HashOfCode()
    {
        using IncrementalHash hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
        foreach (string file in Directory.EnumerateFiles(Path.Combine(root, "src"), "*.cs", SearchOption.AllDirectories)
            .Where(file => !file.Contains("/obj/") && !file.Contains("/bin/")).Order(StringComparer.Ordinal))
        {
            hash.AppendData(File.ReadAllBytes(file));
        }

        return Convert.ToHexString(hash.GetHashAndReset());
    }

    /// <summary>A class of the room's tests that passes few changes, and some.</summary>
    private string Small => $"WireUp.{name}.Tests.Exact." + name switch
    {
        "Rails" => "BiconnectedPartsTests",
        "Checking" => "WordTests",
        "Circuits" => "WirePairTests",
        "Planning" => "SizePairTests",
        "Faults" => "FaultAdviceTests",
        _ => throw new InvalidOperationException($"Name a small class of the tests of {name}."),
    };

    /// <summary>
    /// Stryker takes the changed assembly away again when it ends, so it is copied while it is there. It is told to run one class only, for the
    /// tests are run here; a class that passes some changes, so that it does not run it for all the others.
    /// </summary>
    private void Mutate()
    {
        File.Delete(Mutated);
        string assembly = Path.Combine(Built(name), $"{Project}.dll");
        using CancellationTokenSource ended = new();
        Task copying = Task.Run(() =>
        {
            while (!ended.IsCancellationRequested)
            {
                if (File.Exists(assembly + ".stryker-unchanged") && Read(assembly) is { } bytes && bytes.AsSpan().IndexOf("MutantControl"u8) >= 0) File.WriteAllBytes(Mutated, bytes);
                Thread.Sleep(200);
            }
        });
        int code = Run(
            Tests(name),
            ["dotnet", "stryker", "-f", "../stryker-config.json", "--project", $"{Project}.csproj", "--configuration", "Release", "--test-case-filter", $"ClassName={Small}", "-O", work],
            [], Console.WriteLine);
        ended.Cancel();
        copying.Wait();
        Demand(code);
        if (!File.Exists(Mutated)) throw new InvalidOperationException("Stryker left no changed assembly.");
    }

    private static byte[]? Read(string file)
    {
        try
        {
            return File.ReadAllBytes(file);
        }
        catch (IOException)
        {
            return null;
        }
    }

    /// <summary>Runs each class with no change on, for its time and for the changes it passes.</summary>
    private void Survey(string other, List<TestClass> classes)
    {
        foreach (string item in ListClasses(Bin(other), other))
        {
            string folder = Directory.CreateTempSubdirectory("passed").FullName;
            Stopwatch watch = Stopwatch.StartNew();
            bool isFollowed = RunTests([new(other, item, 0, null)], Longest, [("STRYKER_COVERAGE_FILE", "passed.txt"), ("TMPDIR", folder)]) == 0;
            if (!isFollowed)
            {
                // To note what it passes can take a class several times as long as the class itself.
                watch.Restart();
                if (RunTests([new(other, item, 0, null)], Longest, []) != 0)
                {
                    Console.WriteLine($"{item} fails without any change or takes more than {Longest} s, so it is left out.");
                    continue;
                }
            }

            string[] files = isFollowed ? Directory.GetFiles(folder, "passed*.txt") : [];
            HashSet<int>? passes = files.Length == 0 ? null : [.. files.SelectMany(file => File.ReadAllText(file).Split(';', ',')).Where(text => text.Length > 0).Select(int.Parse)];
            TestClass one = new(other, item, watch.Elapsed.TotalSeconds, passes);
            classes.Add(one);
            Console.WriteLine($"{item}: {one.Seconds:0.0} s, passes {(passes is null ? "an unknown number of" : passes.Count.ToString())} changes");
            Directory.Delete(folder, recursive: true);
        }
    }

    private string[] ListClasses(string bin, string other)
    {
        List<string> lines = [];
        Demand(Run(root, [Path.Combine(bin, $"WireUp.{other}.Tests"), "-list", "classes", "-noLogo"], [], lines.Add));
        return [.. lines.Select(line => line.Trim()).Where(line => line.StartsWith($"WireUp.{other}.Tests.", StringComparison.Ordinal))];
    }

    private int RunTests(TestClass[] classes, int seconds, (string, string)[] environment) => Run(
        root,
        [
            "bash", "-c", "ulimit -t $0; exec timeout -k 5 $1 \"${@:2}\"", $"{seconds}", $"{10 * seconds}",
            Path.Combine(Bin(classes[0].Room), $"WireUp.{classes[0].Room}.Tests"), "-noLogo", "-noColor", "-stopOnFail", "-parallel", "none", .. classes.SelectMany(item => new[] { "-class", item.Name }),
        ],
        [.. environment, ("DOTNET_GCHeapHardLimit", "0x80000000"), ("DOTNET_TieredPGO", "0")],
        _ => { });

    private string Tests(string other) => Path.Combine(root, "tests", $"WireUp.{other}.Tests");

    private string Built(string other) => Path.Combine(Tests(other), "bin", "Release", "net10.0");

    private string Bin(string other) => Path.Combine(work, "tests", other);

    private void Build(string other) => Demand(Run(root, ["dotnet", "build", "-c", "Release", "-v", "q", "--nologo", Tests(other)], [], Console.WriteLine));

    private static void Demand(int code)
    {
        if (code != 0) throw new InvalidOperationException($"Ended with code {code}.");
    }

    private static int Run(string folder, string[] command, (string Name, string Value)[] environment, Action<string> onLine)
    {
        ProcessStartInfo start = new(command[0], command[1..]) { WorkingDirectory = folder, RedirectStandardOutput = true, RedirectStandardError = true };
        foreach ((string key, string value) in environment) start.Environment[key] = value;
        using Process process = Process.Start(start) ?? throw new InvalidOperationException($"Cannot start {command[0]}.");
        process.ErrorDataReceived += (_, line) => Console.Error.Write(line.Data is { Length: > 0 } text && command[0] == "dotnet" ? text + "\n" : "");
        process.BeginErrorReadLine();
        while (process.StandardOutput.ReadLine() is { } line) onLine(line);
        process.WaitForExit();
        return process.ExitCode;
    }
}
