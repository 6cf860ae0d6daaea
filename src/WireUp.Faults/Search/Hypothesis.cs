using WireUp.Faults.Parts;
using WireUp.Layouts;

namespace WireUp.Faults.Search;

/// <summary>One part in one faulty state.</summary>
/// <param name="Part">The part.</param>
/// <param name="State">The state.</param>
/// <param name="LogOdds">Logarithm of the odds that it is in that state, before anything was read.</param>
/// <param name="Least">Lower end of the range of its resistance, ohm (of a weak booster, of the part of its volts that is missing), or null where the state has none.</param>
/// <param name="Most">Upper end; the logarithm is equally likely everywhere between.</param>
internal sealed record Hypothesis(Part Part, FaultState State, double LogOdds, double? Least, double? Most)
{
    /// <summary>Whether a value comes with it.</summary>
    internal bool HasValue => Least is not null;

    /// <summary>Whether conductors meet that must be apart: its value is what lies between them.</summary>
    internal bool Joins => State is FaultState.Bridged or FaultState.Leaking or FaultState.Short;

    /// <summary>Whether breakers may trip of it: conductors meet, be it that one is led to the wrong place.</summary>
    internal bool Trips => Joins || State is FaultState.Swapped or FaultState.Reversed;
}
