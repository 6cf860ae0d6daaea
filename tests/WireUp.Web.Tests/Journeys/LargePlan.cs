using System.Collections.Immutable;
using System.Diagnostics;
using Microsoft.Playwright;
using WireUp.Benchmarks;
using WireUp.Documents.Geometry;
using WireUp.Layouts;
using WireUp.Web.Tests.Support;

namespace WireUp.Web.Tests.Journeys;

/// <summary>Figures of a generated layout of some 3,000 pieces: until it is there, and how it moves.</summary>
internal sealed class LargePlan(Browser browser, FigureTable table)
{
    private const int Pieces = 3000;
    private const float Patience = 600_000;

    public async Task MeasureAsync()
    {
        await using Served served = await Served.StartAsync();
        Layout large = LayoutGenerator.Make(Pieces);
        await File.WriteAllTextAsync(served.PathOf("large.layout.yaml"), LayoutFile.Write(large), TestContext.Current.CancellationToken);
        await using Seen seen = await browser.OpenAsync();
        IPage page = seen.Page;
        page.SetDefaultTimeout(Patience);
        table.Add("3,000 pieces without paths: until the plan is there, the first time", await ShownAsync(seen, served, "check"), "s");
        await page.WaitForSelectorAsync("ol.findings li, .notice.good");
        table.Add("3,000 pieces: until the plan is there, opened again", await ShownAsync(seen, served, "check"), "s");
        await page.WaitForSelectorAsync("ol.findings li, .notice.good");
        await MoveAsync(page, "3,000 pieces, Check");
        if (await page.Locator("ol.findings li").CountAsync() > 0)
        {
            int findings = Math.Min(10, await page.Locator("ol.findings li").CountAsync());
            List<double> lit = [];
            for (int i = 0; i < 2 * findings; i++) lit.Add(await FigureTable.AnswerAsync(page, ".surface svg", $"() => document.querySelectorAll('ol.findings button.line')[{i % findings}].click()"));
            table.Add("3,000 pieces, Check: a finding chosen, to its mark on the plan", lit, 1);
        }

        table.Add("3,000 pieces, Check: a turnout thrown", await FigureTable.ThrowsAsync(page, 24), 2);
        foreach (string view in new[] { "wire", "load" })
        {
            table.Add($"3,000 pieces: until the plan is there, {view}", await ShownAsync(seen, served, view), "s");
            await MoveAsync(page, $"3,000 pieces, {view}");
        }

        await DrawAsync(seen, served, large);
        Assert.Empty(seen.Complaints);
    }

    private async Task DrawAsync(Seen seen, Served served, Layout large)
    {
        PlanGeometry geometry = PlanGeometry.Of(large).Thinned();
        Layout laid = large with
        {
            Track = [.. large.Track.Select(piece => piece is Piece.Section section ? section with { Path = Path(section) } : piece)],
        };
        await File.WriteAllTextAsync(served.PathOf("laid.layout.yaml"), LayoutFile.Write(laid), TestContext.Current.CancellationToken);
        Stopwatch clock = Stopwatch.StartNew();
        await seen.GoAsync(served, "laid", "draw");
        await seen.Page.WaitForFunctionAsync("() => Number(document.querySelector('.surface').dataset.lines) > 3000");
        table.Add("3,000 pieces with paths, Draw: until the board is there", clock.Elapsed.TotalSeconds, "s");
        await MoveAsync(seen.Page, "3,000 pieces, Draw");
        List<double> added = [];
        await seen.Page.EvaluateAsync("document.querySelectorAll('details').forEach(each => each.open = true)");
        for (int i = 0; i < 8; i++)
        {
            await seen.Page.GetByLabel("Points").FillAsync($"{-3000 - (100 * i)}, -3000; {-3000 - (100 * i)}, -4000");
            added.Add(await FigureTable.AnswerAsync(seen.Page, "[data-made]", """
                () => {
                  const points = document.getElementById('line-points');
                  points.dispatchEvent(new Event('change', { bubbles: true }));
                  points.form.requestSubmit();
                }
                """));
        }

        table.Add("3,000 pieces, Draw: a track added, saved and drawn", added, 1);

        ImmutableArray<PlanPoint> Path(Piece.Section section) => [.. geometry.LinesOf(section.Id)[0].Points.Select(at => new PlanPoint(Math.Round(at.X, 4), Math.Round(at.Y, 4)))];
    }

    private static async Task<double> ShownAsync(Seen seen, Served served, string view)
    {
        Stopwatch clock = Stopwatch.StartNew();
        await seen.GoAsync(served, "large", view);
        await seen.DrawnAsync();
        await seen.Page.EvaluateAsync("new Promise(done => requestAnimationFrame(() => requestAnimationFrame(done)))");
        return clock.Elapsed.TotalSeconds;
    }

    private async Task MoveAsync(IPage page, string what)
    {
        LocatorBoundingBoxResult box = (await page.Locator(".surface").BoundingBoxAsync())!;
        (float x, float y) = (box.X + (box.Width / 2), box.Y + (box.Height / 2));
        foreach (string where in new[] { "whole plan", "close" })
        {
            double[] dragged = await FigureTable.PicturesAsync(page, async () =>
            {
                await page.Mouse.MoveAsync(x, y);
                await page.Mouse.DownAsync();
                for (int i = 1; i <= 90; i++) await page.Mouse.MoveAsync(x + (float)(150 * Math.Sin(i / 9.0)), y + (float)(100 * Math.Sin(i / 7.0)));
                await page.Mouse.UpAsync();
            });
            table.Add($"{what}, {where}: from picture to picture while it is dragged", dragged);
            double[] zoomed = await FigureTable.PicturesAsync(page, async () =>
            {
                for (int i = 0; i < 40; i++)
                {
                    await page.Mouse.WheelAsync(0, i < 30 ? -90 : 30);
                    await page.WaitForTimeoutAsync(16);
                }
            });
            table.Add($"{what}, {where}: from picture to picture while it is zoomed", zoomed);
        }

        await page.GetByText("Whole plan", new() { Exact = true }).ClickAsync();
    }
}
