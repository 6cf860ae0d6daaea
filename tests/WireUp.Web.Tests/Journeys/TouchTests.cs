using Microsoft.Playwright;
using WireUp.Layouts;
using WireUp.Web.Tests.Support;

namespace WireUp.Web.Tests.Journeys;

/// <summary>With fingers on a phone, and what is dragged on the boards.</summary>
[Collection(BrowserTests.Name)]
public sealed class TouchTests(Browser browser)
{
    [Fact]
    public async Task Fingers_on_a_phone_draw_track_choose_it_drag_its_corner_and_move_and_zoom_the_board()
    {
        await using Served served = await ServedAsync("track:\n");
        await using Seen seen = await browser.OpenAsync(360, 740, hasTouch: true);
        IPage page = seen.Page;
        Pencil finger = new(page, isFinger: true);
        await seen.GoAsync(served, "attic", "draw");
        await page.GetByText("Whole plan", new() { Exact = true }).TapAsync();
        await finger.LineAsync("Lay straight track", isClosed: false, (500, 700), (1500, 400), (2500, 700));
        await page.WaitForSelectorAsync("[data-made='1']");
        Assert.Equal(3, Section(served).Path.Length);
        await page.GetByText("Choose", new() { Exact = true }).TapAsync();
        await page.WaitForSelectorAsync(".surface[data-tool=choose]");
        await finger.TouchAsync(1000, 550);
        await page.WaitForSelectorAsync(".line.chosen", new() { State = WaitForSelectorState.Attached });
        await page.WaitForSelectorAsync(".handle", new() { State = WaitForSelectorState.Attached });
        await finger.DragFingersAsync((1500, 400, 1500, 900));
        await page.WaitForSelectorAsync("[data-made='2']");
        Assert.InRange(Section(served).Path[1].Y, 0.85, 0.95);

        double before = await WidthAsync(page);
        await finger.DragFingersAsync((1300, 100, 1000, 100), (1700, 100, 2000, 100));
        await Assertions.Expect(page.Locator(".surface svg")).Not.ToHaveAttributeAsync("viewBox", "");
        await page.WaitForFunctionAsync("before => Number(document.querySelector('.surface svg').getAttribute('viewBox').split(' ')[2]) < 0.8 * before", before);
        Assert.Equal(3, Section(served).Path.Length);
        Assert.Empty(seen.Complaints);
    }

    [Fact]
    public async Task The_picture_is_dragged_to_its_place_and_the_track_stays()
    {
        await using Served served = await ServedAsync("picture: { file: attic.picture.png, width: 2 m }\ntrack:\n  main: { path: [[0, 0], [1000, 300], [2000, 0]] }\n");
        await File.WriteAllBytesAsync(served.PathOf("attic.picture.png"), Pencil.Scan(), TestContext.Current.CancellationToken);
        await using Seen seen = await browser.OpenAsync();
        await seen.GoAsync(served, "attic", "draw");
        await seen.Page.WaitForSelectorAsync(".surface image", new() { State = WaitForSelectorState.Attached });
        await seen.Page.GetByText("Move the picture", new() { Exact = true }).ClickAsync();
        await seen.Page.WaitForSelectorAsync(".surface[data-tool=picture]");
        await new Pencil(seen.Page).DragAsync(1000, 500, 1200, 400);
        await seen.Page.WaitForSelectorAsync("[data-made='1']");
        await seen.Page.WaitForSelectorAsync("text=Moved the picture.");
        PlanPicture picture = Read(served).Picture!;
        Assert.InRange(picture.At.X, 0.18, 0.22);
        Assert.InRange(picture.At.Y, -0.12, -0.08);
        Assert.Equal(new PlanPoint(1, 0.3), Section(served).Path[1]);
        Assert.Empty(seen.Complaints);
    }

    [Fact]
    public async Task A_train_that_is_dragged_is_answered_on_the_way_and_let_go_off_the_track_it_returns()
    {
        await using Served served = await Served.StartAsync("slate-branch");
        await using Seen seen = await browser.OpenAsync();
        IPage page = seen.Page;
        await seen.GoAsync(served, "slate-branch", "load");
        await page.WaitForSelectorAsync(".surface[data-drawn*=Volts]");
        await page.GetByLabel("Place").FillAsync("moor-1@0.5 m");
        await page.GetByText("Put it there").ClickAsync();
        ILocator answer = page.Locator("[aria-live] li");
        await Assertions.Expect(answer).ToContainTextAsync("at the wheels");
        string first = await answer.InnerTextAsync();
        LocatorBoundingBoxResult sign = (await page.Locator(".surface .movable").BoundingBoxAsync())!;
        float[] from = [sign.X + (sign.Width / 2), sign.Y + (sign.Height / 2)], to = await PlaceAsync(page, "bank-2", 0.5);
        await page.Mouse.MoveAsync(from[0], from[1]);
        await page.Mouse.DownAsync();
        await page.Mouse.MoveAsync((from[0] + to[0]) / 2, (from[1] + to[1]) / 2);
        await page.Mouse.MoveAsync(to[0], to[1]);
        await Assertions.Expect(answer).ToContainTextAsync("bank-2@");
        Assert.NotEqual(first, await answer.InnerTextAsync());
        await page.Mouse.UpAsync();
        await Assertions.Expect(answer).ToContainTextAsync("bank-2@");
        LocatorBoundingBoxResult box = (await page.Locator(".surface").BoundingBoxAsync())!;
        await page.Mouse.MoveAsync(to[0], to[1]);
        await page.Mouse.DownAsync();
        await page.Mouse.MoveAsync(box.X + 20, box.Y + box.Height - 20);
        await page.Mouse.MoveAsync(box.X + 4, box.Y + box.Height - 4);
        await page.Mouse.UpAsync();
        await page.WaitForFunctionAsync("() => [...document.querySelectorAll('.surface .movable')].every(sign => !sign.home || sign.at === sign.home)");
        Assert.Contains("@", await answer.InnerTextAsync(), StringComparison.Ordinal);
        Assert.Empty(seen.Complaints);
    }

    private static Task<float[]> PlaceAsync(IPage page, string piece, double share) => page.EvaluateAsync<float[]>("""
        ([piece, share]) => {
          const line = document.querySelector(`[data-layer=touch] [data-of='${piece}']`);
          const at = line.getPointAtLength(line.getTotalLength() * share).matrixTransform(line.getScreenCTM());
          return [at.x, at.y];
        }
        """, new object[] { piece, share });

    private static Task<double> WidthAsync(IPage page) => page.EvaluateAsync<double>("Number(document.querySelector('.surface svg').getAttribute('viewBox').split(' ')[2])");

    private static async Task<Served> ServedAsync(string track)
    {
        Served served = await Served.StartAsync();
        await File.WriteAllTextAsync(served.PathOf("attic.layout.yaml"), "wireup: 1\nname: attic\nlongest-train: 1 m\n" + track, TestContext.Current.CancellationToken);
        return served;
    }

    private static Layout Read(Served served)
    {
        LayoutReading reading = LayoutFile.Read(File.ReadAllText(served.PathOf("attic.layout.yaml")), "attic");
        return (reading.Layout ?? reading.Blank)!;
    }

    private static Piece.Section Section(Served served) => Read(served).Track.OfType<Piece.Section>().First();
}
