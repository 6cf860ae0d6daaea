using System.Globalization;
using System.Text;
using WireUp.Layouts;
using WireUp.Web.Tests.Support;

namespace WireUp.Web.Tests.Journeys;

/// <summary>Measures the page and writes docs/performance.md; DEVELOPERS.md says how. Not run with the other tests: it takes minutes and writes into the repository.</summary>
[Collection(BrowserTests.Name)]
public sealed class Figures(Browser browser)
{
    private const int People = 30, Throws = 5;

    /// <summary>Throws the mover of a number and gives the milliseconds to the picture after its rails have changed; at a second touch it is thrown back.</summary>
    private const string Throw = """
        number => new Promise(done => {
          const select = document.getElementById('mover-' + number);
          const begin = performance.now();
          const watch = new MutationObserver(() => { watch.disconnect(); requestAnimationFrame(() => done(performance.now() - begin)); });
          watch.observe(document.querySelector('.surface svg'), { childList: true });
          select.selectedIndex = (select.selectedIndex + 1) % select.options.length;
          select.dispatchEvent(new Event('change', { bubbles: true }));
        })
        """;

    [Fact(Explicit = true)]
    public async Task Figures_of_the_page()
    {
        StringBuilder table = new("| | median | 95 of 100 below |\n| --- | ---: | ---: |\n");
        await ManyAsync(table);
        await LiveAsync(table);
        Put(table.ToString());
    }

    private static void Put(string table)
    {
        const string Begin = "<!-- page: begin, written by the tests `Figures` of tests/WireUp.Web.Tests -->", End = "<!-- page: end -->";
        string file = RepoFiles.PathOf("docs/performance.md"), page = File.ReadAllText(file);
        int from = page.IndexOf(Begin, StringComparison.Ordinal) + Begin.Length, to = page.IndexOf(End, from, StringComparison.Ordinal);
        File.WriteAllText(file, $"{page[..from]}\n\n{table}\n{page[to..]}");
    }

    private async Task ManyAsync(StringBuilder table)
    {
        await using Served served = await Served.StartAsync("tarrow-valley-as-built");
        long before = Environment.WorkingSet;
        Seen[] people = new Seen[People];
        for (int i = 0; i < People; i++)
        {
            people[i] = await browser.OpenAsync();
            people[i].Page.SetDefaultTimeout(120_000);
            await people[i].GoAsync(served, "tarrow-valley-as-built", "check");
            await people[i].DrawnAsync();
            await people[i].Page.Locator("ol.findings li").First.WaitForAsync();
        }

        double[][] times = await Task.WhenAll(people.Select(async (seen, person) =>
        {
            Random random = new(person);
            List<double> found = [];
            for (int i = 0; i < Throws; i++)
            {
                await Task.Delay(random.Next(2000, 6000), Cancel);
                found.Add(await seen.Page.EvaluateAsync<double>(Throw, person));
            }

            return found.ToArray();
        }));
        Add(table, $"a turnout thrown by one of {People} people, club sample", [.. times.SelectMany(each => each)]);
        table.Append(CultureInfo.InvariantCulture, $"| memory of the server more with {People} people, test driver included | {(Environment.WorkingSet - before) / 1048576.0:0} MB | |\n");
        Assert.All(people, seen => Assert.Empty(seen.Complaints));
        foreach (Seen seen in people) await seen.DisposeAsync();
    }

    private async Task LiveAsync(StringBuilder table)
    {
        await using Served served = await Served.StartAsync("tarrow-valley-as-built");
        await using Seen seen = await browser.OpenAsync();
        await seen.GoAsync(served, "tarrow-valley-as-built", "check");
        await seen.DrawnAsync();
        await seen.Page.Locator("ol.findings li").First.WaitForAsync();
        await ThrownAsync(seen, "a turnout thrown, club sample, one person", table);
        await seen.FollowAsync("Load");
        await seen.Page.WaitForSelectorAsync(".surface[data-drawn*=Volts]");
        Layout club = LayoutFile.Read(RepoFiles.ReadText("sample-layouts/tarrow-valley-as-built.layout.yaml"), "club").Layout!;
        string[] places = [.. club.Track.OfType<Piece.Section>().Where(section => section.Length.Meters > 0.3).Take(20).Select(section => $"{section.Id}@0.2 m")];
        List<double> times = [];
        foreach (string place in places)
        {
            await seen.Page.GetByLabel("Place").FillAsync(place);
            times.Add(await seen.Page.EvaluateAsync<double>("""
                () => new Promise(done => {
                  const place = document.getElementById('place');
                  place.dispatchEvent(new Event('change', { bubbles: true }));
                  const begin = performance.now();
                  const count = document.querySelectorAll('.panel ul.plain li').length;
                  const watch = new MutationObserver(() => {
                    if (document.querySelectorAll('.panel ul.plain li').length === count) return;
                    watch.disconnect();
                    requestAnimationFrame(() => done(performance.now() - begin));
                  });
                  watch.observe(document.querySelector('.panel'), { childList: true, subtree: true });
                  place.form.requestSubmit();
                })
                """));
        }

        Add(table, "a train more on the track, all volts anew, club sample", [.. times.Skip(2)]);
    }

    private static async Task ThrownAsync(Seen seen, string what, StringBuilder table)
    {
        List<double> times = [];
        for (int i = 0; i < 22; i++) times.Add(await seen.Page.EvaluateAsync<double>(Throw, i % 10));
        Add(table, what, [.. times.Skip(2)]);
    }

    private static void Add(StringBuilder table, string what, double[] times)
    {
        double[] sorted = [.. times.Order()];
        table.Append(CultureInfo.InvariantCulture, $"| {what} | {sorted[sorted.Length / 2]:0} ms | {sorted[(int)(0.95 * (sorted.Length - 1))]:0} ms |\n");
    }

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;
}
