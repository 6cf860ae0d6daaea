using WireUp.Files;
using WireUp.Web.Drafting;
using WireUp.Web.Folders;
using WireUp.Web.Hosting;

namespace WireUp.Web.Tests.Exact;

public sealed class JournalTests : IDisposable
{
    private static readonly LayoutName Attic = LayoutName.Of("attic")!.Value;

    private readonly DirectoryInfo _directory = Directory.CreateTempSubdirectory("wireup-journal-");
    private readonly LayoutFolder _folder;
    private readonly DrawingDesk _desk;

    public JournalTests()
    {
        _folder = new(_directory);
        _desk = new(_folder);
        File.WriteAllText(Layout, "one\n");
    }

    private string Layout => Path.Combine(_directory.FullName, "attic.layout.yaml");

    private string Journal => Path.Combine(_directory.FullName, "attic.journal");

    [Theory]
    [InlineData("", "abc")]
    [InlineData("abc", "")]
    [InlineData("abcabc", "abc")]
    [InlineData("a😀b", "a😁b")]
    [InlineData("aaaa", "aaaaa")]
    [InlineData("same", "same")]
    public void A_change_leads_from_one_text_to_the_other_and_back(string before, string after)
    {
        TextChange change = TextChange.Between(before, after);
        Assert.Equal(after, change.Make(before));
        Assert.Equal(before, change.TakeBack(after));
        Assert.Null(change.Taken.Length > 0 ? change.Make("zz") : null);
        Assert.False(change.Put.Length > 0 && char.IsLowSurrogate(change.Put[0]));
    }

    [Fact]
    public void Every_change_is_undone_and_made_again_one_by_one_also_after_the_program_began_anew()
    {
        string[] texts = ["one\n", "one\ntwo\n", "one\nzwei\n", "zero\none\nzwei\n"];
        foreach (string text in texts[1..]) Assert.IsType<SaveOutcome.Saved>(_desk.Edit(Attic, Version(), text, $"Made it {text.Length} long."));
        foreach (string text in texts[..^1].Reverse())
        {
            Assert.IsType<SaveOutcome.Saved>(new DrawingDesk(_folder).Undo(Attic, Version()));
            Assert.Equal(text, Text());
        }

        Assert.IsType<SaveOutcome.Refused>(_desk.Undo(Attic, Version()));
        foreach (string text in texts[1..])
        {
            Assert.Equal($"Made it {text.Length} long.", _desk.History(Attic).ToRedo);
            Assert.IsType<SaveOutcome.Saved>(_desk.Redo(Attic, Version()));
            Assert.Equal(text, Text());
        }

        Assert.IsType<SaveOutcome.Refused>(_desk.Redo(Attic, Version()));
    }

    [Fact]
    public void A_change_after_an_undo_leaves_nothing_to_make_again()
    {
        _desk.Edit(Attic, Version(), "two\n", "Two.");
        _desk.Undo(Attic, Version());
        _desk.Edit(Attic, Version(), "three\n", "Three.");
        Assert.Null(_desk.History(Attic).ToRedo);
        _desk.Undo(Attic, Version());
        Assert.Equal("one\n", Text());
    }

    [Fact]
    public void What_another_program_changed_is_one_change_more_and_can_be_undone()
    {
        _desk.Edit(Attic, Version(), "two\n", "Two.");
        File.WriteAllText(Layout, "theirs\n");
        Assert.Equal("Changed outside this view.", _desk.History(Attic).ToUndo);
        _desk.Undo(Attic, Version());
        Assert.Equal("two\n", Text());
        _desk.Undo(Attic, Version());
        Assert.Equal("one\n", Text());
    }

    [Fact]
    public void A_change_of_a_version_that_is_no_longer_there_is_a_conflict_and_changes_nothing()
    {
        string seen = Version();
        File.WriteAllText(Layout, "theirs\n");
        Assert.IsType<SaveOutcome.Conflict>(_desk.Edit(Attic, seen, "mine\n", "Mine."));
        Assert.Equal("theirs\n", Text());
    }

