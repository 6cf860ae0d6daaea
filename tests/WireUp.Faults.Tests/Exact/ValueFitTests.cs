using WireUp.Faults.Search;

namespace WireUp.Faults.Tests.Exact;

/// <summary>
/// Likelihoods whose integral over the logarithm of a value can be written down; the value lies from 0.1 to 1000. Quantiles are taken along
/// trapezes of half a spread.
/// </summary>
public sealed class ValueFitTests
{
    private const double Least = 0.1, Most = 1000;

    private static readonly double Width = Math.Log(Most / Least);

    // A bell of spread s over the logarithm: area s·√(2π), a twentieth beyond 1.645 s on either side. No reading fits exactly at a point of the grid.
    [Theory]
    [InlineData(7.3, 0.5)]
    [InlineData(7.3, 0.05)]
    [InlineData(0.31, 0.2)]
    [InlineData(444, 0.01)]
    public void A_bell_gives_its_middle_its_area_and_its_quantiles(double value, double spread)
    {
        FaultFit fit = ValueFit.Integrate(Least, Most, [value], Bell(value, spread));
        Assert.Equal(value, fit.Value, value * 1e-3);
        Assert.Equal(Math.Log(spread * Math.Sqrt(2 * Math.PI) / Width), fit.LogLikelihood, 0.01);
        Assert.Equal(-1.645, Math.Log(fit.Least / value) / spread, 0.12);
        Assert.Equal(1.645, Math.Log(fit.Most / value) / spread, 0.12);
    }

    [Fact]
    public void The_best_value_is_climbed_to_from_the_grid_without_a_seed() =>
        Assert.Equal(7.3, ValueFit.Integrate(Least, Most, [], Bell(7.3, 0.3)).Value, 7.3e-3);

    [Theory]
    [InlineData(0.1, -1)]
    [InlineData(1000, 1)]
    public void Half_a_bell_at_the_end_of_the_range_has_half_the_area_and_no_value_beyond(double end, int side)
    {
        FaultFit fit = ValueFit.Integrate(Least, Most, [], Bell(end, 0.3));
        Assert.Equal(end, fit.Value, end * 1e-3);
        Assert.Equal(Math.Log(0.3 * Math.Sqrt(Math.PI / 2) / Width), fit.LogLikelihood, 0.02);

        // Of half a bell a twentieth lies within 0.0627 s of its top, and a twentieth beyond 1.960 s.
        (double near, double far) = side < 0 ? (fit.Least, fit.Most) : (fit.Most, fit.Least);
        Assert.Equal(0.0627, Math.Abs(Math.Log(near / end)) / 0.3, 0.02);
        Assert.Equal(1.960, Math.Abs(Math.Log(far / end)) / 0.3, 0.05);
    }

    [Fact]
    public void Where_all_values_are_as_likely_the_whole_range_is_left()
    {
        FaultFit fit = ValueFit.Integrate(Least, Most, [], _ => -2);
        Assert.Equal(-2, fit.LogLikelihood, 1e-9);
        Assert.Equal(Math.Exp(Math.Log(Least) + (0.05 * Width)), fit.Least, 1e-9);
        Assert.Equal(Math.Exp(Math.Log(Most) - (0.05 * Width)), fit.Most, 1e-6);
    }

    [Fact]
    public void A_peak_too_narrow_for_the_grid_is_found_where_a_reading_fits_exactly()
    {
        FaultFit fit = ValueFit.Integrate(Least, Most, [-4, 0, 7.3, 5000], Bell(7.3, 1e-4));
        Assert.Equal(7.3, fit.Value, 1e-3);

        // Between the fine points and the grid the trapezes are wider than the peak: the area is some too large.
        Assert.InRange(fit.LogLikelihood - Math.Log(1e-4 * Math.Sqrt(2 * Math.PI) / Width), 0, 0.3);
    }

    private static Func<double, double> Bell(double value, double spread) => at => -Math.Pow(Math.Log(at / value) / spread, 2) / 2;
}
