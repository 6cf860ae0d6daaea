using System.Collections.Immutable;
using WireUp.Faults;
using WireUp.Faults.Search;
using WireUp.Layouts;
using WireUp.Rails;

namespace WireUp.Benchmarks.Faults;

/// <summary>How the trials of one kind went, reading by reading.</summary>
/// <param name="Count">How many trials.</param>
/// <param name="First">For each number of readings beyond the symptom, in how many the injected part was first.</param>
/// <param name="Among">In how many it was among the first three (single) or five (pairs).</param>
/// <param name="Group">In how many it was first or told apart from the first by no reading.</param>
/// <param name="ToCertainty">Readings until one part had 95 %, summed over all trials; those that never came there count as the most.</param>
/// <param name="ByHand">What half-splitting by hand takes to the same end, summed.</param>
/// <param name="Drawn">How many faults were drawn to find those that somebody notices.</param>
internal sealed record TrialOutcome(int Count, int[] First, int[] Among, int[] Group, int ToCertainty, int ByHand, int Drawn);

/// <summary>Faults put into a layout one after the other and looked for with readings that the search itself asks for.</summary>
internal sealed class FaultTrials
{
    /// <summary>One part with that probability is what readings are counted up to; with the other nobody measures any further.</summary>
    private const double Certain = 0.95, Done = 0.99;

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

    /// <summary>Runs trials of single faults or of pairs.</summary>
    /// <param name="count">How many.</param>
    /// <param name="readings">Readings of each, beyond the symptom.</param>
    /// <param name="pairs">Whether two parts at a time are faulty.</param>
    /// <param name="varies">Whether sound parts vary too.</param>
    /// <param name="seed">Seed of everything that is drawn.</param>
    internal TrialOutcome Run(int count, int readings, bool pairs, bool varies, int seed)
    {
        Random random = new(seed);
        int before = _draw.Drawn;
        FaultTrial[] trials = [.. Enumerable.Range(0, count).Select(i => New(random, pairs, seed + i))];
        int[] first = new int[readings + 1], among = new int[readings + 1], group = new int[readings + 1];
        int toCertainty = 0;
        FaultSearchOptions options = new() { MostNext = int.MaxValue, Pairs = pairs };
        for (int step = 0; step <= readings; step++)
        {
            MeterReading?[] asked = new MeterReading?[count];
            for (int i = 0; i < count; i++)
            {
                if (step == 0 || !trials[i].IsCertain(Done))
                {
                    trials[i].Diagnose(_layout, step == readings ? options with { MostNext = 0 } : options);
                }

                toCertainty += trials[i].IsCertain(Certain) ? 0 : 1;
                Count(trials[i], pairs, step, first, among, group);
                asked[i] = trials[i].IsCertain(Done) ? null : trials[i].Diagnosis!.Next.Where(next => next.Reading is MeterReading.Volts or MeterReading.VoltsAlong).MaxBy(next => next.Bits)?.Reading;
            }

            if (step < readings)
            {
                TakeDown(trials, asked, varies, seed);
            }
        }

        int byHand = trials.Sum(trial => _draw.HalfSplits(trial.Faults));
        return new(count, first, among, group, toCertainty, byHand, _draw.Drawn - before);
    }

    private FaultTrial New(Random random, bool pairs, int seed)
    {
        if (pairs)
        {
            (ImmutableArray<InjectedFault> both, ImmutableArray<MeterReading> complaints) = _draw.NextPair(random, _spice);
            return new(both, complaints, seed);
        }

        (InjectedFault fault, MeterReading symptom) = _draw.Next(random, _spice);
        return new([fault], [symptom], seed);
    }

    private void TakeDown(FaultTrial[] trials, MeterReading?[] asked, bool varies, int seed)
    {
        int[] open = [.. Enumerable.Range(0, trials.Length).Where(i => asked[i] is not null)];
        double[] answers = _spice.Answer(
            [.. open.Select(i => new SpiceQuestion(_draw.Branches(trials[i].Faults), asked[i]!, varies ? seed + i : null))], _simulator);
        for (int k = 0; k < open.Length; k++)
        {
            trials[open[k]].TakeDown(asked[open[k]]!, answers[k]);
        }
    }

    private void Count(FaultTrial trial, bool pairs, int step, int[] first, int[] among, int[] group)
    {
        Diagnosis diagnosis = trial.Diagnosis!;
        HashSet<string> truth = [.. trial.Faults.Select(fault => _draw.Hypotheses[fault.Hypothesis].Part.Element.Place)];
        string[] answers = [.. diagnosis.Faults.Select(Name).Distinct(StringComparer.Ordinal)];
        string name = string.Join('+', truth.Order(StringComparer.Ordinal));
        int rank = Array.IndexOf(answers, name);
        first[step] += rank == 0 ? 1 : 0;
        among[step] += rank >= 0 && rank < (pairs ? 5 : 3) ? 1 : 0;
        group[step] += diagnosis.Faults.Any(fault => Name(fault) == name && fault.Group == diagnosis.Faults[0].Group) ? 1 : 0;
    }

    private static string Name(RankedFault fault) =>
        string.Join('+', fault.Parts.Select(part => part.Element.Place).Order(StringComparer.Ordinal));
}
