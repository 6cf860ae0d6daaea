using System.Diagnostics;
using WireUp.Acceptance.Tests.Program;
using WireUp.Files;

namespace WireUp.Acceptance.Tests.Robustness;

/// <summary>A full disk, a folder that cannot be written to, links, and files that somebody else changes: a clear refusal, and nothing is lost.</summary>
public class FullDiskTests
{
    /// <summary>The writer's folder on a file system of 256 KiB filled to its last block; what is there before and after, and what the program says.</summary>
    private const string Full = """
        mount -t tmpfs -o size=256k wireup "$1/mounted" && cp -a "$2"/. "$1/mounted" && mount --bind "$1/mounted" "$2" || exit 99
        head -c 1M /dev/zero > "$2/fill" 2>/dev/null
        cd "$1" && shift 2 && folder=$1 && shift && "$@" >/dev/null; code=$?
        rm "$folder/fill"; cp -a "$folder" after
        exit $code
        """;

    private const string ReadOnly = """
        mount --bind "$2" "$2" && mount -o remount,bind,ro "$2" || exit 99
        cd "$1" && shift 2 && folder=$1 && shift && "$@" >/dev/null; code=$?
        cp -a "$folder" after
        exit $code
        """;

    public static TheoryData<string> Names => [.. Writer.All.Select(writer => writer.Name)];

    [Theory]
    [InlineData("import")]
    [InlineData("export lists")]
    [InlineData("diagnose --cured")]
    [InlineData("plan --write")]
    public async Task On_a_full_disk_or_in_a_folder_that_cannot_be_written_to_it_says_so_and_every_file_is_as_it_was(string name)
    {
        await RefusedAsync(name, Full, "No space left on device");
        await RefusedAsync(name, ReadOnly, "Read-only file system");
    }

    /// <summary>The same for every writer.</summary>
    [Theory(Explicit = true)]
    [MemberData(nameof(Names))]
    public Task Every_writer_says_that_the_disk_is_full_or_the_folder_cannot_be_written_to(string name) =>
        On_a_full_disk_or_in_a_folder_that_cannot_be_written_to_it_says_so_and_every_file_is_as_it_was(name);

    [Fact]
    public async Task Results_that_cannot_be_printed_are_told_as_that_and_not_as_a_defect()
    {
        Assert.SkipUnless(OperatingSystem.IsLinux(), "needs /dev/full");
        using ScratchFolder scratch = new();
        foreach (string[] arguments in new string[][] { ["check", "sample-layouts/balloon-loop.layout.yaml"], ["explain", "WU3001"] })
        {
            (int code, string error) = await ShellAsync(scratch, "sh", ["-c", "exec \"$@\" > /dev/full", "sh", .. Program(arguments)]);
            Assert.Equal(2, code);
            Assert.Contains("No space left on device", Assert.Single(error.TrimEnd().Split('\n'), line => line.StartsWith("wireup: ", StringComparison.Ordinal)), StringComparison.Ordinal);
        }
    }

    [Fact]
    public async Task A_device_is_written_into_and_stays_one()
    {
        Assert.SkipUnless(OperatingSystem.IsLinux(), "needs /dev/full");
        using ScratchFolder scratch = new();
        Wireup.Outcome full = await Wireup.RunAsync(scratch.Path, "export", "sample-layouts/balloon-loop.layout.yaml", "--format", "csv", "--out", "/dev/full");
        Assert.Equal(2, full.ExitCode);
        Assert.Contains("cannot write '/dev/full': No space left on device", full.Error, StringComparison.Ordinal);
        Wireup.Outcome printed = await Wireup.RunAsync(scratch.Path, "export", "sample-layouts/balloon-loop.layout.yaml", "--format", "csv", "--out", "/dev/stdout");
        Assert.Equal((await Wireup.RunAsync(scratch.Path, "export", "sample-layouts/balloon-loop.layout.yaml", "--format", "csv")).Output, printed.Output);
    }

