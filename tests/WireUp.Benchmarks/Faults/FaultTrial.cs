using System.Collections.Immutable;
using System.Globalization;
using UnitsNet;
using WireUp.Faults;
using WireUp.Faults.Search;
using WireUp.Layouts;

namespace WireUp.Benchmarks.Faults;

/// <summary>A fault that is put into a railway: a hypothesis with its value, NaN where it has none.</summary>
/// <param name="Hypothesis">Its number in the list of hypotheses of the layout.</param>
/// <param name="Value">Its value.</param>
internal readonly record struct InjectedFault(int Hypothesis, double Value);

/// <summary>One search for what was injected, reading by reading.</summary>
internal sealed class FaultTrial
{
    /// <summary>One part with that probability is what readings are counted up to; with the other nobody measures any further.</summary>
    private const double Certain = 0.95, Done = 0.99;

    private readonly TrialKind _kind;
    private readonly int _number;
    private readonly Random _random;
    private readonly double _sourceFactor;
    private readonly ImmutableArray<string> _places;
    private readonly List<int> _ranks = [];
    private readonly List<bool> _alike = [];
    private ReadingSet _set;
    private Diagnosis? _diagnosis;
    private int _toCertainty;

    /// <param name="kind">The kind of trial.</param>
    /// <param name="number">Its number.</param>
    /// <param name="faults">What is injected.</param>
    /// <param name="places">Where that is, in words.</param>
    /// <param name="complaints">What somebody noticed.</param>
    /// <param name="random">What meter and boosters are off by is drawn from it.</param>
    internal FaultTrial(TrialKind kind, int number, ImmutableArray<InjectedFault> faults, ImmutableArray<string> places, ImmutableArray<MeterReading> complaints, Random random)
    {
        (_kind, _number, Faults, _places, _random) = (kind, number, faults, places, random);
        _set = ReadingSet.None with { Readings = complaints, Tools = ReadingTools.Volts | ReadingTools.Load | (kind.HasSupply ? ReadingTools.Supply : 0) };
        _sourceFactor = 1 + (0.02 * Gaussian());
    }

    internal ImmutableArray<InjectedFault> Faults { get; }

    /// <summary>Seed by which sound parts vary, or null where they do not.</summary>
    internal int? HealthySeed { get; init; }

    /// <summary>Whether breakers may trip.</summary>
    internal bool IsGuarded => _kind.HasSupply;

    /// <summary>Faults that were drawn for it.</summary>
    internal int Drawn { get; init; }

    /// <summary>Whether one part is so sure that nobody would go on.</summary>
    internal bool IsDone => _diagnosis is not null && Surest() >= Done;

    /// <summary>What to read next: what tells most, whatever its minutes; null where nobody would go on.</summary>
    internal MeterReading? Asked => IsDone ? null : _diagnosis!.Next.Where(next => next.Reading is MeterReading.Volts or MeterReading.VoltsAlong).MaxBy(next => next.Bits)?.Reading;

    internal void Diagnose(Layout layout, bool isLast) => _diagnosis = FaultSearch.Rank(
        layout, _set, null, new() { MostNext = isLast ? 0 : int.MaxValue, Pairs = _kind.IsPair, BoundsPairs = isLast });

    /// <summary>Keeps where the injected part stands now.</summary>
    internal void Note()
    {
        string name = string.Join('+', _places.Order(StringComparer.Ordinal));
        _ranks.Add(_diagnosis!.Faults.Select(Name).Distinct(StringComparer.Ordinal).ToList().IndexOf(name));
        _alike.Add(_diagnosis.Faults.Any(fault => Name(fault) == name && fault.Group == _diagnosis.Faults[0].Group));
        _toCertainty += Surest() >= Certain ? 0 : 1;
    }

    /// <summary>Takes down what a meter shows where the circuit has this value.</summary>
    internal void TakeDown(double value) => _set = _set with { Readings = _set.Readings.Add(Shown(Asked!, value)) };

    internal TrialRecord Record(int byHand) => new(_number, [.. _ranks], [.. _alike], _toCertainty, byHand, Drawn, Story());

    private double Surest() => _diagnosis!.Faults.GroupBy(Name).Max(group => group.Sum(fault => fault.Probability));

    private static string Name(RankedFault fault) => string.Join('+', fault.Parts.Select(part => part.Element.Place).Order(StringComparer.Ordinal));

    private string Story() => string.Join(
        " | ",
        [
            .. Faults.Zip(_places, (fault, place) => TrialRecord.Told(place, fault.Value)),
            .. _set.Readings.Select(reading => reading.ToString()),
            .. _diagnosis!.Faults.Take(6).Select(fault => string.Create(CultureInfo.InvariantCulture, $"{100 * fault.Probability:F2} % {DiagnosisWords.Place(fault)}: {DiagnosisWords.State(fault)}")),
            string.Create(CultureInfo.InvariantCulture, $"nothing wrong {100 * _diagnosis.NothingWrong:F2} %, not in the model {100 * _diagnosis.NotInModel:F2} %"),
            .. _kind.IsPair ? [string.Create(CultureInfo.InvariantCulture, $"pairs not weighed {100 * _diagnosis.PairsMissed:G3} % at most")] : Array.Empty<string>(),
        ]);

    private MeterReading Shown(MeterReading asked, double value) => asked switch
    {
        MeterReading.Volts volts => volts with { Shown = ElectricPotential.FromVolts(Volts(value, asked)) },
        MeterReading.VoltsAlong volts => volts with { Shown = ElectricPotential.FromVolts(Volts(value, asked)) },
        _ => throw new InvalidOperationException($"not a reading of volts: {asked}"),
    };

    private double Volts(double value, MeterReading asked)
    {
        double volts = Math.Abs(value * _sourceFactor);
        return Math.Round(Math.Max(0, volts + (Meter.VoltsOff(MeterAccuracy.Usual, volts, asked.Supply is not null) * Gaussian())), 4);
    }

    private double Gaussian() => Math.Sqrt(-2 * Math.Log(1 - _random.NextDouble())) * Math.Cos(2 * Math.PI * _random.NextDouble());
}
