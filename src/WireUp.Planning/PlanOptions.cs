using System.Collections.Immutable;
using UnitsNet;
using WireUp.Layouts;

namespace WireUp.Planning;

/// <summary>What a person can settle before planning. Lengths and shares are common practice, no published source.</summary>
public sealed record PlanOptions
{
    /// <summary>The defaults.</summary>
    public static readonly PlanOptions Default = new();

    /// <summary>
    /// Which sizes of wire to choose from. Null: as those on hand, or those of the bus or feeders that are there, and as the layout says where there are none.
    /// </summary>
    public WireSystem? WireSystem { get; init; }

    /// <summary>
    /// The sizes of bus wire on hand, with or without prices; empty for the usual ones. Where all have a price the bus is made as cheap as can
    /// be, else of as little copper.
    /// </summary>
    public ImmutableArray<WireOnHand> WireOnHand { get; init; } = [];

    /// <summary>The settings at which the breakers on hand trip; empty for the usual ones.</summary>
    public ImmutableArray<ElectricCurrent> Breakers { get; init; } = [];

    /// <summary>Length of a feeder from rail to bus, above 0. Default 250 mm.</summary>
    public Length FeederLength { get; init; } = Length.FromMillimeters(250);

    /// <summary>What is added to bus runs for bends, drops and stripping, as a part of the way along the track. Default 10 %.</summary>
    public Ratio BusSlack { get; init; } = Ratio.FromPercent(10);

    /// <summary>Bus wire from a booster's terminals to the line of the track, 0 or more. Default 300 mm.</summary>
    public Length BoosterLead { get; init; } = Length.FromMillimeters(300);

    /// <summary>
    /// Whether the plan may change what is built: feeders that lie in a reversing section or in a district that is asked for are taken out, those
    /// that are the wrong way round exchanged. Each change is a proposal with its price. Default false: nothing that is built is touched.
    /// </summary>
    public bool Rework { get; init; }

    /// <summary>
    /// Whether proposals also tell of alternatives that take a search of their own to find: the next best reversing sections. Default
    /// false; what was weighed anyhow is told always.
    /// </summary>
    public bool SearchAlternatives { get; init; }

    /// <summary>
    /// Whether after any one failed joiner or any one failed feeder every rail must still be joined to a feeder, by metal that always
    /// conducts, at whatever distance. Default false.
    /// </summary>
    public bool Robust { get; init; }
}

/// <summary>A size of wire that somebody has or can buy.</summary>
/// <param name="Wire">The size.</param>
/// <param name="PricePerMetre">What a metre of one wire costs, in whatever money; above 0, or null where nothing is said.</param>
public sealed record WireOnHand(Wire Wire, double? PricePerMetre = null);

/// <summary>How far a plan has come.</summary>
/// <param name="Stage">What is being worked on, in a few words.</param>
/// <param name="Percent">How much of the whole is done, 0 to 100.</param>
public readonly record struct PlanProgress(string Stage, int Percent);
