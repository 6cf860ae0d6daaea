namespace WireUp.Rails.Tests.Approved;

/// <summary>The page on trackwork says what the table says.</summary>
public sealed class TrackworkPageTests
{
    private const string Page = "docs/trackwork.md";

    [Fact]
    public void Page_on_trackwork_agrees_with_the_table_of_trackwork()
    {
        string page = RepoFiles.ReadText(Page).ReplaceLineEndings("\n"), remade = TrackworkPage.Remade(page);
        if (page != remade)
        {
            string beside = Path.Combine(AppContext.BaseDirectory, "received-trackwork.md");
            File.WriteAllText(beside, remade);
            Assert.Fail($"{Page} is not what the table of trackwork says. If the table is right, copy {beside} over it and look at the difference.");
        }
    }

    [Fact]
    public void Page_on_trackwork_has_every_table_once() =>
        Assert.Equal(TrackworkPage.Tables, TrackworkPage.TablesOf(RepoFiles.ReadText(Page).ReplaceLineEndings("\n")));
}
