using System.Diagnostics;
using WireUp.Web.Tests.Support;

namespace WireUp.Web.Tests.Security;

[Collection(BrowserTests.Name)]
public sealed class SuddenEndTests(Browser browser)
{
    [Fact]
    public async Task What_the_page_reports_as_saved_is_there_after_the_program_is_killed()
    {
        OutsideTools.RequireChromium();
        string folder = Directory.CreateTempSubdirectory("wireup-killed-").FullName;
        string file = Path.Combine(folder, "balloon-loop.layout.yaml");
        File.Copy(RepoFiles.PathOf("sample-layouts/balloon-loop.layout.yaml"), file);
        using Process served = Process.Start(new ProcessStartInfo("dotnet", [Path.Combine(AppContext.BaseDirectory, "wireup.dll"), "serve", folder, "--port", "0"]) { RedirectStandardError = true, UseShellExecute = false })!;
        try
        {
            string line = await served.StandardError.ReadLineAsync(TestContext.Current.CancellationToken) ?? "";
            string address = line.Split(' ')[1];
            await using Seen seen = await browser.OpenAsync();
            await seen.Page.GotoAsync($"{address}/layouts/balloon-loop/text");
            await Microsoft.Playwright.Assertions.Expect(seen.Page.Locator("textarea")).Not.ToHaveValueAsync("");
            string text = await seen.Page.Locator("textarea").InputValueAsync() + "# the last word\n";
            await seen.Page.Locator("textarea").FillAsync(text);
            await seen.Page.GetByText("Save", new() { Exact = true }).ClickAsync();
            await seen.Page.WaitForSelectorAsync("[data-saved]");
            served.Kill();
            await served.WaitForExitAsync(TestContext.Current.CancellationToken);
            Assert.Equal(text, await File.ReadAllTextAsync(file, TestContext.Current.CancellationToken));
            Assert.Equal(["balloon-loop.layout.yaml"], Directory.GetFiles(folder).Select(Path.GetFileName));
            await seen.Page.WaitForSelectorAsync("text=The connection to wireup serve is lost");
            Assert.Equal(text, await seen.Page.Locator("textarea").InputValueAsync());
        }
        finally
        {
            if (!served.HasExited) served.Kill();
            Directory.Delete(folder, recursive: true);
        }
    }

    [Fact]
    public async Task A_port_that_is_taken_is_said_in_one_line()
    {
        await using Served other = await Served.StartAsync();
        using Process second = Process.Start(new ProcessStartInfo("dotnet", [Path.Combine(AppContext.BaseDirectory, "wireup.dll"), "serve", other.Folder, "--port", $"{other.Address.Port}"]) { RedirectStandardError = true, UseShellExecute = false })!;
        string said = await second.StandardError.ReadToEndAsync(TestContext.Current.CancellationToken);
        await second.WaitForExitAsync(TestContext.Current.CancellationToken);
        Assert.Equal(2, second.ExitCode);
        Assert.Equal($"wireup: port {other.Address.Port} is taken by another program, perhaps another 'wireup serve'; choose one with --port, or --port 0 for any that is free", said.TrimEnd());
    }
}
