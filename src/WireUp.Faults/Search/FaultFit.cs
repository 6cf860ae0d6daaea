namespace WireUp.Faults.Search;

/// <summary>How well a fault explains the readings, its value integrated over.</summary>
/// <param name="LogLikelihood">Logarithm of the likelihood.</param>
/// <param name="Value">The value that fits best, or NaN where the state has none.</param>
/// <param name="Least">Lower end of the interval in which it lies with 90 %.</param>
/// <param name="Most">Upper end.</param>
internal readonly record struct FaultFit(double LogLikelihood, double Value, double Least, double Most)
{
    internal static FaultFit Of(double logLikelihood) => new(logLikelihood, double.NaN, double.NaN, double.NaN);
}
