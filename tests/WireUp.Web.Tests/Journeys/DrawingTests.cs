using Microsoft.Playwright;
using WireUp.Layouts;
using WireUp.Web.Tests.Support;

namespace WireUp.Web.Tests.Journeys;

/// <summary>Through the Draw view in a browser.</summary>
[Collection(BrowserTests.Name)]
public sealed class DrawingTests(Browser browser)
{
    internal static readonly (double X, double Y)[] Oval =
        [(800, 250), (1500, 250), (2200, 250), (2600, 400), (2750, 750), (2600, 1100), (2200, 1250), (1500, 1250), (800, 1250), (400, 1100), (250, 750), (400, 400), (800, 250)];

    [Theory]
    [InlineData(1280, 800)]
    [InlineData(360, 740)]
    public async Task From_a_picture_of_a_plan_to_the_fault_of_the_railway_that_was_drawn_over_it(int width, int height)
    {
        await using Served served = await Served.StartAsync();
        await using Seen seen = await browser.OpenAsync(width, height);
        IPage page = seen.Page;
        Pencil pencil = new(page);
        await page.GotoAsync(served.Address.ToString());
        await page.GetByLabel("Name").FillAsync("attic");
        await page.GetByText("Draw it", new() { Exact = true }).ClickAsync();
        await page.WaitForSelectorAsync("main[data-ready=Draw]");

        await page.Locator("#picture-file").SetInputFilesAsync(new FilePayload { Name = "scan.png", MimeType = "image/png", Buffer = Pencil.Scan() });
        await page.WaitForSelectorAsync("text=Laid attic.picture.png under the plan");
        await page.WaitForSelectorAsync(".surface image", new() { State = WaitForSelectorState.Attached });
        await page.GetByText("Whole plan", new() { Exact = true }).ClickAsync();
        await page.GetByText("Set the scale", new() { Exact = true }).ClickAsync();
        await page.WaitForSelectorAsync(".surface[data-tool=measure]");
        await pencil.TouchAsync(250, 750);
        await pencil.TouchAsync(2750, 750);
        await page.GetByLabel("Between the two points lie").FillAsync("2.5 m");
        await page.GetByText("Set the scale by it").ClickAsync();
        await page.WaitForSelectorAsync("text=wide by the two points");
        Assert.InRange(Read(served).Blank!.Picture!.Width.Meters, 2.95, 3.05);

        await pencil.LineAsync("Lay curved track", isClosed: true, Oval);
        await page.WaitForSelectorAsync("[data-made='3']");
        await pencil.LineAsync("Lay curved track", isClosed: false, (875, 250), (1500, 750), (2125, 1250));
        await page.WaitForSelectorAsync("[data-made='4']");
        Layout drawn = Read(served).Layout!;
        Assert.Equal(2, drawn.Track.OfType<Piece.Turnout>().Count());
        Assert.Empty(LooseEnds(drawn));

        await seen.FollowAsync("Check");
        await page.WaitForSelectorAsync("ol.findings li:has-text('WU3')");
        Assert.Empty(seen.Complaints);
        Assert.Equal(width, await page.EvaluateAsync<int>("document.documentElement.scrollWidth"));
    }

    private static LayoutReading Read(Served served) => LayoutFile.Read(File.ReadAllText(served.PathOf("attic.layout.yaml")), "attic");

    private static IEnumerable<TrackEnd> LooseEnds(Layout layout) =>
        layout.Track.SelectMany(piece => piece.Ends).Except(layout.Joints.SelectMany(joint => new[] { joint.First, joint.Second }));
}