    [Fact]
    public void A_change_that_stands_in_the_journal_and_not_yet_in_the_file_is_brought_to_its_end()
    {
        _desk.Edit(Attic, Version(), "two\n", "Two.");
        File.AppendAllText(Journal, JournalText.Of(new JournalStep.Edit(new(TextChange.Between("two\n", "three\n"), "Three."))) + "\n");
        Assert.Equal("Three.", new DrawingDesk(_folder).History(Attic).ToUndo);
        Assert.Equal("three\n", Text());

        // Once it is done, a file put back by hand stays as it was put back.
        File.WriteAllText(Layout, "two\n");
        Assert.Equal("Changed outside this view.", new DrawingDesk(_folder).History(Attic).ToUndo);
        Assert.Equal("two\n", Text());
    }

    [Fact]
    public void A_change_that_the_file_has_already_counts_and_one_that_no_longer_fits_is_dropped()
    {
        _desk.Edit(Attic, Version(), "two\n", "Two.");
        string pending = JournalText.Of(new JournalStep.Edit(new(TextChange.Between("two\n", "three\n"), "Three."))) + "\n";
        string before = File.ReadAllText(Journal);
        File.WriteAllText(Journal, before + pending);
        File.WriteAllText(Layout, "three\n");
        Assert.Equal("Three.", new DrawingDesk(_folder).History(Attic).ToUndo);

        File.WriteAllText(Journal, before + pending);
        File.WriteAllText(Layout, "theirs\n");
        Assert.Equal("Changed outside this view.", new DrawingDesk(_folder).History(Attic).ToUndo);
        Assert.Equal("theirs\n", Text());
    }

    [Fact]
    public void A_line_that_was_only_half_written_is_passed_over_and_the_next_one_is_whole()
    {
        _desk.Edit(Attic, Version(), "two\n", "Two.");
        File.AppendAllText(Journal, "{\"Step\":\"edit\",\"At\":0,\"Ta");
        DrawingDesk again = new(_folder);
        Assert.Equal("Two.", again.History(Attic).ToUndo);
        again.Edit(Attic, Version(), "three\n", "Three.");
        Assert.Equal("Three.", new DrawingDesk(_folder).History(Attic).ToUndo);
        Assert.Equal(2, again.History(Attic).Made.Count());
    }

    [Fact]
    public void A_journal_that_cannot_be_followed_is_put_aside_and_nothing_is_lost()
    {
        File.WriteAllText(Journal, "nonsense\n");
        Assert.IsType<SaveOutcome.Saved>(_desk.Edit(Attic, Version(), "two\n", "Two."));
        Assert.Equal("nonsense\n", File.ReadAllText(Journal + ".1"));
        Assert.Equal("Two.", _desk.History(Attic).ToUndo);
        Assert.True(_desk.IsCut(Attic));
    }

    [Fact]
    public void A_journal_that_grew_long_is_put_aside_and_another_begins_with_the_text_as_it_is()
    {
        _desk.Edit(Attic, Version(), "two\n", "Two.");
        File.AppendAllText(Journal, string.Concat(Enumerable.Repeat(new string(' ', 9_999) + '\n', (PageLimits.JournalBytes / 10_000) + 1)));
        Assert.IsType<SaveOutcome.Saved>(_desk.Edit(Attic, Version(), "three\n", "Three."));
        Assert.True(new FileInfo(Journal + ".1").Length > PageLimits.JournalBytes);
        Assert.Equal("Three.", Assert.Single(_desk.History(Attic).Made).Said);
        _desk.Undo(Attic, Version());
        Assert.Equal("two\n", Text());
    }

    [Fact]
    public void A_journal_that_is_a_link_out_of_the_folder_is_not_written()
    {
        Assert.SkipWhen(OperatingSystem.IsWindows(), "making a link asks for rights there");
        string outside = Path.Combine(_directory.Parent!.FullName, _directory.Name + ".outside");
        File.WriteAllText(outside, "secret");
        File.CreateSymbolicLink(Journal, outside);
        _desk.Edit(Attic, Version(), "two\n", "Two.");
        Assert.Equal("secret", File.ReadAllText(outside));
        File.Delete(outside);
    }

    public void Dispose()
    {
        _folder.Dispose();
        _directory.Delete(recursive: true);
    }

    private string Text() => File.ReadAllText(Layout);

    private string Version() => Assert.IsType<StoredFile.Found>(_folder.Read(Attic, FileRole.Layout)).Version;
}
