namespace WireUp.Acceptance.Tests.Program;

/// <summary>A folder of the test's own, with a copy of the sample layouts, their readings and the sample drawings, gone when the test ends.</summary>
internal sealed class ScratchFolder : IDisposable
{
    public ScratchFolder()
    {
        Copy("sample-layouts", "*.yaml");
        Copy("sample-drawings", "*.svg");
    }

    private void Copy(string folder, string files)
    {
        string copies = Directory.CreateDirectory(PathOf(folder)).FullName;
        foreach (string file in Directory.EnumerateFiles(RepoFiles.PathOf(folder), files))
        {
            File.Copy(file, System.IO.Path.Combine(copies, System.IO.Path.GetFileName(file)));
        }
    }

    public string Path { get; } = Directory.CreateTempSubdirectory("wireup-").FullName;

    public string PathOf(string name) => System.IO.Path.Combine(Path, name);

    public void Dispose() => Directory.Delete(Path, recursive: true);
}