    [Fact]
    public void A_link_stays_a_link_and_a_file_keeps_who_may_read_it()
    {
        if (OperatingSystem.IsWindows())
        {
            Assert.Skip("needs links and modes");
            return;
        }

        using ScratchFolder scratch = new();
        FileInfo kept = new(scratch.PathOf("kept.yaml")), link = new(scratch.PathOf("link.yaml"));
        File.WriteAllText(kept.FullName, "old");
        File.SetUnixFileMode(kept.FullName, UnixFileMode.UserRead | UnixFileMode.UserWrite);
        File.CreateSymbolicLink(link.FullName, kept.FullName);
        LayoutFiles.Write(link, "new");
        Assert.Equal("new", File.ReadAllText(kept.FullName));
        Assert.Equal(kept.FullName, new FileInfo(link.FullName).LinkTarget);
        Assert.Equal(UnixFileMode.UserRead | UnixFileMode.UserWrite, File.GetUnixFileMode(kept.FullName));
    }

    [Fact]
    public void What_somebody_else_wrote_since_it_was_read_is_not_written_over()
    {
        using ScratchFolder scratch = new();
        FileInfo file = new(scratch.PathOf("club.faults.yaml"));
        LayoutFiles.WriteOver(file, "first", seen: null);
        LayoutFiles.WriteOver(file, "second", seen: "first");
        File.WriteAllText(file.FullName, "of an editor");
        InputRefused refused = Assert.Throws<InputRefused>(() => LayoutFiles.WriteOver(file, "third", seen: "second"));
        Assert.Contains("changed by somebody else", refused.Message, StringComparison.Ordinal);
        Assert.Equal("of an editor", File.ReadAllText(file.FullName));
    }

    [Fact]
    public void A_file_where_a_folder_should_be_is_told_with_its_path()
    {
        using ScratchFolder scratch = new();
        File.WriteAllText(scratch.PathOf("book"), "a file");
        InputRefused refused = Assert.Throws<InputRefused>(() => LayoutFiles.Write(new FileInfo(scratch.PathOf("book/plan.svg")), "new"));
        Assert.Contains(scratch.PathOf("book/plan.svg"), refused.Message, StringComparison.Ordinal);
        Assert.Equal("a file", File.ReadAllText(scratch.PathOf("book")));
    }

    private static async Task RefusedAsync(string name, string script, string reason)
    {
        Writer writer = Writer.All.Single(writer => writer.Name == name);
        using ScratchFolder scratch = new();
        Dictionary<string, byte[]> old = writer.Put(scratch, []);
        Directory.CreateDirectory(scratch.PathOf("mounted"));
        (int code, string error) = await ShellAsync(scratch, Unshare(), ["-rm", "sh", "-c", script, "sh", scratch.Path, scratch.PathOf(writer.Folder), writer.Folder, .. Program(writer.Arguments)]);
        Assert.SkipWhen(code == 99 || error.StartsWith("unshare: ", StringComparison.Ordinal), "this machine does not let a test mount a file system");
        Assert.True(code == 2, $"exit {code}\n{error}");
        Assert.Contains("wireup: cannot write '", error, StringComparison.Ordinal);
        Assert.Contains(writer.Folder, error, StringComparison.Ordinal);
        Assert.Contains(reason, error, StringComparison.Ordinal);
        Dictionary<string, byte[]> after = Directory.EnumerateFiles(scratch.PathOf("after")).ToDictionary(file => Path.GetFileName(file), File.ReadAllBytes, StringComparer.Ordinal);
        Assert.Equal(old.Keys.Order(StringComparer.Ordinal), after.Keys.Order(StringComparer.Ordinal));
        Assert.All(old, file => Assert.Equal(file.Value, after[file.Key]));
    }

    private static string[] Program(string[] arguments) => ["dotnet", Path.Combine(AppContext.BaseDirectory, "wireup.dll"), .. arguments];

    private static string Unshare()
    {
        Assert.SkipUnless(OperatingSystem.IsLinux() && File.Exists("/usr/bin/unshare"), "needs unshare of util-linux");
        return "/usr/bin/unshare";
    }

    private static async Task<(int Code, string Error)> ShellAsync(ScratchFolder scratch, string tool, string[] arguments)
    {
        using Process process = Process.Start(new ProcessStartInfo(tool, arguments) { WorkingDirectory = scratch.Path, RedirectStandardError = true, UseShellExecute = false })!;
        string error = await process.StandardError.ReadToEndAsync(TestContext.Current.CancellationToken);
        await process.WaitForExitAsync(TestContext.Current.CancellationToken);
        return (process.ExitCode, error);
    }
}
