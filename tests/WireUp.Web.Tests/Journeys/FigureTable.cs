using System.Globalization;
using System.Text;
using Microsoft.Playwright;

namespace WireUp.Web.Tests.Journeys;

/// <summary>The table of figures of docs/performance.md, and how times are taken in the browser.</summary>
internal sealed class FigureTable
{
    private const string Begin = "<!-- page: begin, written by the tests `Figures` of tests/WireUp.Web.Tests -->", End = "<!-- page: end -->";

    /// <summary>Does something and gives the milliseconds to the picture after something else has changed below an element; nothing within a minute is a failure.</summary>
    private const string Answer = """
        ([watched, act]) => new Promise((done, fail) => {
          const begin = performance.now();
          const watch = new MutationObserver(() => { watch.disconnect(); requestAnimationFrame(() => done(performance.now() - begin)); });
          watch.observe(document.querySelector(watched), { childList: true, subtree: true, characterData: true });
          setTimeout(() => fail(new Error('no answer')), 60000);
          (0, eval)(act)();
        })
        """;

    /// <summary>
    /// Throws a mover and, at the next time, throws it back: milliseconds to the picture with the rails drawn anew, or −1 where the address says
    /// that the throw is answered and no rail looks otherwise.
    /// </summary>
    private const string Throw = """
        number => new Promise((done, fail) => {
          const begin = performance.now();
          const before = location.href;
          const select = document.getElementById(`mover-${number}`);
          const rails = document.querySelector('.surface svg [data-layer="rails"]');
          let seen = 0;
          const watch = new MutationObserver(changes => { seen += changes.length; });
          watch.observe(rails, { childList: true, subtree: true });
          const look = () => {
            const passed = performance.now() - begin;
            if (location.href === before && passed < 60000) return requestAnimationFrame(look);
            watch.disconnect();
            if (location.href === before) fail(new Error(`no answer to mover ${number}`));
            else done(seen > 0 ? passed : -1);
          };
          select.selectedIndex = select.selectedIndex === 0 ? 1 : 0;
          select.dispatchEvent(new Event('change', { bubbles: true }));
          requestAnimationFrame(look);
        })
        """;

    /// <summary>Collects the time from each picture to the next.</summary>
    private const string Watch = """
        () => {
          window.pictures = [];
          let last = performance.now();
          const tick = now => { window.pictures.push(now - last); last = now; window.ticking = requestAnimationFrame(tick); };
          window.ticking = requestAnimationFrame(now => { last = now; window.ticking = requestAnimationFrame(tick); });
        }
        """;

    private readonly StringBuilder _rows = new("| | median | 95 of 100 below | worst |\n| --- | ---: | ---: | ---: |\n");

    /// <summary>Milliseconds from something done, a function in the language of the page, to the picture with its answer below an element.</summary>
    public static Task<double> AnswerAsync(IPage page, string watched, string act) => page.EvaluateAsync<double>(Answer, new[] { watched, act });

    /// <summary>Milliseconds from the throw of each mover of the page in turn, and from its throw back, to the picture with rails drawn anew; throws that change none are left out.</summary>
    /// <param name="page">A page with a plan.</param>
    /// <param name="most">How many throws at most.</param>
    public static async Task<double[]> ThrowsAsync(IPage page, int most)
    {
        int movers = await page.Locator("[id^=mover-]").CountAsync();
        double[] times = new double[Math.Min(most, 2 * movers)];
        for (int i = 0; i < times.Length; i++) times[i] = await ThrowAsync(page, i / 2);
        return Array.FindAll(times, time => time >= 0);
    }

    /// <summary>Milliseconds from the throw of a mover, at the next time back, to the picture with the rails drawn anew; −1 where no rail looks otherwise.</summary>
    public static Task<double> ThrowAsync(IPage page, int mover) => page.EvaluateAsync<double>(Throw, mover);

    /// <summary>Milliseconds from one picture to the next while something goes on.</summary>
    public static async Task<double[]> PicturesAsync(IPage page, Func<Task> going)
    {
        await page.EvaluateAsync(Watch);
        await going();
        return await page.EvaluateAsync<double[]>("() => { cancelAnimationFrame(window.ticking); return window.pictures; }");
    }

    /// <summary>Adds a row of times; what comes first is passed over, as the runtime still compiles.</summary>
    public void Add(string what, IEnumerable<double> times, int passedOver = 0)
    {
        double[] sorted = [.. times.Skip(passedOver).Order()];
        Row($"{what} | {Milliseconds(sorted[sorted.Length / 2])} | {Milliseconds(sorted[(int)(0.95 * (sorted.Length - 1))])} | {Milliseconds(sorted[^1])}");
    }

    /// <summary>Adds a row with one figure.</summary>
    public void Add(string what, double value, string unit) => Row(string.Create(CultureInfo.InvariantCulture, $"{what} | {value:0.#} {unit} | |"));

    /// <summary>Puts the table into the page.</summary>
    public void Put()
    {
        string file = RepoFiles.PathOf("docs/performance.md"), page = File.ReadAllText(file);
        int from = page.IndexOf(Begin, StringComparison.Ordinal) + Begin.Length, to = page.IndexOf(End, from, StringComparison.Ordinal);
        File.WriteAllText(file, $"{page[..from]}\n\n{_rows}\n{page[to..]}");
    }

    private void Row(string cells)
    {
        _rows.Append("| ").Append(cells).Append(" |\n");
        TestContext.Current.SendDiagnosticMessage(cells);
    }

    private static string Milliseconds(double value) => string.Create(CultureInfo.InvariantCulture, $"{value:0} ms");
}
