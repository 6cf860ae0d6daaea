using System.Text.RegularExpressions;
using Microsoft.Playwright;

namespace WireUp.Web.Tests.Support;

/// <summary>One page in the browser, with everything its console complained of.</summary>
internal sealed class Seen : IAsyncDisposable
{
    private readonly IBrowserContext _context;
    private readonly List<string> _complaints = [];

    public Seen(IBrowserContext context, IPage page)
    {
        (_context, Page) = (context, page);
        page.SetDefaultTimeout(30_000);
        page.Console += (_, message) =>
        {
            if (message.Type is "error" or "warning") _complaints.Add(message.Text);
        };
        page.PageError += (_, error) => _complaints.Add(error);
    }

    public IPage Page { get; }

    public IReadOnlyList<string> Complaints => _complaints;

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
    /// Touches a piece on the plan as a finger does: on the line of its last way, two thirds along it, once the plan stands still and nothing
    /// lies over that place. What is touched so has to be taken by the page; it is not tried twice.
    /// </summary>
    public async Task TouchAsync(string piece)
    {
        ILocator line = Page.Locator($"[data-layer=touch] [data-of='{piece}']").Last;
        float[] at = await line.EvaluateAsync<float[]>("""
            line => {
              const box = line.getBoundingClientRect();
              const point = line.getPointAtLength(line.getTotalLength() * 2 / 3).matrixTransform(line.getScreenCTM());
              return [point.x - box.x, point.y - box.y];
            }
            """);
        await line.ClickAsync(new() { Position = new() { X = at[0], Y = at[1] } });
    }

    /// <summary>Waits for what the address remembers: asked again and again, as a wait for the event of a change misses one that comes before it listens.</summary>
    public Task RemembersAsync(string ending) =>
        Assertions.Expect(Page).ToHaveURLAsync(new Regex(Regex.Escape(ending) + "$", RegexOptions.None, TimeSpan.FromSeconds(1)), new() { Timeout = 30_000 });

    public Task DrawnAsync() => Page.WaitForSelectorAsync(".surface[data-drawn] svg [data-layer=rails] path");

    public async ValueTask DisposeAsync() => await _context.DisposeAsync();

    private Task ReadyAsync(string view) => Page.WaitForSelectorAsync($"main[data-ready='{char.ToUpperInvariant(view[0])}{view[1..]}']");
}
