using System.Collections.Immutable;
using UnitsNet;
using WireUp.Layouts;

namespace WireUp.Circuits;

/// <summary>What the solved circuit says of a layout: one verdict a district, the worst place of every section.</summary>
public sealed record PowerReport
{
    /// <summary>One entry for every district that feeds rails, in the order of the layout.</summary>
    public ImmutableArray<DistrictPower> Districts { get; init; } = [];

    /// <summary>One entry for every fed section, in the order of the layout.</summary>
    public ImmutableArray<SectionPower> Sections { get; init; } = [];

    /// <summary>
    /// Volts under the given loads at every load, then at every probe, in the order asked; 0 at a place without a feed. Places in
    /// a part with a problem, or where the loads have no operating point, are left out.
    /// </summary>
    public ImmutableArray<PlaceVolts> Places { get; init; } = [];

    /// <summary>Middles of the lengths of track that no source reaches through both rails, turnouts standing as asked.</summary>
    public ImmutableArray<TrackPlace> Unfed { get; init; } = [];

    /// <summary>The load the districts were solved for.</summary>
    public DesignLoad? DesignLoad { get; init; }

    /// <summary>Parts of the circuit that have no figures above, each with the reason; empty when all is well.</summary>
    public ImmutableArray<CircuitProblem> Problems { get; init; } = [];
}

/// <summary>One district's verdict.</summary>
/// <param name="District">Its name.</param>
/// <param name="Booster">The booster that feeds it.</param>
/// <param name="SourceVolts">Open-circuit voltage of that booster.</param>
/// <param name="DesignLoad">Current the district must carry at the same time.</param>
/// <param name="Trip">Current at which its breaker trips, see <see cref="Layouts.District.OpensFrom"/>.</param>
/// <param name="LowestVolts">The place with the lowest voltage under the design load.</param>
/// <param name="LowestFault">The place with the lowest fault current.</param>
public sealed record DistrictPower(
    string District,
    string Booster,
    ElectricPotential SourceVolts,
    ElectricCurrent DesignLoad,
    ElectricCurrent Trip,
    PlacePower LowestVolts,
    PlacePower LowestFault)
{
    /// <summary>Whether a coin laid at the worst place makes the breaker trip: fault current at least the trip current.</summary>
    public bool CoinTestPasses => LowestFault.FaultCurrent >= Trip;

    /// <summary>Fault current at the worst place over trip current; 2 or more is good practice, below 1 the breaker never trips.</summary>
    public double FaultOverTrip => LowestFault.FaultCurrent / Trip;
}

/// <summary>What a train finds at one place.</summary>
/// <param name="At">The place.</param>
/// <param name="Volts">Volts between the rails under the design load; below 0 where the load is more than can ever be drawn there.</param>
/// <param name="Drop">Drop from the open-circuit voltage, as a part of it.</param>
/// <param name="FaultCurrent">Current through a coin laid across the rails here, everything else switched off; 1 MA where nothing limits it.</param>
/// <param name="Loop">Resistance of the way out and back, from the source's terminals, without source resistance and coin.</param>
public sealed record PlacePower(
    TrackPlace At,
    ElectricPotential Volts,
    Ratio Drop,
    ElectricCurrent FaultCurrent,
    ElectricResistance Loop);

/// <summary>The worst place of one section.</summary>
/// <param name="Section">The section.</param>
/// <param name="District">The district that feeds that place.</param>
/// <param name="LargestLoop">Place of the largest loop resistance, in closed form.</param>
public sealed record SectionPower(PieceId Section, string District, PlacePower LargestLoop);

/// <summary>Volts at one asked place under the given loads.</summary>
/// <param name="At">The place.</param>
/// <param name="Volts">Volts, first conductor against second (left against right, seen from a to b).</param>
public sealed record PlaceVolts(TrackPlace At, ElectricPotential Volts)
{
    /// <summary>What the load there draws, 0 on track without a feed; null where the place is a probe.</summary>
    public ElectricCurrent? Drawn { get; init; }
}
