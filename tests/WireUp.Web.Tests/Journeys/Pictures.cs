using Microsoft.Playwright;
using WireUp.Web.Tests.Support;

namespace WireUp.Web.Tests.Journeys;

/// <summary>Makes the pictures of the handbook anew; DEVELOPERS.md says how. Not run with the other tests: it writes into the repository.</summary>
[Collection(BrowserTests.Name)]
public sealed class Pictures(Browser browser)
{
    /// <summary>Every view on a desk, and on a phone at night.</summary>
    [Fact(Explicit = true)]
    public async Task Pictures_of_the_page()
    {
        await using Served served = await Served.StartAsync("tarrow-valley-as-built", "hill-and-corridors", "balloon-loop");
        foreach ((int width, bool isPhone) in new[] { (1200, false), (360, true) })
        {
            await using Seen seen = await browser.OpenAsync(width, 720, isDark: isPhone);
            IPage page = seen.Page;
            await OpenAsync("tarrow-valley-as-built", "check");
            await page.WaitForSelectorAsync("ol.findings li");
            await page.Locator("ol.findings button").First.ClickAsync();
            await page.WaitForSelectorAsync("[data-layer=path] path", new() { State = WaitForSelectorState.Attached });
            await TakeAsync("check");

            await OpenAsync("balloon-loop", "wire");
            if (!isPhone) await page.GetByText("Propose the wiring").ClickAsync(); // the plan is kept for the next who looks
            await page.GetByText("Feeders: ").First.ClickAsync();
            await page.WaitForSelectorAsync(".surface[data-drawn$=True]");
            await TakeAsync("wire");

            await OpenAsync("tarrow-valley-as-built", "load");
            string place = await page.Locator("p code").First.InnerTextAsync();
            await page.GetByLabel("Place").FillAsync(place);
            await page.GetByText("Put it there").ClickAsync();
            await page.WaitForSelectorAsync("text=at the wheels");
            await TakeAsync("load");

            await seen.GoAsync(served, "hill-and-corridors", "text");
            await Assertions.Expect(page.Locator("textarea")).Not.ToHaveValueAsync("");
            await TakeAsync("text");
            await seen.GoAsync(served, "tarrow-valley-as-built", "sheet");
            await page.Locator("label.wire-row input").First.CheckAsync();
            await TakeAsync("sheet");

            async Task OpenAsync(string layout, string view)
            {
                await seen.GoAsync(served, layout, view);
                await seen.DrawnAsync();
            }

            async Task TakeAsync(string view)
            {
                await page.EvaluateAsync("new Promise(done => requestAnimationFrame(() => requestAnimationFrame(done)))");
                await page.ScreenshotAsync(new() { Path = RepoFiles.PathOf($"docs/images/page-{view}{(isPhone ? "-phone" : "")}.png") });
            }
        }
    }

    [Fact(Explicit = true)]
    public async Task Pictures_of_a_search_for_a_fault()
    {
        await using Served served = await Served.StartAsync("slate-branch");
        File.Copy(RepoFiles.PathOf("sample-layouts/slate-branch.readings.yaml"), served.PathOf("slate-branch.readings.yaml"));
        foreach ((int width, int height, string of) in new[] { (1200, 1000, "page-fault"), (360, 900, "page-fault-phone") })
        {
            await using Seen seen = await browser.OpenAsync(width, height, isDark: width < 500);
            await seen.GoAsync(served, "slate-branch", "fault");
            await seen.DrawnAsync();
            await seen.Page.GetByText("Take in slate-branch.readings.yaml").ClickAsync();
            await seen.Page.WaitForSelectorAsync("ol.suspects li");
            await seen.Page.Locator("ol.suspects button.line").First.ClickAsync();
            await seen.Page.WaitForSelectorAsync(".surface .mark.chosen");
            if (width > 500) await seen.Page.EvaluateAsync("document.querySelector('.panel').scrollTop = document.querySelector('ol.readings').offsetTop + 120");
            else await seen.Page.EvaluateAsync("document.querySelector('ol.suspects').scrollIntoView()");
            await seen.Page.WaitForTimeoutAsync(500);
            await seen.Page.ScreenshotAsync(new() { Path = RepoFiles.PathOf($"docs/images/{of}.png") });
        }
    }

    [Fact(Explicit = true)]
    public async Task Pictures_of_drawing()
    {
        await using Served served = await Served.StartAsync();
        await using Seen seen = await browser.OpenAsync(1700, 900);
        Pencil pencil = new(seen.Page);
        await seen.Page.GotoAsync(served.Address.ToString());
        await seen.Page.GetByLabel("Name").FillAsync("attic");
        await seen.Page.GetByText("Draw it", new() { Exact = true }).ClickAsync();
        await seen.Page.WaitForSelectorAsync("main[data-ready=Draw]");
        await seen.Page.Locator("#picture-file").SetInputFilesAsync(new Microsoft.Playwright.FilePayload { Name = "scan.png", MimeType = "image/png", Buffer = Pencil.Scan() });
        await seen.Page.WaitForSelectorAsync("text=under the plan");
        await seen.Page.GetByText("Whole plan", new() { Exact = true }).ClickAsync();
        await pencil.LineAsync("Lay curved track", isClosed: true, DrawingTests.Oval);
        await seen.Page.WaitForSelectorAsync("[data-made='2']");
        await pencil.LineAsync("Lay curved track", isClosed: false, (1100, 250), (1500, 750), (1900, 1250));
        await seen.Page.WaitForSelectorAsync("[data-made='3']");
        await seen.Page.GetByText("Choose", new() { Exact = true }).ClickAsync();
        await pencil.TouchAsync(2750, 750);
        await seen.Page.WaitForSelectorAsync(".line.chosen", new() { State = Microsoft.Playwright.WaitForSelectorState.Attached });
        await seen.Page.WaitForTimeoutAsync(500);
        await seen.Page.ScreenshotAsync(new() { Path = RepoFiles.PathOf("docs/images/page-draw.png") });
    }
}
