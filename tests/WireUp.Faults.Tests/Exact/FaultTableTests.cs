using WireUp.Layouts;
using WireUp.Layouts.Reference;

namespace WireUp.Faults.Tests.Exact;

public sealed class FaultTableTests
{
    [Fact]
    public void Every_kind_of_part_can_fail_in_some_way() =>
        Assert.All(Enum.GetValues<FaultElementKind>(), kind => Assert.NotEmpty(FaultTable.Of(kind)));

    [Fact]
    public void Every_chance_is_a_probability_and_every_range_of_ohms_rises() => Assert.All(FaultTable.Rates, rate =>
    {
        Assert.InRange(rate.Chance, 1e-6, 0.5);
        Assert.Equal(rate.LeastOhms is null, rate.MostOhms is null);
        Assert.True(rate.LeastOhms is null || rate.LeastOhms < rate.MostOhms);
        Assert.Equal(rate.State is FaultState.HighResistance or FaultState.Leaking or FaultState.Weak, rate.LeastOhms is not null);
    });

    [Fact]
    public void A_kind_and_a_state_have_one_row() =>
        Assert.Equal(FaultTable.Rates.Length, FaultTable.Rates.Select(rate => (rate.Kind, rate.State)).Distinct().Count());

    [Theory]
    [InlineData(FaultElementKind.BusWire, "bus-wire")]
    [InlineData(FaultElementKind.Joiner, "joiner")]
    [InlineData(FaultElementKind.SolderedJoint, "soldered-joint")]
    public void A_kind_of_part_is_written_in_small_letters_with_hyphens(FaultElementKind kind, string word)
    {
        Assert.Equal(word, kind.Word());
        Assert.Equal(kind, FaultWords.Kind(word));
        Assert.Null(FaultWords.Kind(word + "x"));
    }

    [Fact]
    public void A_state_is_written_in_small_letters_with_hyphens()
    {
        Assert.Equal("not-touching", FaultState.NotTouching.Word());
        Assert.All(Enum.GetValues<FaultState>(), state => Assert.Equal(state, FaultWords.State(state.Word())));
    }
}
