namespace WireUp.Layouts.Tests.Exact;

/// <summary>What <see cref="LayoutComparison"/> says of small layouts.</summary>
public sealed class ComparisonTests
{
    private const string Siding = """
        wireup: 1
        name: Siding
        scale: HO
        longest-train: 1 m
        shortest-pickup: 60
        track:
          main: { length: 900 }
          T1: { turnout: left, number: 6 }
          east: { length: 800 }
          spur: { length: 700 }
          spur-end: { stop: true }
        joined:
          - main > T1.points
          - T1.through > east
          - T1.diverging > spur > spur-end
        wiring:
          boosters: { box: { volts: 14 V, amps: 3 A } }
          districts: { all: { booster: box, trip: 2.5 A } }
          bus: { all: { wire: 1.5 mm2, runs: [ box > P1 1 m, P1 > P2 2 m ] } }
          feeders:
            f1: { at: main@400, bus: P1, wire: 0.5 mm2, length: 200 }
            f2: { at: east@400, bus: P2, wire: 0.5 mm2, length: 200 }
          gaps:
            - { at: T1.diverging, rails: both }
        """;

    [Fact]
    public void Order_and_the_end_from_which_something_is_written_do_not_count()
    {
        string other = Siding
            .Replace("  main: { length: 900 }\n", "", StringComparison.Ordinal)
            .Replace("  spur-end: { stop: true }\n", "  spur-end: { stop: true }\n  main: { length: 900 }\n", StringComparison.Ordinal)
            .Replace("- main > T1.points", "- T1.points > main.b", StringComparison.Ordinal)
            .Replace("{ at: T1.diverging, rails: both }", "{ at: spur.a, rails: left }\n    - { at: T1.diverging, rails: left }", StringComparison.Ordinal);
        Assert.Empty(Compare(Siding, other));
    }

    [Theory]
    [InlineData("scale: HO", "scale: N", "Setting Changed scale: HO → N")]
    [InlineData("spur: { length: 700 }", "spur: { length: 750 }", "Track Changed spur: length: 700 → length: 750")]
    [InlineData("T1: { turnout: left, number: 6 }", "T1: { turnout: left, number: 6, frog: live }", "Track Changed T1: frog: insulated → frog: live")]
    [InlineData("amps: 3 A", "amps: 4 A", "Booster Changed box: amps: 3 A → amps: 4 A")]
    [InlineData("trip: 2.5 A", "trip: 2 A", "District Changed all: trip: 2.5 A → trip: 2 A")]
    [InlineData("P1 > P2 2 m", "P1 > P2 2 m 4 mm2", "BusRun Changed all: P1 > P2: wire: 1.5 mm2 → wire: 4 mm2")]
    [InlineData("at: east@400", "at: east@500", "Feeder Moved f2: at: east@400 mm → at: east@500 mm")]
    [InlineData("at: east@400, bus: P2, wire: 0.5 mm2", "at: east@400, bus: P2, wire: 1 mm2", "Feeder Changed f2: wire: 0.5 mm2 → wire: 1 mm2")]
    [InlineData("    f2:", "    f7:", "Feeder Renamed f7: f2 → f7")]
    [InlineData("rails: both", "rails: left", "Gap Removed T1.diverging: rails: right → ")]
    public void A_change_is_told_once_with_only_what_differs(string old, string now, string expected) =>
        Assert.Equal([expected], Compare(Siding, Siding.Replace(old, now, StringComparison.Ordinal)).Select(Text));

    [Fact]
    public void What_is_new_one_way_is_gone_the_other_way()
    {
        string more = Siding
            .Replace("    f2:", "    f3: { at: spur@100, bus: P2, wire: 0.5 mm2, length: 200 }\n    f2:", StringComparison.Ordinal)
            .Replace("P1 > P2 2 m", "P1 > P2 2 m, P2 > P3 1 m", StringComparison.Ordinal)
            .Replace("rails: both }", "rails: both }\n    - { at: east@600, rails: right }", StringComparison.Ordinal);
        string[] forward = ["Gap Added east@0.6 m:  → rails: right", "BusRun Added all: P2 > P3:  → length: 1 m, wire: 1.5 mm2", "Feeder Added f3:  → at: spur@100 mm, bus: P2, wire: 0.5 mm2, length: 200 mm"];
        string[] back = ["Gap Removed east@0.6 m: rails: right → ", "BusRun Removed all: P2 > P3: length: 1 m, wire: 1.5 mm2 → ", "Feeder Removed f3: at: spur@100 mm, bus: P2, wire: 0.5 mm2, length: 200 mm → "];
        Assert.Equal(forward, Compare(Siding, more).Select(Text));
        Assert.Equal(back, Compare(more, Siding).Select(Text));
    }

    [Fact]
    public void A_piece_with_another_name_is_told_as_renamed_and_its_feeders_stay()
    {
        string renamed = Siding.Replace("main", "west", StringComparison.Ordinal).Replace("spur", "stub", StringComparison.Ordinal);
        Assert.Equal(
            ["Track Renamed west: main → west", "Track Renamed stub: spur → stub", "Track Renamed stub-end: spur-end → stub-end"],
            Compare(Siding, renamed).Select(Text));
    }

    [Fact]
    public void A_piece_that_differs_in_anything_besides_its_name_is_another_piece()
    {
        string other = Siding.Replace("spur: { length: 700 }", "stub: { length: 701 }", StringComparison.Ordinal)
            .Replace("T1.diverging > spur >", "T1.diverging > stub >", StringComparison.Ordinal);
        Assert.Equal(
            ["Track Removed spur", "Track Added stub"],
            Compare(Siding, other).Where(one => one.Part == LayoutPart.Track).Select(one => $"{one.Part} {one.Kind} {one.Name}"));
    }

    [Fact]
    public void Two_pieces_that_could_be_exchanged_are_not_guessed_at()
    {
        const string Loose = "\n  x1: { length: 300 }\n  x2: { length: 300 }\njoined:";
        string two = Siding.Replace("\njoined:", Loose, StringComparison.Ordinal);
        string other = two.Replace("x1:", "y1:", StringComparison.Ordinal).Replace("x2:", "y2:", StringComparison.Ordinal);
        Assert.DoesNotContain(Compare(two, other), one => one.Kind == DifferenceKind.Renamed);
        Assert.Equal(4, Compare(two, other).Length);
    }

    private static LayoutDifference[] Compare(string before, string after) => [.. LayoutComparison.Of(Read(before), Read(after)).Differences];

    private static string Text(LayoutDifference one) => $"{one.Part} {one.Kind} {one.Name}: {one.Before} → {one.After}";

    private static Layout Read(string text)
    {
        LayoutReading reading = LayoutFile.Read(text, "test.layout.yaml");
        Assert.Empty(reading.Problems);
        return reading.Layout!;
    }
}
