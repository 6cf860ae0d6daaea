using WireUp.Files;
using WireUp.Web.Desk;
using WireUp.Web.Folders;

namespace WireUp.Web.Tests.Exact;

public sealed class FolderTests : IDisposable
{
    private readonly DirectoryInfo _directory = Directory.CreateTempSubdirectory("wireup-folder-");
    private readonly LayoutFolder _folder;

    public FolderTests() => _folder = new(_directory);

    private static LayoutName Attic => LayoutName.Of("attic")!.Value;

    [Theory]
    [InlineData("attic")]
    [InlineData("club room 2.1")]
    [InlineData("Zähringen-Süd")]
    public void A_plain_name_can_be_that_of_a_layout(string name) => Assert.Equal(name, LayoutName.Of(name)?.Text);

    [Theory]
    [InlineData("")]
    [InlineData(null)]
    [InlineData("..")]
    [InlineData("../attic")]
    [InlineData("a/b")]
    [InlineData("a\\b")]
    [InlineData("a..b")]
    [InlineData(".hidden")]
    [InlineData("attic\0")]
    [InlineData("attic.")]
    [InlineData("C:attic")]
    [InlineData("a<b")]
    public void What_could_lead_elsewhere_cannot(string? name) => Assert.Null(LayoutName.Of(name));

    [Fact]
    public void A_file_is_saved_only_over_the_version_that_was_seen()
    {
        SaveOutcome.Saved first = Assert.IsType<SaveOutcome.Saved>(_folder.Save(Attic, FileRole.Layout, "one", null));
        Assert.IsType<SaveOutcome.Conflict>(_folder.Save(Attic, FileRole.Layout, "new", null));
        SaveOutcome.Saved second = Assert.IsType<SaveOutcome.Saved>(_folder.Save(Attic, FileRole.Layout, "two", first.Version));
        Assert.IsType<SaveOutcome.Conflict>(_folder.Save(Attic, FileRole.Layout, "three", first.Version));
        Assert.Equal(new StoredFile.Found("two", second.Version), _folder.Read(Attic, FileRole.Layout));
        Assert.Equal(["attic.layout.yaml"], _directory.GetFiles().Select(file => file.Name));
    }

    [Fact]
    public void Nothing_is_lost_when_twenty_people_tick_at_once()
    {
        WorkSheetDesk sheet = new(_folder);
        Parallel.For(0, 20, i =>
        {
            while (sheet.Tick(Attic, $"f{i}/A", true).Trouble is not null)
            {
            }
        });
        Assert.Equal(Enumerable.Range(0, 20).Select(i => $"f{i}/A").Order(StringComparer.Ordinal), sheet.Read(Attic).Done.Order(StringComparer.Ordinal));
        sheet.Tick(Attic, "f7/A", false);
        Assert.Equal(19, sheet.Read(Attic).Done.Count);
    }

    [Fact]
    public void A_progress_file_that_cannot_be_read_is_told_and_left_as_it_is()
    {
        string file = Path.Combine(_directory.FullName, "attic.progress.json");
        File.WriteAllText(file, "{ broken");
        Assert.NotNull(new WorkSheetDesk(_folder).Tick(Attic, "f1/A", true).Trouble);
        Assert.Equal("{ broken", File.ReadAllText(file));
    }

    [Fact]
    public void A_link_out_of_the_folder_is_neither_listed_nor_read_nor_written()
    {
        Assert.SkipWhen(OperatingSystem.IsWindows(), "making a link asks for rights there");
        string outside = Path.Combine(_directory.Parent!.FullName, _directory.Name + ".outside");
        File.WriteAllText(outside, "secret");
        File.CreateSymbolicLink(Path.Combine(_directory.FullName, "attic.layout.yaml"), outside);
        Assert.Empty(_folder.List());
        Assert.IsType<StoredFile.Unreadable>(_folder.Read(Attic, FileRole.Layout));
        Assert.IsType<SaveOutcome.Refused>(_folder.Save(Attic, FileRole.Layout, "over", null));
        Assert.Equal("secret", File.ReadAllText(outside));
        File.Delete(outside);
    }

    [Fact]
    public async Task Another_programs_edit_is_noticed()
    {
        Assert.SkipUnless(_folder.IsWatched, "this system cannot watch folders");
        TaskCompletionSource<LayoutName> told = new(TaskCreationOptions.RunContinuationsAsynchronously);
        _folder.Changed += name => told.TrySetResult(name);
        await File.WriteAllTextAsync(Path.Combine(_directory.FullName, "attic.layout.yaml"), "theirs", TestContext.Current.CancellationToken);
        Assert.Equal(Attic, await told.Task.WaitAsync(TimeSpan.FromSeconds(10), TestContext.Current.CancellationToken));
    }

    public void Dispose()
    {
        _folder.Dispose();
        _directory.Delete(recursive: true);
    }
}
