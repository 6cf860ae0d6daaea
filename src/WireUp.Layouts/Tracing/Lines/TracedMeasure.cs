namespace WireUp.Layouts.Tracing.Lines;

/// <summary>Measures taken off a drawing.</summary>
internal static class TracedMeasure
{
    /// <summary>To a hundredth of a millimetre, so made that it is written as a short number of millimetres.</summary>
    public static double Rounded(double metres) => (Math.Round(metres * 1000, 2) / 1000) + 0.0;
}
