namespace WireUp.Testing;

/// <summary>The one class that every test project has and that looks at no room: what lists changes for mutation testing runs it alone.</summary>
public sealed class RepoFilesTests
{
    [Fact]
    public void The_root_is_the_folder_of_the_solution()
    {
        Assert.True(File.Exists(RepoFiles.PathOf("WireUp.sln")));
        Assert.Equal(Path.Combine(RepoFiles.Root, "docs", "mutation.md"), RepoFiles.PathOf("docs/mutation.md"));
        Assert.NotEmpty(RepoFiles.SampleLayouts);
    }
}
