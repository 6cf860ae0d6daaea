using System.Text.Json;

namespace WireUp.Acceptance.Tests.Program;

/// <summary><c>plan --what-if</c> as a person types it.</summary>
public class WhatIfTests
{
    private const string Balloon = "sample-layouts/balloon-loop.layout.yaml";

    [Fact]
    public async Task Plans_are_compared_side_by_side_and_nothing_is_written()
    {
        using ScratchFolder folder = new();
        string[] before = Directory.GetFileSystemEntries(folder.Path, "*", SearchOption.AllDirectories);
        Wireup.Outcome outcome = await Wireup.RunAsync(
            folder.Path, "plan", Balloon, "--json", "--what-if", "longest-train 4.5 m", "--what-if", "breaker 2 A; max-feeder-distance 0.5 m", "--what-if", "longest-train 40 m");
        Assert.Equal(1, outcome.ExitCode);
        Assert.Equal(before.Order(StringComparer.Ordinal), Directory.GetFileSystemEntries(folder.Path, "*", SearchOption.AllDirectories).Order(StringComparer.Ordinal));
        using JsonDocument json = JsonDocument.Parse(outcome.Output);
        JsonElement[] rows = [.. json.RootElement.GetProperty("outcomes").EnumerateArray()];
        Assert.Equal(
            ["as it is", "longest-train 4.5 m", "breaker 2 A; max-feeder-distance 0.5 m", "longest-train 40 m"],
            rows.Select(row => row.GetProperty("what-if").GetString()));
        Assert.Equal([true, true, true, false], rows.Select(row => row.GetProperty("finished").GetBoolean()));

        // At half the distance more feeders are needed; a breaker that trips later is farther from its fault current.
        Assert.True(rows[2].GetProperty("feeders").GetInt32() > rows[0].GetProperty("feeders").GetInt32());
        Assert.True(rows[2].GetProperty("fault-over-trip").GetDouble() < rows[0].GetProperty("fault-over-trip").GetDouble());
        Assert.Contains("40.00 m", rows[3].GetProperty("remains")[0].GetString(), StringComparison.Ordinal);
        Assert.Empty(rows[0].GetProperty("remains").EnumerateArray());
    }

    [Theory]
    [InlineData("colour red", "'colour' cannot be changed; expected one of longest-train, moving-at-once, max-drop, max-feeder-distance, breaker, wire")]
    [InlineData("longest-train", "'longest-train' needs a value, such as 'longest-train 2.4 m'")]
    [InlineData("longest-train quick", "is not a length")]
    [InlineData("moving-at-once -3", "'-3' is no number of locomotives")]
    [InlineData("breaker 0 A", "expected a current above 0")]
    [InlineData("max-drop 80 %", "80")]
    [InlineData(" ; ", "expected a key and a value")]
    public async Task A_change_that_cannot_be_read_ends_with_two_and_says_what_would_be_right(string change, string message)
    {
        using ScratchFolder folder = new();
        Wireup.Outcome outcome = await Wireup.RunAsync(folder.Path, "plan", Balloon, "--what-if", change);
        Assert.Equal(2, outcome.ExitCode);
        Assert.Empty(outcome.Output);
        Assert.Contains(message, outcome.Error.ReplaceLineEndings(" "), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Comparing_and_writing_at_once_is_refused()
    {
        using ScratchFolder folder = new();
        Wireup.Outcome outcome = await Wireup.RunAsync(folder.Path, "plan", Balloon, "--what-if", "moving-at-once 4", "--out", "book");
        Assert.Equal(2, outcome.ExitCode);
        Assert.False(Directory.Exists(folder.PathOf("book")));
    }
}
