using System.Text.RegularExpressions;
using Microsoft.Playwright;
using WireUp.Layouts;
using WireUp.Web.Tests.Support;

namespace WireUp.Web.Tests.Journeys;

/// <summary>Measures the page and writes docs/performance.md; DEVELOPERS.md says how. Not run with the other tests: it takes minutes and writes into the repository.</summary>
[Collection(BrowserTests.Name)]
public sealed class Figures(Browser browser)
{
    private const int People = 30, Throws = 5;
    private const string Club = "tarrow-valley-as-built";

    [Fact(Explicit = true)]
    public async Task Figures_of_the_page()
    {
        FigureTable table = new();
        await LiveAsync(table);
        await ManyAsync(table);
        await new LargePlan(browser, table).MeasureAsync();
        table.Put();
    }

    private async Task ManyAsync(FigureTable table)
    {
        await using Served served = await Served.StartAsync(Club);
        long before = Environment.WorkingSet;
        Seen[] people = new Seen[People];
        for (int i = 0; i < People; i++)
        {
            people[i] = await browser.OpenAsync();
            people[i].Page.SetDefaultTimeout(120_000);
            await OpenAsync(people[i], served);
        }

        // Each person throws the mover of its number among those that change rails.
        List<int> movers = [];
        int all = await people[0].Page.Locator("[id^=mover-]").CountAsync();
        for (int mover = 0; mover < all; mover++)
        {
            if (await FigureTable.ThrowAsync(people[0].Page, mover) >= 0) movers.Add(mover);
            await FigureTable.ThrowAsync(people[0].Page, mover);
        }

        double[][] times = await Task.WhenAll(people.Select(async (seen, person) =>
        {
            Random random = new(person);
            List<double> found = [];
            for (int i = 0; i < Throws; i++)
            {
                await Task.Delay(random.Next(2000, 6000), Cancel);
                found.Add(await FigureTable.ThrowAsync(seen.Page, movers[person % movers.Count]));
            }

            return found.ToArray();
        }));
        Assert.DoesNotContain(times, each => each.Contains(-1));
        table.Add($"a turnout thrown by one of {People} people, club sample", times.SelectMany(each => each));
        table.Add($"memory of the server more with {People} people, test driver included", (Environment.WorkingSet - before) / 1048576.0, "MB");
        Assert.All(people, seen => Assert.Empty(seen.Complaints));
        foreach (Seen seen in people) await seen.DisposeAsync();
    }

    private async Task LiveAsync(FigureTable table)
    {
        await using Served served = await Served.StartAsync(Club);
        await using Seen seen = await browser.OpenAsync();
        IPage page = seen.Page;
        await OpenAsync(seen, served);
        table.Add("a turnout thrown, club sample, one person", await FigureTable.ThrowsAsync(page, 60), 2);
        await seen.FollowAsync("Load");
        await page.WaitForSelectorAsync(".surface[data-drawn*=Volts]");
        Layout club = LayoutFile.Read(RepoFiles.ReadText($"sample-layouts/{Club}.layout.yaml"), "club").Layout!;
        string[] places = [.. club.Track.OfType<Piece.Section>().Where(section => section.Length.Meters > 0.3).Take(12).Select(section => $"{section.Id}@0.2 m")];
        table.Add("a train more on the track, all volts anew", await TimesAsync(places.Length, i => PutAsync(places[i])), 2);
        await DragAsync("a train dragged");
        await page.GetByText("Take all away").ClickAsync();
        await page.GetByLabel("What", new() { Exact = true }).SelectOptionAsync("coin");
        await PutAsync(places[0]);
        await DragAsync("a coin dragged");
        await page.GetByLabel("What", new() { Exact = true }).SelectOptionAsync("load");
        await PutAsync(places[1]);
        await page.GetByText("Try another bus wire").ClickAsync();
        string answer = await page.Locator($"{Answers} li").Last.InnerTextAsync();
        await page.Locator("#tried-bus").SelectOptionAsync(Regex.Match(answer, @"(?<=from )\S+", RegexOptions.None, TimeSpan.FromSeconds(1)).Value);
        int wires = await page.Locator("#tried-wire option").CountAsync();
        table.Add("another bus wire tried, all volts anew", await TimesAsync(32, i => FigureTable.AnswerAsync(page, Answers, $$"""
            () => {
              const select = document.getElementById('tried-wire');
              select.selectedIndex = {{(i % 2 == 0 ? 1 : wires - 1)}};
              select.dispatchEvent(new Event('change', { bubbles: true }));
            }
            """)), 2);

        Task<double> PutAsync(string place) => FigureTable.AnswerAsync(page, Answers, $$"""
            () => {
              const place = document.getElementById('place');
              place.value = '{{place}}';
              place.dispatchEvent(new Event('change', { bubbles: true }));
              place.form.requestSubmit();
            }
            """);

        // From a move of the pointer to the picture with the answer for where it is then. The moves follow the track of the pieces in turn.
        async Task DragAsync(string what)
        {
            float[] from = await SignAsync(page.Locator(".surface .movable").First);
            await page.EvaluateAsync("""
                () => {
                  window.answers = [];
                  let moved = null;
                  const surface = document.querySelector('.surface');
                  surface.addEventListener('pointermove', () => { moved ??= performance.now(); });
                  new MutationObserver(() => {
                    if (moved === null) return;
                    const begin = moved;
                    moved = null;
                    requestAnimationFrame(() => window.answers.push(performance.now() - begin));
                  }).observe(document.querySelector('.panel [aria-live]'), { childList: true, subtree: true, characterData: true });
                }
                """);
            float[][] along = await page.EvaluateAsync<float[][]>(
                """
                pieces => pieces.flatMap(piece => {
                  const line = document.querySelector(`[data-layer=touch] [data-of='${piece}']`);
                  return [0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9].map(share => {
                    const at = line.getPointAtLength(line.getTotalLength() * share).matrixTransform(line.getScreenCTM());
                    return [at.x, at.y];
                  });
                })
                """,
                places.Select(place => place[..place.IndexOf('@', StringComparison.Ordinal)]));
            await page.Mouse.MoveAsync(from[0], from[1]);
            await page.Mouse.DownAsync();
            foreach (float[] at in along)
            {
                await page.Mouse.MoveAsync(at[0], at[1]);
                await page.WaitForTimeoutAsync(40);
            }

            await page.Mouse.UpAsync();
            double[] times = await page.EvaluateAsync<double[]>("window.answers");
            Assert.True(times.Length > 5, $"{what}: only {times.Length} answers while it was dragged");
            table.Add($"{what}, answered on the way", times);
        }
    }

    private const string Answers = ".panel [aria-live]";

    private static async Task<float[]> SignAsync(ILocator sign)
    {
        await sign.WaitForAsync();
        LocatorBoundingBoxResult box = (await sign.BoundingBoxAsync())!;
        return [box.X + (box.Width / 2), box.Y + (box.Height / 2)];
    }

    private static async Task OpenAsync(Seen seen, Served served)
    {
        await seen.GoAsync(served, Club, "check");
        await seen.DrawnAsync();
        await seen.Page.Locator("ol.findings li").First.WaitForAsync();
    }

    private static async Task<double[]> TimesAsync(int count, Func<int, Task<double>> time)
    {
        double[] times = new double[count];
        for (int i = 0; i < count; i++) times[i] = await time(i);
        return times;
    }

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;
}
