using WireUp.Circuits.Numerics;

namespace WireUp.Circuits.Tests.Exact;

public sealed class ParabolaTests
{
    [Fact]
    public void It_is_highest_or_lowest_where_it_turns_or_at_an_end()
    {
        Parabola hill = new(1, 1, -1), valley = new(1, -1, 1), ramp = new(1, 2, 0), late = new(0, 4, -1), early = new(0, -1, -1);
        Assert.Equal([0.5, 0, 1, 1, 0], new[] { hill, valley, ramp, late, early }.Select(one => one.Highest()));
        Assert.Equal([0, 0.5, 0, 0, 1], new[] { hill, valley, ramp, late, early }.Select(one => one.Lowest()));
        Assert.Equal(1.25, hill.At(0.5));
    }

    [Fact]
    public void A_part_of_it_has_its_values_and_three_values_give_it_back()
    {
        Parabola all = new(1, 2, -3), part = all.Between(0.25, 0.75);
        Assert.Equal([all.At(0.25), all.At(0.5), all.At(0.75)], [part.At(0), part.At(0.5), part.At(1)], (one, other) => Math.Abs(one - other) < 1e-12);
        Assert.Equal(all, Parabola.Through(all.At(0), all.At(0.5), all.At(1)));
    }

    // Volts over ohms. (1 + t)/(1 + 2.25·t − t²) is 1 at 0, 0.8 at ½ and 0.889 at 1; (1 − t/2)/(½ + ⅝·t − t²) turns at ½ as well: 0.75/0.5625.
    [Theory]
    [InlineData(1, 2.25, -1, 0, 1, 1, 0.5)]
    [InlineData(0.25, 2.25, -1, 0.75, 1, 1, 0.5)]
    [InlineData(0.5, 0.625, -1, 0, 1, -0.5, 0.5)]
    [InlineData(1, 1, -1, 0, 2, 0, 0.5)]
    [InlineData(1, 0, 0, 0, 2, 0, 0)]
    [InlineData(1, 0, 0, 0, 2, -1, 1)]
    [InlineData(1, 1, 0, 0, 1, 0, 1)]
    [InlineData(1, -1, 1, 0, 1, 0, 0)]
    [InlineData(1, 1, 1, 0, 1, 1, 1)]
    public void A_fault_current_is_least_at_an_end_or_where_its_slope_is_nought(double c0, double c1, double c2, double constant, double y0, double y1, double least) =>
        Assert.Equal(least, new Parabola(c0, c1, c2).LowestRatio(y0, y1, constant), 1e-12);
}
