using WireUp.Layouts;

namespace WireUp.Faults.Tests.Exact;

/// <summary>Every frog that a reading can name is a conductor of the rail graph, so that no reading ends in the dark.</summary>
public sealed class FrogNamesTests
{
    public static TheoryData<string> Pieces =>
    [
        "turnout: left, frog: live", "turnout: left, frog: isolated, frog-feed: sensor", "turnout: left, frog: live, frog-feed: contact", "turnout: wye, frog: isolated, heel: frog",
        "turnout: right, frog: live, stub: true", "turnout: three-way, frog: live", "turnout: multi, legs: 4, frog: isolated, frog-feed: contact",
        "crossing: 30 deg, frog: live", "crossing: 90 deg, frog: isolated, frog-feed: sensor",
        "slip: double, frog: live, frog-feed: contact", "slip: single, frog: live", "slip: double, frog: isolated, frog-feed: contact",
        "scissors: 20 deg, frog: live", "scissors: 20 deg, frog: isolated, frog-feed: contact",
    ];

    [Theory]
    [InlineData("turnout: left, frog: isolated")]
    [InlineData("turnout: multi, legs: 4, frog: isolated")]
    [InlineData("crossing: 30 deg, frog: isolated")]
    [InlineData("slip: single, frog: isolated")]
    [InlineData("scissors: 20 deg, frog: isolated")]
    [InlineData("turnout: left, frog: insulated")]
    public void A_frog_that_nothing_feeds_cannot_be_named(string piece)
    {
        Layout layout = LayoutFile.Read(SmallLayout.Text.Replace("  end:", $"  X: {{ {piece} }}\n  end:", StringComparison.Ordinal), "test").Layout!;
        Assert.Contains("has no frog that carries current", LayoutWords.Sentence(layout, "continuity from X/frog to P1/A").Trouble, StringComparison.Ordinal);
    }

    [Theory]
    [MemberData(nameof(Pieces))]
    public void A_frog_that_can_be_named_can_be_measured(string piece)
    {
        Layout layout = LayoutFile.Read(SmallLayout.Text.Replace("  end:", $"  X: {{ {piece} }}\n  end:", StringComparison.Ordinal), "test").Layout!;
        string trouble = LayoutWords.Sentence(layout, "continuity from X/frog-none to P1/A").Trouble!;
        string[] frogs = [.. trouble.Split('"').Where(word => word.StartsWith("frog", StringComparison.Ordinal) && word != "frog-none")];
        Assert.NotEmpty(frogs);
        Assert.All(frogs, frog =>
        {
            ReadingSet set = ReadingSet.None with { Readings = [LayoutWords.Sentence(layout, $"no continuity from X/{frog} to P1/A").Value!] };
            Assert.NotNull(FaultSearch.Rank(layout, set, null, new() { MostNext = 0 }, TestContext.Current.CancellationToken));
        });
    }
}
