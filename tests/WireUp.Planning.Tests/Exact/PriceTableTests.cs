using WireUp.Layouts.Reference;

namespace WireUp.Planning.Tests.Exact;

/// <summary>What is weighed against what stands in shared/prices.csv and nowhere else.</summary>
public sealed class PriceTableTests
{
    [Fact]
    public void Every_price_is_read_by_the_planner_and_says_that_it_is_common_practice()
    {
        string[] files = [.. Directory.EnumerateFiles(RepoFiles.PathOf("src/WireUp.Planning"), "*.cs", SearchOption.AllDirectories)
            .Where(file => !file.Contains($"{Path.DirectorySeparatorChar}obj{Path.DirectorySeparatorChar}", StringComparison.Ordinal))];
        string code = string.Join('\n', files.Select(File.ReadAllText));
        Assert.True(PriceTable.All.Length > 15);
        Assert.All(PriceTable.All, price =>
        {
            Assert.Contains($"\"{price.Name}\"", code, StringComparison.Ordinal);
            Assert.Equal(Standing.CommonPractice, price.Standing);
            Assert.True(price.Value > 0);
        });
    }

    [Fact]
    public void A_booster_with_its_supply_is_worth_what_the_handbook_says() =>
        Assert.Contains($"counts as much as {Prices.Booster + Prices.Supply} feeders", RepoFiles.ReadText("docs/planning.md"), StringComparison.Ordinal);
}
