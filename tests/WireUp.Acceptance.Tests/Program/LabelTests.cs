namespace WireUp.Acceptance.Tests.Program;

/// <summary>Labels, paper and files of <c>wireup plan --out</c> from the command line.</summary>
public class LabelTests
{
    private const string Balloon = "sample-layouts/balloon-loop.layout.yaml";

    [Fact]
    public async Task Labels_come_with_the_papers_on_the_paper_asked_for()
    {
        using ScratchFolder folder = new();
        Wireup.Outcome outcome = await Wireup.RunAsync(folder.Path, "plan", Balloon, "--out", "book", "--labels", "38.1x21.2", "--paper", "tabloid");
        Assert.True(outcome.ExitCode == 0, outcome.ToString());
        Assert.Contains("wrote 10 files to book", outcome.Error, StringComparison.Ordinal);
        string pdf = await File.ReadAllTextAsync(folder.PathOf("book/balloon-loop-labels.pdf"), System.Text.Encoding.Latin1, TestContext.Current.CancellationToken);

        // Tabloid is 11 by 17 inches: 792 by 1224 points.
        Assert.Matches(@"/MediaBox \[0 0 792(\.\d+)? 1224(\.\d+)?\]", pdf);
    }

    [Theory]
    [InlineData("38.1")]
    [InlineData("38.1x")]
    [InlineData("9x40")]
    [InlineData("38.1x21.2x3")]
    [InlineData("axb")]
    public async Task A_size_that_is_none_is_refused_with_an_example(string size)
    {
        using ScratchFolder folder = new();
        Wireup.Outcome outcome = await Wireup.RunAsync(folder.Path, "plan", Balloon, "--out", "book", "--labels", size);
        Assert.Equal(2, outcome.ExitCode);
        Assert.Contains("38.1x21.2", outcome.Error, StringComparison.Ordinal);
        Assert.False(Directory.Exists(folder.PathOf("book")));
    }
}
