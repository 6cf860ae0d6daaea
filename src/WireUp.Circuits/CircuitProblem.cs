namespace WireUp.Circuits;

/// <summary>Why a part of the circuit has no result. A part with a problem has no figures at all, never doubtful ones.</summary>
public abstract record CircuitProblem
{
    private CircuitProblem(string at) => At = at;

    /// <summary>A place in that part, as results name places.</summary>
    public string At { get; }

    /// <summary>One sentence for a person.</summary>
    public abstract string Message { get; }

    /// <summary>A source without resistance is shorted by conductors without resistance: the current would have no limit.</summary>
    /// <param name="Place">A place on the shorted path.</param>
    /// <param name="Booster">The booster.</param>
    public sealed record IdealShort(string Place, string Booster) : CircuitProblem(Place)
    {
        /// <inheritdoc/>
        public override string Message => $"Booster '{Booster}' is shorted without any resistance at '{At}'.";
    }

    /// <summary>A conductance of the network is zero, infinite or no number, so that its equations have no single answer.</summary>
    /// <param name="Place">The place whose equation failed.</param>
    public sealed record NotDefinite(string Place) : CircuitProblem(Place)
    {
        /// <inheritdoc/>
        public override string Message => $"The circuit has no single solution at '{At}'.";
    }

    /// <summary>Loads of constant power take more than can reach them: the volts would collapse.</summary>
    /// <param name="Place">The load that has the fewest volts.</param>
    /// <param name="IsProved">Whether there is no operating point; else only none was found.</param>
    public sealed record NoOperatingPoint(string Place, bool IsProved) : CircuitProblem(Place)
    {
        /// <inheritdoc/>
        public override string Message => IsProved
            ? $"The loads of constant power take more than can reach '{At}': the volts collapse."
            : $"No operating point was found for the loads of constant power, one of them at '{At}'.";
    }

    /// <summary>Currents do not add up to zero closely enough at a place: the figures would not be trustworthy.</summary>
    /// <param name="Place">The worst place.</param>
    /// <param name="ResidualAmps">What is left over there.</param>
    /// <param name="LimitAmps">What was allowed.</param>
    public sealed record Inaccurate(string Place, double ResidualAmps, double LimitAmps) : CircuitProblem(Place)
    {
        /// <inheritdoc/>
        public override string Message => string.Create(
            System.Globalization.CultureInfo.InvariantCulture,
            $"Currents at '{At}' miss zero by {ResidualAmps:g3} A, more than the {LimitAmps:g3} A allowed.");
    }
}
