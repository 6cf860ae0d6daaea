using System.Collections.Immutable;

namespace WireUp.Layouts;

/// <summary>How often parts fail on this railway, where that differs from what is usual (shared/fault-rates.csv).</summary>
public sealed record FaultPriors
{
    /// <summary>What is usual.</summary>
    public static readonly FaultPriors Usual = new();

    /// <summary>
    /// Chance that one part of a kind is faulty when somebody looks for a fault, from 0 to 1: in place of the sum of the table's rows of that
    /// kind, whose proportions stay. Kinds that are not named have what is usual.
    /// </summary>
    public ImmutableDictionary<FaultElementKind, double> Chances { get; init; } = ImmutableDictionary<FaultElementKind, double>.Empty;

    /// <summary>
    /// What is known of single parts, by their place in words as results write it: a factor on the odds, above 0. A part that failed
    /// before has more than 1.
    /// </summary>
    public ImmutableDictionary<string, double> PlaceFactors { get; init; } = ImmutableDictionary<string, double>.Empty;

    /// <summary>Age of the track's joiners and blades in years, 0 or more, or null where not stated.</summary>
    public double? AgeYears { get; init; }
}
