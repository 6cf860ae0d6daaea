using System.Text.RegularExpressions;
using Microsoft.Playwright;

namespace WireUp.Web.Tests.Support;

/// <summary>One page in the browser, with everything its console complained of.</summary>
internal sealed class Seen : IAsyncDisposable
{
    /// <summary>How long a test waits for what the page has to show, in milliseconds: long, as only a failure waits to the end, and a busy machine is slow.</summary>
    public const int Patience = 60_000;

    private readonly IBrowserContext _context;
    private readonly List<string> _complaints = [];

    public Seen(IBrowserContext context, IPage page)
    {
        (_context, Page) = (context, page);
        page.SetDefaultTimeout(Patience);
        page.Console += (_, message) =>
        {
            if (message.Type is "error" or "warning") Complain(message.Text);
        };
        page.PageError += (_, error) => Complain(error);

        void Complain(string words)
        {
            lock (_complaints) _complaints.Add(words);
        }
    }

    public IPage Page { get; }

    /// <summary>What the console complained of until now.</summary>
    public IReadOnlyList<string> Complaints
    {
        get
        {
            lock (_complaints) return [.. _complaints];
        }
    }

    /// <summary>Opens a view of a layout and waits until it can be used.</summary>
    public async Task GoAsync(Served served, string layout, string view)
    {
        await Page.GotoAsync(new Uri(served.Address, $"/layouts/{layout}/{view}").ToString());
        await ReadyAsync(view);
    }

    /// <summary>Follows the link to another view.</summary>
    public async Task FollowAsync(string title)
    {
        await Page.GetByRole(AriaRole.Navigation).GetByRole(AriaRole.Link, new() { Name = title, Exact = true }).ClickAsync();
        await Page.WaitForSelectorAsync($"nav a[aria-current=page]:has-text('{title}')");
    }

    /// <summary>
    /// Touches a piece on the plan as a finger does: on one of its lines, once that stands still from one picture to the next and nothing else
    /// lies over it. What is touched so has to be taken by the page; it is not tried twice.
    /// </summary>
    public async Task TouchAsync(string piece)
    {
        IJSHandle found = await Page.WaitForFunctionAsync(
            """
            async piece => {
              const places = () => [...document.querySelectorAll(`[data-layer=touch] [data-of='${piece}']`)].flatMap(line => [0.5, 0.7, 0.3, 0.9].map(share => {
                const at = line.getPointAtLength(line.getTotalLength() * share).matrixTransform(line.getScreenCTM());
                return [at.x, at.y];
              }));
              const before = places();
              await new Promise(done => requestAnimationFrame(() => requestAnimationFrame(done)));
              const now = places();
              if (before.join() !== now.join()) return null;
              return now.find(([x, y]) => document.elementFromPoint(x, y)?.closest('[data-mark], [data-layer=touch] [data-of]')?.getAttribute('data-of') === piece);
            }
            """,
            piece);
        float[] at = await found.JsonValueAsync<float[]>();
        await Page.Mouse.ClickAsync(at[0], at[1]);
    }

    /// <summary>Waits for what the address remembers: asked again and again, as a wait for the event of a change misses one that comes before it listens.</summary>
    public Task RemembersAsync(string ending) =>
        Assertions.Expect(Page).ToHaveURLAsync(new Regex(Regex.Escape(ending) + "$", RegexOptions.None, TimeSpan.FromSeconds(1)));

    /// <summary>Waits for a complaint of the console.</summary>
    public async Task ComplainsAsync(string words)
    {
        for (int waited = 0; waited < Patience && !Complaints.Any(each => each.Contains(words, StringComparison.Ordinal)); waited += 50) await Page.WaitForTimeoutAsync(50);
        Assert.Contains(Complaints, each => each.Contains(words, StringComparison.Ordinal));
    }

    public Task DrawnAsync() => Page.WaitForSelectorAsync(".surface[data-drawn] svg [data-layer=rails] path");

    /// <summary>Closes the page; after a download the browser may have closed it already, which it then reports as an error.</summary>
    public async ValueTask DisposeAsync()
    {
        try
        {
            await _context.DisposeAsync();
        }
        catch (PlaywrightException closed) when (closed.Message.Contains("has been closed", StringComparison.Ordinal))
        {
        }
    }

    private Task ReadyAsync(string view) => Page.WaitForSelectorAsync($"main[data-ready='{char.ToUpperInvariant(view[0])}{view[1..]}']");
}
