namespace WireUp.Faults.Tests.Exact;

public sealed class PartNamesTests
{
    private static readonly System.Collections.Immutable.ImmutableArray<FaultElement> Parts = FaultSearch.Parts(SmallLayout.Layout);

    [Theory]
    [InlineData("joint spur-1.b–spur-2.a, left rail", "joint spur-1.b–spur-2.a, left rail")]
    [InlineData("joint spur-1.b/left", "joint spur-1.b–spur-2.a, left rail")]
    [InlineData("spur-1.b right rail", "joint spur-1.b–spur-2.a, right rail")]
    [InlineData("joint spur-2.a/left", "joint spur-1.b–spur-2.a, right rail")]
    [InlineData("joint spur-1.b spur-2.a left", "joint spur-1.b–spur-2.a, left rail")]
    [InlineData("feeder f1/A", "feeder f1, leg A")]
    [InlineData("tap f1/B", "tap of feeder f1 at P1, leg B")]
    [InlineData("bus run main P1 wire B", "bus run main–P1 of east, wire B")]
    [InlineData("breaker east", "breaker of east")]
    [InlineData("booster main", "booster main")]
    public void A_part_is_found_by_what_people_call_it(string said, string place) =>
        Assert.Equal(place, Assert.Single(PartNames.Find(Parts, said)).Place);

    [Fact]
    public void What_is_not_clear_gives_all_that_may_be_meant() =>
        Assert.Equal(2, PartNames.Find(Parts, "joint spur-1.b").Length);

    [Theory]
    [InlineData("")]
    [InlineData("joint spur-9.a/left")]
    [InlineData("the thing in the corner")]
    public void What_nothing_is_called_finds_nothing(string said) => Assert.Empty(PartNames.Find(Parts, said));

    [Fact]
    public void Every_part_is_found_by_its_own_words_alone() =>
        Assert.All(Parts, part => Assert.Equal(part, Assert.Single(PartNames.Find(Parts, part.Place))));
}
