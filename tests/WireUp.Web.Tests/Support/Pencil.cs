using Microsoft.Playwright;
using SkiaSharp;

namespace WireUp.Web.Tests.Support;

/// <summary>Draws on the board of the page as a hand does, at places given in millimetres of the plan.</summary>
internal sealed class Pencil(IPage page, bool isFinger = false)
{
    private const string OnScreen = """
        ([x, y]) => new Promise(done => requestAnimationFrame(() => requestAnimationFrame(() => {
          const svg = document.querySelector('.surface svg');
          const [left, top, width, height] = svg.getAttribute('viewBox').split(' ').map(Number);
          const box = svg.getBoundingClientRect();
          done([box.x + (x - left) / width * box.width, box.y + (-y - top) / height * box.height]);
        })))
        """;

    /// <summary>A picture of a plan: an oval with a line across it.</summary>
    public static byte[] Scan()
    {
        using SKBitmap bitmap = new(1200, 600);
        using SKCanvas canvas = new(bitmap);
        canvas.Clear(new SKColor(0xF4, 0xEE, 0xDC));
        using SKPaint ink = new() { Color = new SKColor(0x70, 0x70, 0x80), StrokeWidth = 8, Style = SKPaintStyle.Stroke, IsAntialias = true };
        canvas.DrawRoundRect(new SKRect(100, 100, 1100, 500), 200, 200, ink);
        using SKPath across = SKPath.ParseSvgPathData("M350 500C550 500 650 100 850 100");
        canvas.DrawPath(across, ink);
        using SKData data = bitmap.Encode(SKEncodedImageFormat.Png, 90);
        return data.ToArray();
    }

    public async Task TouchAsync(double x, double y)
    {
        float[] at = await PlaceAsync(x, y);
        if (isFinger) await page.Touchscreen.TapAsync(at[0], at[1]);
        else await page.Mouse.ClickAsync(at[0], at[1]);
    }

    /// <summary>Drags with one finger or more, each from a place to another; the browser is told of every one of them at once, as by a screen.</summary>
    public async Task DragFingersAsync(params (double FromX, double FromY, double ToX, double ToY)[] fingers)
    {
        const int Steps = 8;
        List<(float[] From, float[] To)> ways = [];
        foreach ((double fromX, double fromY, double toX, double toY) in fingers) ways.Add((await PlaceAsync(fromX, fromY), await PlaceAsync(toX, toY)));
        ICDPSession screen = await page.Context.NewCDPSessionAsync(page);
        for (int step = 0; step <= Steps; step++)
        {
            object[] points = [.. ways.Select((way, id) => new { x = Part(way, step, 0), y = Part(way, step, 1), id })];
            await TellAsync(step == 0 ? "touchStart" : "touchMove", points);
        }

        await TellAsync("touchEnd", []);
        await screen.DetachAsync();

        Task TellAsync(string kind, object[] points) => screen.SendAsync("Input.dispatchTouchEvent", new() { ["type"] = kind, ["touchPoints"] = points });

        static float Part((float[] From, float[] To) way, int step, int axis) => way.From[axis] + ((way.To[axis] - way.From[axis]) * step / Steps);
    }

    public async Task DragAsync(double fromX, double fromY, double toX, double toY)
    {
        (float[] from, float[] to) = (await PlaceAsync(fromX, fromY), await PlaceAsync(toX, toY));
        await page.Mouse.MoveAsync(from[0], from[1]);
        await page.Mouse.DownAsync();
        await page.Mouse.MoveAsync((from[0] + to[0]) / 2, (from[1] + to[1]) / 2);
        await page.Mouse.MoveAsync(to[0], to[1]);
        await page.Mouse.UpAsync();
    }

    /// <summary>Draws a line through points; a touch that closes it on itself finishes it.</summary>
    public async Task LineAsync(string tool, bool isClosed, params (double X, double Y)[] points)
    {
        await page.GetByText(tool, new() { Exact = true }).ClickAsync();
        await page.WaitForSelectorAsync($".surface[data-tool={(tool.Contains("curved", StringComparison.Ordinal) ? "curve" : "straight")}]");
        foreach ((int index, (double x, double y)) in points.Index())
        {
            await TouchAsync(x, y);
            if (!isClosed || index < points.Length - 1) await page.WaitForSelectorAsync($".surface[data-points='{index + 1}']");
        }

        if (!isClosed) await page.GetByText("Finish", new() { Exact = true }).ClickAsync();
    }

    private async Task<float[]> PlaceAsync(double x, double y)
    {
        await page.Locator(".surface").ScrollIntoViewIfNeededAsync();
        return await page.EvaluateAsync<float[]>(OnScreen, new[] { x, y });
    }
}
