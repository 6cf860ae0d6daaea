using WireUp.Web.Tests.Support;

namespace WireUp.Web.Tests.Journeys;

/// <summary>Makes the pictures of the handbook anew; DEVELOPERS.md says how. Not run with the other tests: it writes into the repository.</summary>
[Collection(BrowserTests.Name)]
public sealed class Pictures(Browser browser)
{
    [Fact(Explicit = true)]
    public async Task Pictures_of_the_page()
    {
        await using Served served = await Served.StartAsync("home-yard", "tarrow-valley-as-built");
        await using (Seen desk = await browser.OpenAsync(1200, 720))
        {
            await desk.GoAsync(served, "tarrow-valley-as-built", "check");
            await desk.Page.WaitForSelectorAsync("ol.findings li");
            await desk.DrawnAsync();
            await desk.Page.Locator("ol.findings button").First.ClickAsync();
            await desk.Page.WaitForSelectorAsync("[data-layer=path] path");
            await desk.Page.WaitForTimeoutAsync(500);
            await desk.Page.ScreenshotAsync(new() { Path = RepoFiles.PathOf("docs/images/page-check.png") });
        }

        await using Seen phone = await browser.OpenAsync(360, 720, isDark: true);
        await phone.GoAsync(served, "home-yard", "load");
        await phone.DrawnAsync();
        await phone.Page.GetByLabel("Place").FillAsync("main-4@1.2 m");
        await phone.Page.GetByText("Put it there").ClickAsync();
        await phone.Page.WaitForSelectorAsync("text=at the wheels");
        await phone.Page.WaitForTimeoutAsync(500);
        await phone.Page.ScreenshotAsync(new() { Path = RepoFiles.PathOf("docs/images/page-load.png"), FullPage = true });
    }
}
