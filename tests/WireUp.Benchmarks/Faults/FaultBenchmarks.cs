using BenchmarkDotNet.Attributes;
using UnitsNet;
using WireUp.Faults;
using WireUp.Layouts;
using WireUp.Testing;

namespace WireUp.Benchmarks.Faults;

/// <summary>A search among the 4,235 hypotheses of the club sample with three readings: opened, weighed, next reading chosen, pairs weighed.</summary>
[MemoryDiagnoser]
public class FaultBenchmarks
{
    private static readonly ReadingPlace Complaint = new ReadingPlace.Along(new(new("bog-1"), 0.45));

    private Layout _layout = null!;
    private ReadingSet _set = null!;

    /// <summary>Reads the layout.</summary>
    [GlobalSetup]
    public void Setup()
    {
        _layout = LayoutFile.Read(RepoFiles.ReadText("sample-layouts/tarrow-valley-as-built.layout.yaml"), "tarrow-valley-as-built.layout.yaml").Layout!;
        ReadingLoad load = new(Complaint, ElectricCurrent.FromAmperes(0.5));
        _set = ReadingSet.None with
        {
            Readings =
            [
                new MeterReading.Running(Complaint, RunningState.Slows),
                new MeterReading.Volts(Complaint, ElectricPotential.FromVolts(6.9)) { Load = load },
                new MeterReading.Volts(new ReadingPlace.AtBooster("booster-3"), ElectricPotential.FromVolts(15)) { Load = load },
            ],
        };
    }

    /// <summary>Every single fault, no suggestions.</summary>
    [Benchmark]
    public Diagnosis? Singles() => FaultSearch.Rank(_layout, _set, null, new() { MostNext = 0 });

    /// <summary>The same with what to measure next.</summary>
    [Benchmark]
    public Diagnosis? SinglesAndNext() => FaultSearch.Rank(_layout, _set);

    /// <summary>Pairs too.</summary>
    [Benchmark]
    public Diagnosis? Pairs() => FaultSearch.Rank(_layout, _set, null, new() { MostNext = 0, Pairs = true });
}
