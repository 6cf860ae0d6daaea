using System.Collections.Immutable;
using UnitsNet;
using WireUp.Layouts;

namespace WireUp.Faults;

/// <summary>What the readings say: never one guess without its probability and its runner-up.</summary>
public sealed record Diagnosis
{
    /// <summary>What explains the readings, the most probable first; what lies below <see cref="FaultSearchOptions.LeastProbability"/> is in <see cref="Unlisted"/>.</summary>
    public required ImmutableArray<RankedFault> Faults { get; init; }

    /// <summary>Probability that nothing in the model is faulty.</summary>
    public required double NothingWrong { get; init; }

    /// <summary>Probability that the cause is something that the model does not hold.</summary>
    public required double NotInModel { get; init; }

    /// <summary>Probability of all faults that are not listed. Pairs that were not weighed are in no probability: see <see cref="PairsMissed"/>.</summary>
    public required double Unlisted { get; init; }

    /// <summary>
    /// Upper bound of the probability of all pairs that were not weighed, of parts that each move a reading beside the other; 0 where pairs were not
    /// asked for, 1 where no bound was. The other probabilities would fall by at most this part of themselves.
    /// </summary>
    public required double PairsMissed { get; init; }

    /// <summary>Uncertainty that is left, in bits: 0 when one answer is certain.</summary>
    public required double Bits { get; init; }

    /// <summary>Every reading against what was to be expected, in the order of the readings.</summary>
    public required ImmutableArray<ReadingFit> Readings { get; init; }

    /// <summary>The reading that fits worst under the best explanation, where none explains all readings; else null.</summary>
    public required Contradiction? Contradiction { get; init; }

    /// <summary>What to measure next, the most bits a minute first.</summary>
    public required ImmutableArray<NextReading> Next { get; init; }
}

/// <summary>A part in a state.</summary>
/// <param name="Element">The part.</param>
/// <param name="State">The state.</param>
public sealed record Fault(FaultElement Element, FaultState State)
{
    /// <summary>The resistance that fits best, or null where the state has none.</summary>
    public ElectricResistance? Ohms { get; init; }

    /// <summary>Lower end of the interval in which the resistance lies with 90 %.</summary>
    public ElectricResistance? LeastOhms { get; init; }

    /// <summary>Upper end of that interval.</summary>
    public ElectricResistance? MostOhms { get; init; }
}

/// <summary>One explanation of the readings.</summary>
/// <param name="Parts">What is faulty: one part, or two.</param>
/// <param name="Probability">How probable it is, from 0 to 1.</param>
public sealed record RankedFault(ImmutableArray<Fault> Parts, double Probability)
{
    /// <summary>What each reading ought to show, in the order and unit of the readings; NaN for one that only says where to look.</summary>
    public required ImmutableArray<double> Predicted { get; init; }

    /// <summary>Number of the group of explanations that no reading so far tells apart, from 0; two of one number are "one of these".</summary>
    public required int Group { get; init; }

    /// <summary>The reading that would part it best from what else is probable, or null where nothing that can be measured would.</summary>
    public required NextReading? Confirm { get; init; }
}

/// <summary>A reading against expectation.</summary>
/// <param name="Measured">What was read, volts, ohms or amperes; the middle of the band of a reading in words.</param>
/// <param name="Healthy">What a railway without fault shows.</param>
/// <param name="Best">What the best explanation shows.</param>
/// <param name="Sigmas">How many standard deviations it is off under the best explanation.</param>
public sealed record ReadingFit(double Measured, double Healthy, double Best, double Sigmas);

/// <summary>Readings that no explanation of the model fits.</summary>
/// <param name="Reading">Index of the reading that fits worst under the best explanation.</param>
/// <param name="Sigmas">By how many standard deviations.</param>
public sealed record Contradiction(int Reading, double Sigmas);

/// <summary>A measurement worth making.</summary>
/// <param name="Reading">The reading to be made, with 0 in place of what it will show.</param>
/// <param name="Words">What to do: <c>volts from P3/A to f1/A, 0.5 A across the rails at loop@1 m</c>.</param>
/// <param name="Bits">Expected fall of the uncertainty about which part is faulty, bits.</param>
/// <param name="Minutes">Minutes of work.</param>
/// <param name="Reach">From where.</param>
public sealed record NextReading(MeterReading Reading, string Words, double Bits, double Minutes, Reach Reach)
{
    /// <summary>Bits for each minute of work.</summary>
    public double BitsPerMinute => Bits / Minutes;
}
