using System.Collections.Immutable;
using WireUp.Faults.Search;
using WireUp.Layouts;
using WireUp.Rails;

namespace WireUp.Benchmarks.Faults;

/// <summary>Faults put into a layout one after the other and looked for with readings that the search itself asks for.</summary>
internal sealed class FaultTrials
{
    private readonly Layout _layout;
    private readonly FaultDraw _draw;
    private readonly FaultySpice _spice;
    private readonly Func<string, string> _simulator;

    /// <param name="layout">The layout; every turnout in its first position.</param>
    /// <param name="simulator">Runs the circuit simulator on a netlist and gives what it prints.</param>
    internal FaultTrials(Layout layout, Func<string, string> simulator)
    {
        (_layout, _simulator) = (layout, simulator);
        _draw = new(layout);
        _spice = new(RailGraph.Build(layout, ReadingPlaces.Middles(layout)));
    }

    /// <summary>Runs trials of a kind.</summary>
    /// <param name="kind">The kind.</param>
    /// <param name="numbers">Their numbers, of which each is drawn by itself.</param>
    internal ImmutableArray<TrialRecord> Run(TrialKind kind, IEnumerable<int> numbers)
    {
        FaultTrial[] trials = [.. numbers.Select(number => New(kind, number))];
        for (int step = 0; step <= kind.Readings; step++)
        {
            foreach (FaultTrial trial in trials.Where(trial => !trial.IsDone))
            {
                trial.Diagnose(_layout, isLast: step == kind.Readings);
            }

            Array.ForEach(trials, trial => trial.Note());
            if (step < kind.Readings)
            {
                TakeDown([.. trials.Where(trial => trial.Asked is not null)]);
            }
        }

        return [.. trials.Select(trial => trial.Record(kind.HasSupply ? 0 : _draw.HalfSplits(trial.Faults)))];
    }

    private FaultTrial New(TrialKind kind, int number)
    {
        int seed = Mixed(kind.Seed + number), before = _draw.Drawn;
        Random random = new(seed);
        (ImmutableArray<InjectedFault> faults, ImmutableArray<MeterReading> complaints) = kind switch
        {
            { IsPair: true } => _draw.NextPair(random, _spice),
            { IsTouching: true } => _draw.NextTouching(random, _spice),
            { IsMixed: true } => _draw.NextOfAny(random, _spice),
            _ => _draw.NextSingle(random, _spice),
        };
        ImmutableArray<string> places = [.. faults.Select(fault => _draw.Hypotheses[fault.Hypothesis].Part.Element.Place)];
        return new(kind, number, faults, places, complaints, random) { HealthySeed = kind.Varies ? seed : null, Drawn = _draw.Drawn - before };
    }

    private void TakeDown(FaultTrial[] trials)
    {
        double[] answers = _spice.Answer([.. trials.Select(trial => new SpiceQuestion(_draw.Changes(trial.Faults), trial.Asked!, trial.HealthySeed, trial.IsGuarded))], _simulator);
        for (int k = 0; k < trials.Length; k++)
        {
            trials[k].TakeDown(answers[k]);
        }
    }

    /// <summary>Seeds that follow each other give random numbers that do, too; multiplied by an odd number with its high bits folded in they do not.</summary>
    private static int Mixed(int seed)
    {
        uint mixed = (uint)(seed + 1) * 0x9E3779B1u;
        return (int)((mixed ^ (mixed >> 15)) * 0x85EBCA6Bu >> 1);
    }
}
