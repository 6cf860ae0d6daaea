using Microsoft.Playwright;

namespace WireUp.Web.Tests.Support;

/// <summary>One browser for all tests of this project; each test has a page of its own.</summary>
public sealed class Browser : IAsyncLifetime
{
    private IPlaywright? _playwright;
    private IBrowser? _browser;

    public async ValueTask InitializeAsync()
    {
        if (OutsideTools.Chromium is not { } path) return;
        Assertions.SetDefaultExpectTimeout(Seen.Patience);
        _playwright = await Playwright.CreateAsync();
        _browser = await _playwright.Chromium.LaunchAsync(new()
        {
            ExecutablePath = path,
            Args =
            [
                "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking", "--disable-component-update", "--disable-sync",
            ],
        });
    }

    /// <summary>A page of its own, which fails the test with whatever its console complains of.</summary>
    internal async Task<Seen> OpenAsync(int width = 1280, int height = 800, bool isDark = false, bool hasTouch = false)
    {
        OutsideTools.RequireChromium();
        IBrowserContext context = await _browser!.NewContextAsync(new()
        {
            ViewportSize = new() { Width = width, Height = height },
            ColorScheme = isDark ? ColorScheme.Dark : ColorScheme.Light,
            ReducedMotion = ReducedMotion.Reduce,
            HasTouch = hasTouch,
        });
        return new(context, await context.NewPageAsync());
    }

    public async ValueTask DisposeAsync()
    {
        if (_browser is not null) await _browser.CloseAsync();
        _playwright?.Dispose();
    }
}
