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

    public Task DrawnAsync() => Page.WaitForSelectorAsync(".surface[data-drawn] svg [data-layer=rails] path");

    public async ValueTask DisposeAsync() => await _context.DisposeAsync();

    private Task ReadyAsync(string view) => Page.WaitForSelectorAsync($"main[data-ready='{char.ToUpperInvariant(view[0])}{view[1..]}']");
}
