using System.Collections.Immutable;
using UnitsNet;
using WireUp.Layouts.Reference;

namespace WireUp.Layouts;

/// <summary>The whole railway as its layout file describes it: what is there, not what follows from it.</summary>
public sealed record Layout
{
    /// <summary>The railway's name.</summary>
    public required string Name { get; init; }

    /// <summary>Scale name from the reference table, for instance <c>HO</c>.</summary>
    public string Scale { get; init; } = "HO";

    /// <summary>How trains are controlled.</summary>
    public ControlSystem Control { get; init; } = ControlSystem.Command;

    /// <summary>Longest train, first to last metal wheel.</summary>
    public required Length LongestTrain { get; init; }

    /// <summary>Shortest pick-up wheel base in the stock list.</summary>
    public required Length ShortestPickup { get; init; }

    /// <summary>Voltage drop allowed under the design load.</summary>
    public Ratio MaxDrop { get; init; } = Ratio.FromPercent(5);

    /// <summary>Farthest any place of a rail may be from a feeder along trusted metal.</summary>
    public Length MaxFeederDistance { get; init; } = Length.FromMeters(1);

    /// <summary>What holds wherever nothing else is said.</summary>
    public LayoutDefaults Defaults { get; init; } = new();

    /// <summary>Every piece, in the order of the file.</summary>
    public ImmutableArray<Piece> Track { get; init; } = [];

    /// <summary>Every joint, in the order of the file.</summary>
    public ImmutableArray<Joint> Joints { get; init; } = [];

    /// <summary>What is wired.</summary>
    public Wiring Wiring { get; init; } = Wiring.None;

    /// <summary>What runs.</summary>
    public Stock Stock { get; init; } = Stock.None;

    /// <summary>Track that must be a district of its own.</summary>
    public ImmutableArray<DistrictWish> DistrictsWanted { get; init; } = [];

    /// <summary>What else is asked of the districts.</summary>
    public Wishes Wishes { get; init; } = Wishes.None;

    /// <summary>Pieces where no feeder may be soldered.</summary>
    public ImmutableArray<PieceId> NoFeeder { get; init; } = [];

    /// <summary>Pieces where no gap may be cut.</summary>
    public ImmutableArray<PieceId> NoGap { get; init; } = [];

    /// <summary>Pieces where trains stop.</summary>
    public ImmutableArray<PieceId> Stops { get; init; } = [];

    /// <summary>What the railway stands on.</summary>
    public Benchwork Benchwork { get; init; } = Benchwork.None;

    /// <summary>How often its parts fail.</summary>
    public FaultPriors FaultPriors { get; init; } = FaultPriors.Usual;

    /// <summary>In which units people are told lengths of this railway: those of its <c>lengths</c>, else of its <c>units</c>.</summary>
    public LengthStyle Lengths { get; init; } = LengthStyle.Metric;

    /// <summary>
    /// The sizes of wire to plan with where none is wired or on hand: those of its <c>wire-sizes</c>, else gauges where its file is in feet. Not
    /// touched by asking for other <see cref="Lengths"/>, so that the plan stays the same.
    /// </summary>
    public WireSystem WireSizes { get; init; } = WireSystem.Metric;

    /// <summary>How its papers are wanted.</summary>
    public Papers Papers { get; init; } = Papers.Usual;

    /// <summary>What the plan is drawn over, or null.</summary>
    public PlanPicture? Picture { get; init; }
}

/// <summary>How trains are controlled.</summary>
public enum ControlSystem
{
    /// <summary>Digital command control on two rails.</summary>
    Command,

    /// <summary>Direct current from cabs on two rails.</summary>
    Direct,

    /// <summary>Alternating current, centre rail against both running rails.</summary>
    ThreeRail,
}

/// <summary>What holds wherever a piece or joint says nothing else.</summary>
public sealed record LayoutDefaults
{
    /// <summary>The rail.</summary>
    public RailMaterial Rail { get; init; } = new(83, "nickel-silver", null);

    /// <summary>How rails are joined.</summary>
    public JointKind Joint { get; init; } = JointKind.Joiner;

    /// <summary>The frog of a turnout or crossing that names none.</summary>
    public FrogKind Frog { get; init; } = FrogKind.Insulated;

    /// <summary>Resistance of one rail through a joiner.</summary>
    public ElectricResistance Joiner { get; init; } = ElectricResistance.FromOhms(0.01);

    /// <summary>Resistance of one rail through a soldered joint.</summary>
    public ElectricResistance Soldered { get; init; } = ElectricResistance.FromOhms(0.0005);

    /// <summary>Resistance of each wire of a feeder where it taps the bus.</summary>
    public ElectricResistance Tap { get; init; } = ElectricResistance.FromOhms(0.002);

    /// <summary>Resistance of each blade, frog contact or switch contact that conducts.</summary>
    public ElectricResistance Contact { get; init; } = ElectricResistance.FromOhms(Constants.Get("contact-resistance").Value);

    /// <summary>Resistance of one wire through a connector, as between modules.</summary>
    public ElectricResistance Connector { get; init; } = ElectricResistance.FromOhms(Constants.Get("connector-resistance").Value);

    /// <summary>The wire from a contact to the frog it feeds, or null where it is too short to count.</summary>
    public WireLength? FrogWire { get; init; }

    /// <summary>Resistance of the coin that tests a breaker.</summary>
    public ElectricResistance Coin { get; init; } = ElectricResistance.FromOhms(0.05);

    /// <summary>Temperature of the conductors.</summary>
    public Temperature Temperature { get; init; } = Temperature.FromDegreesCelsius(20);
}

/// <summary>A length of one wire.</summary>
/// <param name="Length">How long it is.</param>
/// <param name="Wire">The wire.</param>
public sealed record WireLength(Length Length, Wire Wire);

/// <summary>A piece of track somebody wants to be a district of its own.</summary>
/// <param name="Name">The district's name.</param>
/// <param name="Pieces">The pieces that must be in it.</param>
public sealed record DistrictWish(string Name, ImmutableArray<PieceId> Pieces);
