using System.Collections.Immutable;
using WireUp.Faults;
using WireUp.Faults.Search;
using WireUp.Layouts;

namespace WireUp.Benchmarks.Faults;

/// <summary>A fault that is put into a railway: a hypothesis with its value, NaN where it has none.</summary>
/// <param name="Hypothesis">Its number in the list of hypotheses of the layout.</param>
/// <param name="Value">Its value.</param>
internal readonly record struct InjectedFault(int Hypothesis, double Value);

/// <summary>One search for an injected fault, reading by reading.</summary>
internal sealed class FaultTrial
{
    private readonly Random _random;
    private readonly double _sourceFactor;

    internal FaultTrial(ImmutableArray<InjectedFault> faults, ImmutableArray<MeterReading> symptoms, int seed)
    {
        Faults = faults;
        Set = ReadingSet.None with { Readings = symptoms };
        _random = new(seed);
        _sourceFactor = 1 + (0.02 * Gaussian());
    }

    internal ImmutableArray<InjectedFault> Faults { get; }

    internal ReadingSet Set { get; private set; }

    internal Diagnosis? Diagnosis { get; private set; }

    /// <summary>Whether one part has that probability.</summary>
    internal bool IsCertain(double probability) => Diagnosis!.Faults
        .GroupBy(fault => string.Join('+', fault.Parts.Select(part => part.Element.Place)))
        .Any(group => group.Sum(fault => fault.Probability) >= probability);

    internal void Diagnose(Layout layout, FaultSearchOptions options) => Diagnosis = FaultSearch.Rank(layout, Set, null, options);

    /// <summary>Takes down what a meter shows where the circuit has this value.</summary>
    internal void TakeDown(MeterReading asked, double value) => Set = Set with { Readings = Set.Readings.Add(Shown(asked, value)) };

    private MeterReading Shown(MeterReading asked, double value) => asked switch
    {
        MeterReading.Volts volts => volts with { Shown = UnitsNet.ElectricPotential.FromVolts(Volts(value)) },
        MeterReading.VoltsAlong volts => volts with { Shown = UnitsNet.ElectricPotential.FromVolts(Volts(value)) },
        MeterReading.Ohms ohms => ohms with { Shown = UnitsNet.ElectricResistance.FromOhms(Ohms(value)) },
        MeterReading.Amps amps => amps with { Shown = UnitsNet.ElectricCurrent.FromAmperes(Amps(value)) },
        _ => throw new InvalidOperationException($"not a reading of a meter: {asked}"),
    };

    private double Volts(double value)
    {
        double volts = Math.Abs(value * _sourceFactor);
        return Noisy(volts, Meter.VoltsOff(MeterAccuracy.Usual, volts));
    }

    private double Amps(double value)
    {
        double amps = Math.Abs(value * _sourceFactor);
        return Noisy(amps, Meter.AmpsOff(MeterAccuracy.Usual, amps));
    }

    private double Ohms(double value) => Math.Abs(value) > Meter.MostOhms
        ? Meter.MostOhms
        : Noisy(Math.Abs(value) + Meter.LeadOhms, Meter.OhmsOff(MeterAccuracy.Usual, value));

    private double Noisy(double value, double sigma) => Math.Round(Math.Max(0, value + (sigma * Gaussian())), 4);

    private double Gaussian() => Math.Sqrt(-2 * Math.Log(1 - _random.NextDouble())) * Math.Cos(2 * Math.PI * _random.NextDouble());
}
