using Microsoft.AspNetCore.Builder;
using WireUp.Commands;
using WireUp.Files;

namespace WireUp.Web.Tests.Support;

/// <summary>The page over a folder of its own, on a port of its own.</summary>
internal sealed class Served : IAsyncDisposable
{
    private readonly WebApplication _page;
    private readonly LayoutFolder _layouts;

    private Served(string folder, LayoutFolder layouts, WebApplication page) => (Folder, _layouts, _page) = (folder, layouts, page);

    public string Folder { get; }

    public Uri Address => new(_page.Urls.Single().Replace("0.0.0.0", "127.0.0.1", StringComparison.Ordinal));

    /// <summary>Serves copies of sample layouts.</summary>
    public static Task<Served> StartAsync(params string[] samples) => StartAsync(null, samples);

    /// <summary>Serves copies of sample layouts to the local network too.</summary>
    public static async Task<Served> StartAsync(Action<string>? tellAtDoor, params string[] samples)
    {
        string folder = Directory.CreateTempSubdirectory("wireup-page-").FullName;
        foreach (string sample in samples)
        {
            File.Copy(RepoFiles.PathOf($"sample-layouts/{sample}.layout.yaml"), Path.Combine(folder, Path.GetFileName(sample) + ".layout.yaml"));
        }

        LayoutFolder layouts = new(new DirectoryInfo(folder));
        WebApplication page = ServeVerb.Build(layouts, port: 0, tellAtDoor);
        await page.StartAsync(TestContext.Current.CancellationToken);
        return new(folder, layouts, page);
    }

    public string PathOf(string file) => Path.Combine(Folder, file);

    public async ValueTask DisposeAsync()
    {
        await _page.StopAsync(new CancellationTokenSource(TimeSpan.FromSeconds(2)).Token);
        await _page.DisposeAsync();
        _layouts.Dispose();
        Directory.Delete(Folder, recursive: true);
    }
}
