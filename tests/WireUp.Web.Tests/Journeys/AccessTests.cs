using Deque.AxeCore.Commons;
using Deque.AxeCore.Playwright;
using WireUp.Web.Tests.Support;

namespace WireUp.Web.Tests.Journeys;

/// <summary>Rules of WCAG 2.2 AA that a program can test, contrast among them. Source: axe-core, Deque Systems.</summary>
[Collection(BrowserTests.Name)]
public sealed class AccessTests(Browser browser)
{
    [Theory]
    [InlineData(1280, false)]
    [InlineData(360, true)]
    public async Task No_view_has_a_barrier_that_axe_finds(int width, bool isDark)
    {
        await using Served served = await Served.StartAsync("home-yard", "slate-branch");
        await using Seen seen = await browser.OpenAsync(width, 800, isDark);
        List<string> found = [];
        await seen.Page.GotoAsync(served.Address.ToString());
        await Look("list");
        await seen.Page.GotoAsync(new Uri(served.Address, "/why/WU3001").ToString());
        await Look("why");
        foreach (string view in new[] { "draw", "check", "wire", "load", "fault", "text", "sheet" })
        {
            await seen.GoAsync(served, view == "fault" ? "slate-branch" : "home-yard", view);
            if (view is "check" or "load" or "fault") await seen.DrawnAsync();
            if (view == "check") await seen.Page.Locator("ol.findings button").First.ClickAsync();
            if (view == "draw") await seen.Page.Locator("#piece").SelectOptionAsync("T1");
            if (view == "fault") await SayAsync(seen);
            await seen.Page.EvaluateAsync("document.querySelectorAll('details').forEach(each => each.open = true)");
            await Look(view);
        }

        Assert.Empty(found);

        async Task Look(string view)
        {
            AxeResult result = await seen.Page.RunAxe();
            found.AddRange(result.Violations.Select(rule => $"{view}: {rule.Impact} {rule.Id}: {rule.Help}: {string.Join(" | ", rule.Nodes.Take(3).Select(node => node.Html))}"));
        }
    }

    private static async Task SayAsync(Seen seen)
    {
        await seen.Page.GetByLabel("What", new() { Exact = true }).SelectOptionAsync("sentence");
        await seen.Page.GetByLabel("Sentence").FillAsync("stops at quarry-3@0.5 m when T2.diverging");
        await seen.Page.GetByText("Add it").ClickAsync();
        await seen.Page.WaitForSelectorAsync("ol.suspects li");
    }

    [Theory]
    [InlineData(false, true)]
    [InlineData(true, false)]
    public async Task The_sheet_of_the_plan_is_light_by_day_and_dark_by_night(bool isDark, bool isLight)
    {
        await using Served served = await Served.StartAsync("balloon-loop");
        await using Seen seen = await browser.OpenAsync(isDark: isDark);
        await seen.GoAsync(served, "balloon-loop", "check");
        await seen.DrawnAsync();
        byte[] picture = await seen.Page.Locator(".surface").ScreenshotAsync();
        using SkiaSharp.SKBitmap bitmap = SkiaSharp.SKBitmap.Decode(picture);
        int light = Enumerable.Range(0, bitmap.Width * bitmap.Height).Count(i => bitmap.GetPixel(i % bitmap.Width, i / bitmap.Width).Red > 200);
        Assert.Equal(isLight, light * 2 > bitmap.Width * bitmap.Height);
    }

    [Fact]
    public async Task The_keyboard_alone_reaches_a_finding_throws_a_turnout_and_moves_the_plan()
    {
        await using Served served = await Served.StartAsync("home-yard");
        await using Seen seen = await browser.OpenAsync();
        await seen.GoAsync(served, "home-yard", "check");
        await seen.DrawnAsync();
        await seen.Page.WaitForSelectorAsync("ol.findings li");
        string view = await ViewBox();
        await seen.Page.Locator(".surface").FocusAsync();
        await seen.Page.Keyboard.PressAsync("+");
        await seen.Page.WaitForFunctionAsync("before => document.querySelector('.surface svg').getAttribute('viewBox') !== before", view);
        await seen.Page.Locator(".board summary").FocusAsync();
        await seen.Page.Keyboard.PressAsync("Enter");
        await seen.Page.GetByLabel("T1", new() { Exact = true }).FocusAsync();
        await seen.Page.Keyboard.PressAsync("ArrowDown");
        await seen.RemembersAsync("?set=T1.diverging");
        await seen.Page.Locator("ol.findings button").First.FocusAsync();
        await seen.Page.Keyboard.PressAsync("Enter");
        await seen.Page.WaitForSelectorAsync("ol.findings button[aria-pressed=true]");

        Task<string> ViewBox() => seen.Page.Locator(".surface svg").GetAttributeAsync("viewBox")!;
    }
}
