using UnitsNet;

namespace WireUp.Planning;

/// <summary>Which sizes of wire to choose from.</summary>
public enum WireSystem
{
    /// <summary>Cross-sections in mm² after IEC 60228.</summary>
    Metric,

    /// <summary>American wire gauge.</summary>
    Awg,
}

/// <summary>What a person can settle before planning. Lengths and shares are common practice, no published source.</summary>
public sealed record PlanOptions
{
    /// <summary>The defaults.</summary>
    public static readonly PlanOptions Default = new();

    /// <summary>
    /// Which sizes of wire to choose from. Null: those of the bus or feeders that are there, and metric where there are none.
    /// </summary>
    public WireSystem? WireSystem { get; init; }

    /// <summary>Length of a feeder from rail to bus, above 0. Default 250 mm.</summary>
    public Length FeederLength { get; init; } = Length.FromMillimeters(250);

    /// <summary>What is added to bus runs for bends, drops and stripping, as a part of the way along the track. Default 10 %.</summary>
    public Ratio BusSlack { get; init; } = Ratio.FromPercent(10);

    /// <summary>Bus wire from a booster's terminals to the line of the track, 0 or more. Default 300 mm.</summary>
    public Length BoosterLead { get; init; } = Length.FromMillimeters(300);

    /// <summary>
    /// Whether reversing sections may take in track that ordinary feeders are soldered to; the plan then says which feeders must
    /// be moved. Default false: nothing that is built is touched.
    /// </summary>
    public bool Rework { get; init; }

    /// <summary>
    /// Whether after any one failed joiner or any one failed feeder every rail must still be joined to a feeder, by metal that always
    /// conducts, at whatever distance. Default false.
    /// </summary>
    public bool Robust { get; init; }
}

/// <summary>How far a plan has come.</summary>
/// <param name="Stage">What is being worked on, in a few words.</param>
/// <param name="Percent">How much of the whole is done, 0 to 100.</param>
public readonly record struct PlanProgress(string Stage, int Percent);
