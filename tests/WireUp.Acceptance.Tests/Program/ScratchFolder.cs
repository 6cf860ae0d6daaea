namespace WireUp.Acceptance.Tests.Program;

/// <summary>A folder of the test's own, with a copy of the sample layouts and their readings, gone when the test ends.</summary>
internal sealed class ScratchFolder : IDisposable
{
    public ScratchFolder()
    {
        string samples = Directory.CreateDirectory(System.IO.Path.Combine(Path, "sample-layouts")).FullName;
        foreach (string file in Directory.EnumerateFiles(RepoFiles.PathOf("sample-layouts"), "*.yaml"))
        {
            File.Copy(file, System.IO.Path.Combine(samples, System.IO.Path.GetFileName(file)));
        }
    }

    public string Path { get; } = Directory.CreateTempSubdirectory("wireup-").FullName;

    public string PathOf(string name) => System.IO.Path.Combine(Path, name);

    public void Dispose() => Directory.Delete(Path, recursive: true);
}
