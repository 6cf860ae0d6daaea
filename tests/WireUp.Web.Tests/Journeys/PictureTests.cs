using WireUp.Web.Tests.Support;

namespace WireUp.Web.Tests.Journeys;

[Collection(BrowserTests.Name)]
public sealed class PictureTests(Browser browser)
{
    [Fact]
    public async Task Pictures()
    {
        string folder = Environment.GetEnvironmentVariable("WIREUP_PICTURES") ?? "";
        Assert.SkipWhen(folder.Length == 0, "only for looking");
        await using Served served = await Served.StartAsync("home-yard", "balloon-loop", "tarrow-valley-as-built");
        foreach ((int width, int height, bool dark, string tag) in new[] { (1280, 800, false, "desk"), (360, 740, false, "phone"), (1280, 800, true, "dark") })
        {
            await using Seen seen = await browser.OpenAsync(width, height, dark);
            await seen.Page.GotoAsync(served.Address.ToString());
            await seen.Page.ScreenshotAsync(new() { Path = $"{folder}/list-{tag}.png" });
            foreach (string view in new[] { "check", "wire", "load", "text", "sheet" })
            {
                await seen.GoAsync(served, tag == "dark" ? "tarrow-valley-as-built" : "home-yard", view);
                if (view is "check" or "wire" or "load") await seen.DrawnAsync();
                if (view == "check") await seen.Page.WaitForSelectorAsync("ol.findings li");
                if (view == "wire" && tag != "dark")
                {
                    await seen.Page.GetByText("Propose the wiring").ClickAsync();
                    await seen.Page.WaitForSelectorAsync("text=proposals, drawn");
                    await seen.Page.WaitForSelectorAsync(".surface[data-drawn*=True] svg");
                }

                await Task.Delay(500, TestContext.Current.CancellationToken);
                await seen.Page.ScreenshotAsync(new() { Path = $"{folder}/{view}-{tag}.png", FullPage = tag == "phone" });
            }

            File.WriteAllLines($"{folder}/complaints-{tag}.txt", seen.Complaints);
        }
    }
}
