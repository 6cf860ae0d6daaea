namespace WireUp.Circuits.Numerics;

/// <summary>How a factorisation ended.</summary>
internal abstract record FactorOutcome
{
    private FactorOutcome()
    {
    }

    /// <summary>All pivots are positive: the network can be solved.</summary>
    internal sealed record Solved : FactorOutcome
    {
        internal static readonly Solved Instance = new();
    }

    /// <summary>A pivot is zero or no number: nothing ties this unknown to the reference, or a conductance is no number.</summary>
    /// <param name="Unknown">The unknown whose pivot it is.</param>
    internal sealed record NotDefinite(int Unknown) : FactorOutcome;
}
