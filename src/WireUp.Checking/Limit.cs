namespace WireUp.Checking;

/// <summary>Comparison of a figure with a limit: what is met exactly is kept, however the sums of it were rounded.</summary>
internal static class Limit
{
    /// <summary>In the unit of the figures: amperes, metres, times or per cent.</summary>
    private const double Tolerance = 1e-6;

    internal static bool IsBelow(double value, double limit) => value < limit - Tolerance;
}
