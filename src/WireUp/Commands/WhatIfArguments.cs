using System.Collections.Immutable;
using System.Globalization;
using WireUp.Files;
using WireUp.Layouts;
using WireUp.Layouts.Reference;
using WireUp.Planning;

namespace WireUp.Commands;

/// <summary>A question as typed behind <c>--what-if</c>, put to a layout.</summary>
/// <param name="Question">What was typed.</param>
/// <param name="Layout">The layout as it would be.</param>
/// <param name="Options">The options as they would be.</param>
internal sealed record WhatIf(string Question, Layout Layout, PlanOptions Options);

/// <summary>Reads what was typed behind <c>--what-if</c>: changes, each a key and a value, separated by semicolons.</summary>
internal static class WhatIfArguments
{
    private const int MostMoving = 10_000;

    private static readonly (string Key, string Example, Func<WhatIf, string, WhatIf> Change)[] Changes =
    [
        ("longest-train", "2.4 m", (now, text) => now with { Layout = now.Layout with { LongestTrain = Common.Value(LayoutWords.Length(text), Typed(now, text)) } }),
        ("moving-at-once", "16", (now, text) => now with { Layout = Moving(now.Layout, Count(now, text)) }),
        ("max-drop", "3 %", (now, text) => now with { Layout = now.Layout with { MaxDrop = Common.Value(LayoutWords.Percent(text), Typed(now, text)) } }),
        ("max-feeder-distance", "1.5 m", (now, text) => now with { Layout = now.Layout with { MaxFeederDistance = Common.Value(LayoutWords.Length(text), Typed(now, text)) } }),
        ("breaker", "3 A, 4 A", (now, text) => now with { Options = now.Options with { Breakers = BreakerArguments.Read("--what-if", text) } }),
        ("wire", "2.5 mm2, 4 mm2", (now, text) => now with { Options = now.Options with { WireOnHand = WireArguments.Read(text) } }),
    ];

    /// <summary>The keys, for help and refusals.</summary>
    public static string Keys { get; } = string.Join(", ", Changes.Select(change => change.Key));

    /// <summary>Reads one question.</summary>
    /// <param name="typed">What was typed.</param>
    /// <param name="layout">The layout it is put to.</param>
    /// <param name="options">Options that hold where the question says nothing else.</param>
    /// <exception cref="InputRefused">It cannot be read.</exception>
    public static WhatIf Read(string typed, Layout layout, PlanOptions options)
    {
        WhatIf now = new(typed.Trim(), layout, options);
        string[] changes = typed.Split(';', StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries);
        if (changes.Length == 0)
        {
            throw new InputRefused("--what-if: expected a key and a value, such as 'moving-at-once 16'");
        }

        foreach (string change in changes)
        {
            string[] parts = change.Split([' ', ':'], 2, StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries);
            (string key, string example, Func<WhatIf, string, WhatIf> apply) = Changes.FirstOrDefault(one => one.Key == parts[0]);
            if (key is null)
            {
                throw new InputRefused($"--what-if '{typed}': '{parts[0]}' cannot be changed; expected one of {Keys}, such as 'moving-at-once 16; breaker 4 A'");
            }

            now = apply(now, parts.Length > 1 ? parts[1] : throw new InputRefused($"--what-if '{typed}': '{key}' needs a value, such as '{key} {example}'"));
        }

        return now;
    }

    /// <summary>
    /// So many locomotives moving at the same time. Where fewer are listed, the rest are taken to be of the kind that draws most: what is
    /// sized for them is large enough for any.
    /// </summary>
    private static Layout Moving(Layout layout, int count)
    {
        Stock stock = layout.Stock;
        ImmutableArray<Locomotive> kinds = stock.Locomotives.IsEmpty ? [Usual(layout)] : stock.Locomotives;
        Locomotive hungriest = kinds.OrderByDescending(kind => kind.Running.Amperes).ThenBy(kind => kind.Name, StringComparer.Ordinal).First();
        int missing = Math.Max(0, count - kinds.Sum(kind => kind.Count));
        return layout with
        {
            Stock = stock with
            {
                MovingAtOnce = count,
                Locomotives = kinds.Replace(hungriest, hungriest with { Count = hungriest.Count + missing }),
            },
        };
    }

    private static Locomotive Usual(Layout layout)
    {
        ScaleRow scale = ScaleTable.FindOrUsual(layout.Scale);
        return new($"{scale.Name} locomotive", scale.Running, scale.Stopped, scale.Starting, scale.Stalled, layout.ShortestPickup, 1);
    }

    private static int Count(WhatIf now, string text) =>
        int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out int count) && count is >= 1 and <= MostMoving
            ? count
            : throw new InputRefused($"{Typed(now, text)} is no number of locomotives; expected a whole number from 1 to {MostMoving}");

    private static string Typed(WhatIf now, string text) => $"--what-if '{now.Question}': '{text}'";
}
