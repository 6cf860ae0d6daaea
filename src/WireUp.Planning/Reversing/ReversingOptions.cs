using UnitsNet;

namespace WireUp.Planning.Reversing;

/// <summary>How reversing sections are planned. Every default is common practice, no published standard.</summary>
public sealed record ReversingOptions
{
    /// <summary>The defaults.</summary>
    public static readonly ReversingOptions Default = new();

    /// <summary>What a section must be longer than the longest train, as a share of it; at least 0. Default 10 %.</summary>
    public Ratio LengthMargin { get; init; } = Ratio.FromPercent(10);

    /// <summary>
    /// Nearest a gap may come to a turnout or crossing, so that no wheel base reaches from the gap into the frog and a short fed
    /// stub stays between; null for the longest pick-up wheel base that the layout knows of.
    /// </summary>
    public Length? FrogClearance { get; init; }

    /// <summary>
    /// Distance from the heel of a turnout to the clearance point, beyond which a train stands clear of the other leg. Gaps go there
    /// when the track is long enough; null to reckon it from frog number and gauge.
    /// </summary>
    public Length? ClearancePoint { get; init; }

    /// <summary>
    /// Shortest track of fixed polarity between two reversing sections: as long as the longest vehicle that conducts from end to end.
    /// Null for twice the longest pick-up wheel base that the layout knows of.
    /// </summary>
    public Length? Buffer { get; init; }

    /// <summary>A joiner at most this much farther along than the nearest good spot is used instead of a saw cut. Default 150 mm.</summary>
    public Length JointReach { get; init; } = Length.FromMillimeters(150);

    /// <summary>Nearest a saw cut may come to a joint, so that no short end of rail is left loose. Default 25 mm.</summary>
    public Length ShortestRailEnd { get; init; } = Length.FromMillimeters(25);

    /// <summary>Dead-end roads a section may hold before more count against it. Default 2: a tail and one road beside it.</summary>
    public int DeadEndRoads { get; init; } = 2;

    /// <summary>Whether sections may take in track that ordinary feeders are soldered to; those feeders must then be moved.</summary>
    public bool Rework { get; init; }

    /// <summary>
    /// Whether the next best choice without each section is searched for as well, so that a proposal can say what lost against it.
    /// Default false: it costs one more search a section.
    /// </summary>
    public bool NextBest { get; init; }

    /// <summary>How many sets of turnouts are tried around each other before the search keeps to the larger shapes. Default 1500.</summary>
    public int SetBudget { get; init; } = 1500;

    /// <summary>Work the exact choice may do for one group of conflicts, in the solver's deterministic seconds. Default 5.</summary>
    public double SolverBudget { get; init; } = 5;
}
