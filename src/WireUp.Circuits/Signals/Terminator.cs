using UnitsNet;
using WireUp.Layouts.Reference;

namespace WireUp.Circuits.Signals;

/// <summary>A resistor and a capacitor in series across the far end of a bus, which take the ringing out of the signal.</summary>
/// <param name="Resistor">The resistor, a value of the E12 series near the impedance of the pair.</param>
/// <param name="Capacitor">The capacitor, of the E6 series: the smallest that the ringing does not notice.</param>
/// <param name="Heat">Heat in the resistor while nothing but ones are sent.</param>
/// <param name="Rating">Rating to buy: the next above twice the heat.</param>
/// <remarks>
/// The trade is divided: many fit 100 to 150 Ω with 0.1 µF at the end of every long bus, others do without where the pair is twisted;
/// block detectors can mistake it for a train.
/// </remarks>
public sealed record Terminator(ElectricResistance Resistor, ElectricCapacitance Capacitor, Power Heat, Power Rating)
{
    private static readonly double[] E12 = [1, 1.2, 1.5, 1.8, 2.2, 2.7, 3.3, 3.9, 4.7, 5.6, 6.8, 8.2];

    private static readonly double[] E6 = [1, 1.5, 2.2, 3.3, 4.7, 6.8];

    private static readonly double[] RatingWatts = [0.25, 0.5, 1, 2, 3, 5, 7, 10];

    /// <summary>The terminator for a pair.</summary>
    /// <param name="ohms">Characteristic impedance of the pair, Ω.</param>
    /// <param name="ringHertz">Frequency of the ringing, Hz.</param>
    /// <param name="volts">Amplitude of the signal, volt.</param>
    internal static Terminator For(double ohms, double ringHertz, double volts)
    {
        double resistor = Nearest(ohms);
        double farads = NextFrom(E6, Constants.Get("terminator-time-over-ring").Value / ringHertz / resistor);
        double heat = HeatWatts(resistor, farads, volts, Constants.Get("half-bit-shortest").Value * 1e-6);
        double rated = heat * Constants.Get("terminator-rating-over-heat").Value;
        return new(
            ElectricResistance.FromOhms(resistor),
            ElectricCapacitance.FromFarads(farads),
            Power.FromWatts(heat),
            Power.FromWatts(RatingWatts.FirstOrDefault(watts => watts >= rated, RatingWatts[^1])));
    }

    /// <summary>
    /// Heat in a resistor in series with a capacitor across a square wave: each half charges the capacitor from one side to the other, and
    /// P = (2·C·V²/T)·tanh(T/2RC), T the length of a half. While RC is short against T that is ½·C·(2V)² for each half.
    /// </summary>
    /// <param name="ohms">The resistor, Ω.</param>
    /// <param name="farads">The capacitor, F.</param>
    /// <param name="volts">Amplitude of the square wave, volt.</param>
    /// <param name="halfSeconds">Length of a half, seconds.</param>
    public static double HeatWatts(double ohms, double farads, double volts, double halfSeconds) =>
        2 * farads * volts * volts / halfSeconds * Math.Tanh(halfSeconds / (2 * ohms * farads));

    /// <summary>Nearest value of E12 by ratio.</summary>
    private static double Nearest(double value)
    {
        double decade = Math.Pow(10, Math.Floor(Math.Log10(value)));
        return E12.Append(10).MinBy(step => Math.Abs(Math.Log(step * decade / value))) * decade;
    }

    private static double NextFrom(double[] series, double value)
    {
        double decade = Math.Pow(10, Math.Floor(Math.Log10(value)));
        return series.Append(10).First(step => step * decade >= value * (1 - 1e-9)) * decade;
    }
}
