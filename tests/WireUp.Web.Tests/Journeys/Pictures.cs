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

    [Fact(Explicit = true)]
    public async Task Pictures_of_a_search_for_a_fault()
    {
        await using Served served = await Served.StartAsync("slate-branch");
        File.Copy(RepoFiles.PathOf("sample-layouts/slate-branch.readings.yaml"), served.PathOf("slate-branch.readings.yaml"));
        await using Seen desk = await browser.OpenAsync(1200, 1000);
        await desk.GoAsync(served, "slate-branch", "fault");
        await desk.DrawnAsync();
        await desk.Page.GetByText("Take in slate-branch.readings.yaml").ClickAsync();
        await desk.Page.WaitForSelectorAsync("ol.suspects li");
        await desk.Page.Locator("ol.suspects button.line").First.ClickAsync();
        await desk.Page.WaitForSelectorAsync(".surface .mark.chosen");
        await desk.Page.EvaluateAsync("document.querySelector('.panel').scrollTop = document.querySelector('ol.readings').offsetTop + 120");
        await desk.Page.WaitForTimeoutAsync(500);
        await desk.Page.ScreenshotAsync(new() { Path = RepoFiles.PathOf("docs/images/page-fault.png") });
    }
}
