using WireUp.Layouts;
using WireUp.Layouts.Reference;

namespace WireUp.Faults.Search;

/// <summary>How far a meter may be off, as a standard deviation. Common practice (shared/constants.csv, rows meter-…).</summary>
internal static class Meter
{
    private static readonly double DigitOverRange = Constants.Get("meter-digit-over-range").Value;
    private static readonly double DigitsOff = Constants.Get("meter-digits-off").Value;
    private static readonly double LeastVolts = Constants.Get("meter-range-least-volts").Value;
    private static readonly double StrayVolts = Constants.Get("meter-stray-volts").Value, SteadyStrayVolts = Constants.Get("meter-stray-volts-supply").Value;
    private static readonly double LeastOhms = Constants.Get("meter-range-least-ohms").Value;

    /// <summary>What a meter loads its points with on volt ranges, ohm.</summary>
    internal static double Ohms { get; } = Constants.Get("meter-resistance").Value * 1e6;

    /// <summary>Resistance of its leads, ohm, about as much as they vary by.</summary>
    internal static double LeadOhms { get; } = Constants.Get("meter-lead-resistance").Value;

    /// <summary>Above this a resistance reads as open, ohm.</summary>
    internal static double MostOhms { get; } = Constants.Get("meter-ohms-most").Value * 1e6;

    /// <param name="accuracy">How good the meter is.</param>
    /// <param name="volts">What it shows.</param>
    /// <param name="isSteady">Whether a direct supply fed the track, and what the meter shows with that off was taken away.</param>
    internal static double VoltsOff(MeterAccuracy accuracy, double volts, bool isSteady) =>
        (accuracy.Volts.DecimalFractions * Math.Abs(volts)) + Digits(volts, LeastVolts) + (isSteady ? SteadyStrayVolts : StrayVolts);

    /// <summary>A clamp shows milliamperes like a volt range of a tenth shows volts.</summary>
    internal static double AmpsOff(MeterAccuracy accuracy, double amps) =>
        (accuracy.Amps.DecimalFractions * Math.Abs(amps)) + Digits(amps, 10 * LeastVolts);

    internal static double OhmsOff(MeterAccuracy accuracy, double ohms) =>
        (accuracy.Ohms.DecimalFractions * Math.Abs(ohms)) + Digits(ohms, LeastOhms) + LeadOhms;

    /// <summary>Its last digits on the lowest range that shows the value.</summary>
    private static double Digits(double value, double leastRange)
    {
        double range = leastRange;
        while (range < Math.Abs(value) && range < 1e12)
        {
            range *= 10;
        }

        return DigitsOff * DigitOverRange * range;
    }
}
