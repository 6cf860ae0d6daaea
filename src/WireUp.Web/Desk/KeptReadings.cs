using System.Collections.Immutable;
using System.Globalization;
using Microsoft.JSInterop;
using WireUp.Layouts;

namespace WireUp.Web.Desk;

/// <summary>Readings as a tab of the browser keeps them: which tools are on hand, then one sentence a line.</summary>
internal sealed class KeptReadings(IJSRuntime script, string layout) : IAsyncDisposable
{
    private IJSObjectReference? _module;

    private string Key => $"readings of {layout}";

    /// <summary>The words that were kept; empty where there are none.</summary>
    public async Task<string> ReadAsync()
    {
        IJSObjectReference module = await script.InvokeAsync<IJSObjectReference>("import", "/_content/WireUp.Web/keep.js");
        string words = await module.InvokeAsync<string?>("read", Key) ?? "";
        _module = module;
        return words;
    }

    /// <summary>Keeps what was said; before <see cref="ReadAsync"/> nothing, so that nothing kept is lost.</summary>
    public async Task KeepAsync(ReadingSet set)
    {
        if (_module is null) return;
        try
        {
            await _module.InvokeVoidAsync("keep", Key, Words(set));
        }
        catch (JSDisconnectedException)
        {
            // The browser is gone.
        }
    }

    /// <summary>A set of readings in words.</summary>
    public static string Words(ReadingSet set) =>
        set.Readings.IsEmpty ? "" : string.Join('\n', set.Readings.Select(reading => reading.ToString()!).Prepend(((int)set.Tools).ToString(CultureInfo.InvariantCulture)));

    /// <summary>What words say about a layout, and the sentences that it does not understand, or no longer.</summary>
    public static (ReadingSet Set, ImmutableArray<string> Lost) Said(Layout layout, string words)
    {
        string[] lines = words.Split('\n', StringSplitOptions.RemoveEmptyEntries);
        if (lines.Length < 2 || !int.TryParse(lines[0], CultureInfo.InvariantCulture, out int tools)) return (ReadingSet.None, []);
        ImmutableArray<(string Line, MeterReading? Reading)> read = [.. lines[1..].Take(ReadingsFile.MostReadings).Select(line => (line, LayoutWords.Sentence(layout, line).Value))];
        ReadingSet set = ReadingSet.None with { Tools = (ReadingTools)tools, Readings = [.. read.Select(each => each.Reading).OfType<MeterReading>()] };
        return (set, [.. read.Where(each => each.Reading is null).Select(each => each.Line)]);
    }

    public async ValueTask DisposeAsync()
    {
        try
        {
            if (_module is not null) await _module.DisposeAsync();
        }
        catch (JSDisconnectedException)
        {
            // The browser is gone.
        }
    }
}
