using WireUp.Benchmarks;

namespace WireUp.Circuits.Tests.Approved;

/// <summary>The page of measurements has the rows that the command writes. No figure is asserted: they are one machine's.</summary>
public sealed class PerformancePageTests
{
    [Fact]
    public void The_table_has_the_rows_that_the_command_writes()
    {
        string page = RepoFiles.ReadText("docs/performance.md");
        int begin = page.IndexOf(PerformanceRows.Begin, StringComparison.Ordinal), end = page.IndexOf(PerformanceRows.End, StringComparison.Ordinal);
        Assert.InRange(begin, 0, end);
        string[] rows = [.. page[begin..end].Split('\n').Where(line => line.StartsWith("| ", StringComparison.Ordinal)).Skip(2)];
        Assert.Equal(PerformanceRows.All.Select(row => $"| {row.Name} | {row.Unit} | "), rows.Select(Head));
    }

    [Fact]
    public void Every_figure_is_there_but_the_simulators()
    {
        string[] lines = RepoFiles.ReadText("docs/performance.md").Split('\n');
        Assert.All(
            PerformanceRows.All.Except([PerformanceRows.Simulator, PerformanceRows.Ratio]),
            row => Assert.DoesNotContain("–", lines.Single(line => line.StartsWith($"| {row.Name} |", StringComparison.Ordinal))));
    }

    [Fact]
    public void The_table_of_plans_has_the_stages_and_objectives_that_the_command_writes()
    {
        string page = RepoFiles.ReadText("docs/performance.md");
        int begin = page.IndexOf(PlanningRows.Begin, StringComparison.Ordinal), end = page.IndexOf(PlanningRows.End, StringComparison.Ordinal);
        Assert.InRange(begin, 0, end);
        IEnumerable<string> rows = page[begin..end].Split('\n').Where(line => line.StartsWith("| ", StringComparison.Ordinal)).Skip(2);
        Assert.Equal(
            [.. PlanningRows.Stages, PlanningRows.All, .. PlanningRows.Objectives.Select(name => $"`{name}`")],
            rows.Select(row => row.Split(" | ")[0][2..]));
    }

    private static string Head(string row)
    {
        int second = row.IndexOf(" | ", StringComparison.Ordinal);
        return row[..(row.IndexOf(" | ", second + 3, StringComparison.Ordinal) + 3)];
    }
}
