using System.Diagnostics;
using System.Globalization;
using WireUp.Files;
using WireUp.Web.Drafting;
using WireUp.Web.Folders;

namespace WireUp.Web.Tests.Security;

/// <summary>A process that draws is killed again and again; what it was told to be saved is there, and all of it can be undone.</summary>
public sealed class JournalKillTests
{
    private const string Where = "WIREUP_TEST_KILLED_IN";
    private const string Beginning = "# begin\n";

    private static readonly LayoutName Attic = LayoutName.Of("attic")!.Value;

    [Fact]
    public async Task Every_change_that_was_reported_outlives_a_sudden_end_and_can_be_undone()
    {
        string directory = Directory.CreateTempSubdirectory("wireup-killed-").FullName;
        string layout = Path.Combine(directory, "attic.layout.yaml");
        await File.WriteAllTextAsync(layout, Beginning, TestContext.Current.CancellationToken);
        try
        {
            for (int round = 1; round <= 5; round++)
            {
                int reported = await DrawUntilKilledAsync(directory, (round * 20) + round);
                using LayoutFolder folder = new(new DirectoryInfo(directory));
                int made = new DrawingDesk(folder).History(Attic).Made.Count();
                Assert.InRange(made, reported, reported + 1);
                Assert.Equal(Text(made), await File.ReadAllTextAsync(layout, TestContext.Current.CancellationToken));
            }

            UndoAll(directory);
            Assert.Equal(Beginning, await File.ReadAllTextAsync(layout, TestContext.Current.CancellationToken));
            Assert.Equal(["attic.journal", "attic.layout.yaml", "reported"], Directory.GetFiles(directory).Select(Path.GetFileName).Where(name => !name!.EndsWith(".new", StringComparison.Ordinal)).Order(StringComparer.Ordinal));
        }
        finally
        {
            Directory.Delete(directory, recursive: true);
        }
    }

    /// <summary>What the process does that is killed: it draws for ever, and reports every change that it was told to be saved.</summary>
    [Fact(Explicit = true)]
    public void Draws_until_it_is_killed()
    {
        string directory = Environment.GetEnvironmentVariable(Where) ?? throw new InvalidOperationException($"{Where} is not set");
        using LayoutFolder folder = new(new DirectoryInfo(directory));
        DrawingDesk desk = new(folder);
        for (int change = desk.History(Attic).Made.Count() + 1; ; change++)
        {
            string seen = ((StoredFile.Found)folder.Read(Attic, FileRole.Layout)).Version;
            Assert.IsType<SaveOutcome.Saved>(desk.Edit(Attic, seen, Text(change), $"Change {change}."));
            File.AppendAllText(Path.Combine(directory, "reported"), string.Create(CultureInfo.InvariantCulture, $"{change}\n"));
        }
    }

    private static string Text(int changes) => Beginning + string.Concat(Enumerable.Range(1, changes).Select(change => $"# {change}\n"));

    private static async Task<int> DrawUntilKilledAsync(string directory, int after)
    {
        ProcessStartInfo start = new("dotnet", [Path.Combine(AppContext.BaseDirectory, "WireUp.Web.Tests.dll"), "-explicit", "only", "-method", $"*{nameof(Draws_until_it_is_killed)}"])
        {
            RedirectStandardOutput = true,
            UseShellExecute = false,
        };
        start.Environment[Where] = directory;
        using Process drawing = Process.Start(start)!;
        string file = Path.Combine(directory, "reported");
        while (Reported(file) < after && !drawing.HasExited) await Task.Delay(1, TestContext.Current.CancellationToken);
        Assert.False(drawing.HasExited);
        drawing.Kill();
        await drawing.WaitForExitAsync(TestContext.Current.CancellationToken);
        return Reported(file);
    }

    private static int Reported(string file) =>
        File.Exists(file) && File.ReadAllText(file).Split('\n')[..^1] is [.., var last] ? int.Parse(last, CultureInfo.InvariantCulture) : 0;

    private static void UndoAll(string directory)
    {
        using LayoutFolder folder = new(new DirectoryInfo(directory));
        DrawingDesk desk = new(folder);
        while (desk.Undo(Attic, ((StoredFile.Found)folder.Read(Attic, FileRole.Layout)).Version) is SaveOutcome.Saved)
        {
        }
    }
}
