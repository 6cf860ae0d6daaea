using CsCheck;
using WireUp.Layouts.Tests.Support;

namespace WireUp.Layouts.Tests.Properties;

/// <summary>What <see cref="LayoutDocument"/> adds to a text, for layouts by chance in every style of writing.</summary>
public sealed class AddingTests
{
    private static readonly Gen<(int Seed, int Size, int Style)> Cases =
        Gen.Select(Gen.Int[0, int.MaxValue - 1], Gen.Int[1, 12], Gen.Int[0, TextStyles.Names.Length - 1]);

    [Fact]
    public void The_text_with_additions_says_exactly_what_was_intended() =>
        Cases.Sample(Check, iter: 200, threads: 1);

    private static void Check((int Seed, int Size, int Style) given)
    {
        Layout whole = RandomLayout.Make(given.Seed, given.Size);
        Layout before = RandomLayout.Half(whole, given.Seed);
        string text = TextStyles.Rewrite(LayoutFile.Write(before), TextStyles.Names[given.Style], given.Seed);
        LayoutDocument document = LayoutDocument.Open(text, "test");
        Assert.Equal(Dump.Of(before), Dump.Of(document.Reading.Layout));

        Layout wanted = before with { Wiring = Grown(before.Wiring, whole.Wiring) };
        LayoutDocument grown = document.WithAdded(wanted);

        Assert.True(Dump.Of(wanted) == Dump.Of(grown.Reading.Layout), $"{Dump.Of(wanted)}\n{Dump.Of(grown.Reading.Layout)}\n{text}\n----\n{grown.Text}");
        Assert.True(IsKept(text, grown.Text), $"{text}\n----\n{grown.Text}");
    }

    /// <summary>What there is first, then what is new, each in its order: so a file grows.</summary>
    private static Wiring Grown(Wiring before, Wiring whole) => new()
    {
        Supplies = [.. before.Supplies, .. whole.Supplies.Where(one => before.Supplies.All(old => old.Name != one.Name))],
        Boosters = [.. before.Boosters, .. whole.Boosters.Where(one => before.Boosters.All(old => old.Name != one.Name))],
        Districts = [.. before.Districts, .. whole.Districts.Where(one => before.Districts.All(old => old.Name != one.Name))],
        Buses = [.. before.Buses.Select(old => whole.Buses.First(bus => bus.District == old.District)),
            .. whole.Buses.Where(one => before.Buses.All(old => old.District != one.District))],
        Switches = [.. before.Switches, .. whole.Switches.Where(one => before.Switches.All(old => old.Name != one.Name))],
        Feeders = [.. before.Feeders, .. whole.Feeders.Where(one => before.Feeders.All(old => old.Name != one.Name))],
        Gaps = [.. before.Gaps, .. whole.Gaps.Where(one => !before.Gaps.Contains(one))],
    };

    /// <summary>Whether every line of the old text is in the new one, in order: whole, or with something put into it.</summary>
    private static bool IsKept(string old, string now)
    {
        int at = 0;
        foreach (char c in old)
        {
            at = now.IndexOf(c, at) + 1;
            if (at == 0)
            {
                return false;
            }
        }

        return old.Split('\n').Where(line => line.Contains("# comment", StringComparison.Ordinal))
            .All(line => now.Contains(line[line.IndexOf("# comment", StringComparison.Ordinal)..], StringComparison.Ordinal));
    }
}
