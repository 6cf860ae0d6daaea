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
        await pencil.LineAsync("Lay curved track", isClosed: false, (1100, 250), (1500, 750), (1900, 1250));
        await page.WaitForSelectorAsync("[data-made='4']");
        Layout drawn = Read(served).Layout!;
        Assert.Equal(2, drawn.Track.OfType<Piece.Turnout>().Count());
        Assert.Empty(LooseEnds(drawn));

        await seen.FollowAsync("Check");
        await page.WaitForSelectorAsync("ol.findings li:has-text('WU3')");

        await seen.FollowAsync("Wire");
        await page.GetByText("Propose the wiring").ClickAsync();
        await page.WaitForSelectorAsync("text=The plan passes its own checks");
        await page.GetByText("Accept all and write them to the file").ClickAsync();
        await page.WaitForSelectorAsync("text=proposals to the file");
        Assert.NotEmpty(Read(served).Layout!.Wiring.Feeders);

        await seen.FollowAsync("Load");
        await page.GetByLabel("Place").FillAsync("track-2@0.3 m");
        await page.GetByText("Put it there").ClickAsync();
        await page.WaitForSelectorAsync("text=at the wheels");

        await seen.FollowAsync("Fault");
        await SayAsync(page, "stops at track-2@0.3 m");
        await SayAsync(page, "0 V at track-2@0.3 m");
        await page.WaitForSelectorAsync("ol.suspects li:has-text('track-2'), ol.suspects li:has-text('feeder'), ol.suspects li:has-text('T1')");

        await seen.FollowAsync("Draw");
        await page.WaitForSelectorAsync("[data-made='5']");
        Assert.Empty(seen.Complaints);
        Assert.Equal(width, await page.EvaluateAsync<int>("document.documentElement.scrollWidth"));
    }

    [Fact]
    public async Task The_keyboard_alone_draws_by_coordinates_renames_undoes_and_the_history_outlives_a_reload()
    {
        await using Served served = await BlankAsync();
        await using Seen seen = await browser.OpenAsync();
        IPage page = seen.Page;
        await seen.GoAsync(served, "attic", "draw");
        await page.GetByText("Add track by coordinates").FocusAsync();
        await page.Keyboard.PressAsync("Enter");
        foreach ((string points, int made) in new[] { ("0, 0; 900, 0", 1), ("900, 0; 1.8 m, 0", 2) })
        {
            await page.GetByLabel("Points").FillAsync(points);
            await page.Keyboard.PressAsync("Enter");
            await page.WaitForSelectorAsync($"[data-made='{made}']");
        }

        Assert.Single(Read(served).Layout!.Joints);
        await page.Locator("#piece").SelectOptionAsync("track-2");
        await page.Locator("#piece-name").FillAsync("spur");
        await page.Keyboard.PressAsync("Enter");
        await page.WaitForSelectorAsync("[data-made='3']");
        await Assertions.Expect(page.Locator("textarea")).ToHaveValueAsync(await File.ReadAllTextAsync(served.PathOf("attic.layout.yaml"), Cancel));
        await page.Locator(".surface").FocusAsync();
        await page.Keyboard.PressAsync("Control+z");
        await page.WaitForSelectorAsync("text=Undone: Renamed");
        Assert.Contains(Read(served).Layout!.Track, piece => piece.Id.Name == "track-2");

        await page.ReloadAsync();
        await page.WaitForSelectorAsync("[data-made='2']");
        await page.GetByText("Redo", new() { Exact = true }).ClickAsync();
        await page.WaitForSelectorAsync("[data-made='3']");
        Assert.Contains(Read(served).Layout!.Track, piece => piece.Id.Name == "spur");

        string text = await page.Locator("textarea").InputValueAsync();
        await page.Locator("textarea").FillAsync(text.Replace("spur", "branch", StringComparison.Ordinal));
        await page.WaitForSelectorAsync("#piece option[value=branch]", new() { State = WaitForSelectorState.Attached });
        await page.WaitForSelectorAsync("[data-made='4']");
        await page.GetByText("Undo", new() { Exact = true }).ClickAsync();
        await page.WaitForSelectorAsync("text=Undone: Edited the text.");
        await Assertions.Expect(page.Locator("textarea")).ToHaveValueAsync(text);
        Assert.Empty(seen.Complaints);
    }

    [Fact]
    public async Task Where_lines_cross_the_page_asks_and_a_corner_that_is_dragged_moves()
    {
        await using Served served = await BlankAsync("track:\n  main: { path: [[0, 0], [1000, 300], [2000, 0]] }\n");
        await using Seen seen = await browser.OpenAsync();
        Pencil pencil = new(seen.Page);
        await seen.GoAsync(served, "attic", "draw");
        await seen.Page.WaitForSelectorAsync(".surface[data-lines='2']");
        await seen.Page.Locator("#piece").SelectOptionAsync("main");
        await seen.Page.WaitForSelectorAsync(".handle", new() { State = WaitForSelectorState.Attached });
        await pencil.DragAsync(1000, 300, 1000, 500);
        await seen.Page.WaitForSelectorAsync("[data-made='1']");
        Assert.InRange(((Piece.Section)Read(served).Layout!.Track[0]).Path[1].Y, 0.49, 0.51);

        await pencil.LineAsync("Lay straight track", isClosed: false, (400, 600), (700, -200));
        await seen.Page.GetByRole(AriaRole.Alert).GetByRole(AriaRole.Button).First.ClickAsync();
        await seen.Page.WaitForSelectorAsync("[data-made='2']");
        Assert.Single(Read(served).Layout!.Track.OfType<Piece.Crossing>());
        await seen.Page.WaitForSelectorAsync(".surface[data-points='0']");
        Assert.Empty(seen.Complaints);
    }

    [Fact]
    public async Task What_is_no_picture_is_refused_with_the_reason_and_nothing_is_written()
    {
        await using Served served = await BlankAsync();
        await using Seen seen = await browser.OpenAsync();
        await seen.GoAsync(served, "attic", "draw");
        await seen.Page.Locator("#picture-file").SetInputFilesAsync(new FilePayload { Name = "scan.png", MimeType = "image/png", Buffer = "<html onload='1'/>"u8.ToArray() });
        await seen.Page.WaitForSelectorAsync("text=The file is not a PNG, JPEG or SVG picture");
        Assert.Equal(["attic.layout.yaml"], Directory.GetFiles(served.Folder).Select(Path.GetFileName));
    }

    [Fact]
    public async Task A_curve_through_points_of_a_circle_keeps_to_the_circle_within_two_millimetres_and_leaves_track_in_its_direction()
    {
        await using Served served = await Served.StartAsync();
        await using Seen seen = await browser.OpenAsync();
        await seen.Page.GotoAsync(served.Address.ToString());
        double[] worst = await seen.Page.EvaluateAsync<double[]>("""
            async () => {
              const { curve } = await import('/_content/WireUp.Web/curve.js');
              const on = degrees => ({ x: 500 * Math.cos(degrees * Math.PI / 180), y: 500 * Math.sin(degrees * Math.PI / 180) });
              const arc = curve([0, 40, 90, 130].map(on));
              const away = Math.max(...arc.flatMap((at, i) => i === 0 ? [0] : [0.25, 0.5, 1].map(share =>
                Math.abs(500 - Math.hypot(arc[i - 1].x + share * (at.x - arc[i - 1].x), arc[i - 1].y + share * (at.y - arc[i - 1].y))))));
              const out = curve([{ x: 0, y: 0, dir: { x: 1, y: 0 }, snap: 'end' }, { x: 400, y: 200 }]);
              return [away, Math.atan2(out[1].y, out[1].x) * 180 / Math.PI, out.length];
            }
            """);
        Assert.InRange(worst[0], 0, 2);
        Assert.InRange(worst[1], 0, 8);
        Assert.InRange(worst[2], 4, 40);
    }

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    private static async Task<Served> BlankAsync(string track = "track:\n")
    {
        Served served = await Served.StartAsync();
        await File.WriteAllTextAsync(served.PathOf("attic.layout.yaml"), "wireup: 1\nname: attic\nlongest-train: 1 m\n" + track, Cancel);
        return served;
    }

    private static async Task SayAsync(IPage page, string sentence)
    {
        int before = await page.Locator("ol.readings > li").CountAsync();
        await page.GetByLabel("What", new() { Exact = true }).SelectOptionAsync("sentence");
        await page.GetByLabel("Sentence").FillAsync(sentence);
        await page.GetByText("Add it").ClickAsync();
        await Assertions.Expect(page.Locator("ol.readings > li")).ToHaveCountAsync(before + 1);
    }

    private static LayoutReading Read(Served served) => LayoutFile.Read(File.ReadAllText(served.PathOf("attic.layout.yaml")), "attic");

    private static IEnumerable<TrackEnd> LooseEnds(Layout layout) =>
        layout.Track.SelectMany(piece => piece.Ends).Except(layout.Joints.SelectMany(joint => new[] { joint.First, joint.Second }));
}
