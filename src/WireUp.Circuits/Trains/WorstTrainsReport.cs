using System.Collections.Immutable;
using UnitsNet;
using WireUp.Layouts;

namespace WireUp.Circuits.Trains;

/// <summary>The worst places of trains.</summary>
/// <param name="Trains">The trains that were placed, those that draw most first.</param>
/// <param name="Spacing">Least distance between two of them.</param>
/// <param name="Districts">
/// For each district, in the order of the layout, the placement of all the trains, wherever on the railway, that is worst for one of them
/// in that district. Districts in which no train has room are left out.
/// </param>
public sealed record WorstTrainsReport(ImmutableArray<TrainDemand> Trains, Length Spacing, ImmutableArray<DistrictTrains> Districts)
{
    /// <summary>The worst of all districts; null where no train has room anywhere.</summary>
    public DistrictTrains? Worst => Districts.MinBy(district => district.LowestVolts.Volts);
}

/// <summary>The placement that is worst for a district.</summary>
/// <param name="District">Its name.</param>
/// <param name="SourceVolts">Open-circuit voltage of its booster.</param>
/// <param name="Trains">Where the trains stand and what they get; the first is the one with the lowest volts. Trains without room are left out.</param>
/// <param name="LeastVolts">What no placement goes below.</param>
public sealed record DistrictTrains(
    string District, ElectricPotential SourceVolts, ImmutableArray<StandingTrainPower> Trains, ElectricPotential LeastVolts)
{
    /// <summary>Volts at the worst-off train: this placement shows that so little can be reached.</summary>
    public ElectricPotential LowestVolts => Trains[0].Volts;

    /// <summary>The drop that this placement causes: the worst drop is at least that.</summary>
    public ElectricPotential AtLeast => SourceVolts - LowestVolts;

    /// <summary>The drop that no placement exceeds.</summary>
    public ElectricPotential AtMost => SourceVolts - LeastVolts;

    /// <summary>Whether the search was cut short, so that <see cref="LeastVolts"/> lies lower than it need.</summary>
    public bool IsSearchCut { get; init; }
}

/// <summary>A train that stands somewhere.</summary>
/// <param name="Train">Its name.</param>
/// <param name="At">Where its engine draws.</param>
/// <param name="Facing">The end of the section that it faces.</param>
/// <param name="District">The district it draws from.</param>
/// <param name="Volts">Volts at its engine, all trains drawing.</param>
public sealed record StandingTrainPower(string Train, TrackPlace At, string Facing, string District, ElectricPotential Volts);
