using System.Collections.Immutable;
using WireUp.Layouts;

namespace WireUp.Rails;

/// <summary>What the rails and the wiring of a layout say about polarity.</summary>
/// <remarks>
/// Each fault is looked for with the ones listed before it mended (foil and loops cut, frogs gapped, exchanged feeders lifted), so that one
/// fault is not reported under several names. Mending only takes connections away: what is found is true of the layout as it is.
/// </remarks>
public sealed record PolarityReport
{
    private readonly RailNets _nets;

    internal PolarityReport(RailGraph graph, ParityGraph parity, RailNets nets) => (Graph, Parity, _nets) = (graph, parity, nets);

    /// <summary>The rails that were looked at.</summary>
    public RailGraph Graph { get; }

    /// <summary>The signed graph of the same layout.</summary>
    public ParityGraph Parity { get; }

    /// <summary>Copper foil of hand-laid turnouts that is not cut where it must be.</summary>
    public ImmutableArray<FoilFault> FoilFaults { get; init; } = [];

    /// <summary>Closed walks that bring rail A to rail B, wired or not; no two share a joint.</summary>
    public ImmutableArray<OddLoop> OddLoops { get; init; } = [];

    /// <summary>Feeders that carry A and B the other way round than others on the same track.</summary>
    public ImmutableArray<ExchangedFeeders> Exchanged { get; init; } = [];

    /// <summary>Live frogs that always join the two rails of some track, whoever feeds it.</summary>
    public ImmutableArray<FrogFault> FrogFaults { get; init; } = [];

    /// <summary>Wires that must not meet and always do.</summary>
    public ImmutableArray<RailMeeting> Standing { get; init; } = [];

    /// <summary>Wires that must not meet and do in some positions of the turnouts.</summary>
    public ImmutableArray<RailMeeting> ByPosition { get; init; } = [];

    /// <summary>Gaps that a wheel cannot cross without making a short.</summary>
    public ImmutableArray<GapMeeting> AcrossGaps { get; init; } = [];

    /// <summary>What a wheel cannot cross without making a short when turnouts and bridges stand so that it can be there.</summary>
    public ImmutableArray<WheelMeeting> UnderWheels { get; init; } = [];

    /// <summary>Gaps one behind the other that something longer than a wheel cannot cross without making a short; shortest first.</summary>
    public ImmutableArray<LongBridge> UnderVehicles { get; init; } = [];

    /// <summary>Lengths of rail without any feed, with fed rail at both ends, no longer than the longest train; shortest first.</summary>
    public ImmutableArray<DeadLength> DeadLengths { get; init; } = [];

    /// <summary>Track whose two rails carry the same leg always, so that nothing can run on it.</summary>
    public ImmutableArray<OneSidedTrack> OneSided { get; init; } = [];

    /// <summary>Rails that no feeder reaches in any position.</summary>
    public ImmutableArray<UnfedRail> Unfed { get; init; } = [];

    /// <summary>Track that has current in some positions only, as the leg of a live turnout has.</summary>
    public ImmutableArray<SwitchedTrack> Switched { get; init; } = [];

    /// <summary>Turnouts at which the search for shorts by position was given up; empty when it was exhaustive.</summary>
    public ImmutableArray<PieceId> Undecided { get; init; } = [];

    /// <summary>How many steps over contacts were made to tell cases apart: 0 where no shortest way needed a piece in two positions.</summary>
    public long SearchSteps { get; init; }

    /// <summary>Sections of which it was not found out in which positions they have current; they are not in <see cref="Switched"/>.</summary>
    public ImmutableArray<PieceId> UndecidedFeed { get; init; } = [];

    /// <summary>Pieces at whose gaps or blades the search for shorts under wheels and vehicles was given up; empty when it was exhaustive.</summary>
    public ImmutableArray<PieceId> UndecidedUnderTrains { get; init; } = [];

    /// <summary>
    /// The legs that always reach a node, one entry for each district and leg; wires of exchanged feeders are left out, and so
    /// is what passes through foil that should be cut, an odd loop or a faulty frog.
    /// </summary>
    public ImmutableArray<FeederLeg> LegsAt(int node) => _nets.Legs[_nets.NetOf[node]];
}

/// <summary>A closed walk that exchanges the rails.</summary>
/// <param name="Walk">The walk, or null where only the path through the rails is known.</param>
/// <param name="Path">A shortest way through the rails from one rail of a place to the other; empty where gaps or live frogs keep them apart.</param>
public sealed record OddLoop(OddWalk? Walk, ImmutableArray<RailPoint> Path);

/// <summary>Feeders that contradict each other on track whose rails agree.</summary>
/// <param name="Feeders">The fewer ones, in the order of the layout: the likely mistake.</param>
/// <param name="Against">The feeders they contradict.</param>
public sealed record ExchangedFeeders(ImmutableArray<string> Feeders, ImmutableArray<string> Against)
{
    /// <summary>Whether both sides have the same number, so that it is open which of them is the mistake.</summary>
    public bool IsTie => Feeders.Length == Against.Length;

    /// <summary>The short that this makes, or null where gaps keep the wires apart.</summary>
    public RailMeeting? Short { get; init; }
}

/// <summary>A live frog that joins the two rails of the same track for good.</summary>
/// <param name="Turnout">The turnout.</param>
/// <param name="Path">A way through the rails from one rail of a place, over the frog, to the other rail.</param>
public sealed record FrogFault(PieceId Turnout, ImmutableArray<RailPoint> Path);

/// <summary>Why two wires must not meet.</summary>
public enum MeetingKind
{
    /// <summary>They are of opposite polarity.</summary>
    Short,

    /// <summary>One of them is swapped by a reversing device and the other is not swapped with it.</summary>
    Reversing,

    /// <summary>They have the same polarity but belong to two districts, which are to be kept apart.</summary>
    Joined,
}

/// <summary>Two wires that must not meet, and how they do.</summary>
/// <param name="Kind">Why they must not.</param>
/// <param name="From">One wire.</param>
/// <param name="To">The other wire.</param>
/// <param name="Path">The rail points passed from one to the other, a shortest way.</param>
public sealed record RailMeeting(MeetingKind Kind, FeederLeg From, FeederLeg To, ImmutableArray<RailPoint> Path)
{
    /// <summary>The positions it takes, the fewest that will do; empty for a meeting that stands always.</summary>
    public ImmutableSortedDictionary<PieceId, string> Turnouts { get; init; } = ImmutableSortedDictionary<PieceId, string>.Empty;

    /// <summary>The live turnouts whose frogs the path passes, in the order passed.</summary>
    public ImmutableArray<PieceId> Frogs =>
    [
        .. Path.OfType<RailPoint.Inside>()
            .Where(point => point.Name.StartsWith(TrackworkTable.Frog, StringComparison.Ordinal))
            .Select(point => point.Owner).Distinct(),
    ];
}

/// <summary>A length of one rail that no feeder reaches.</summary>
/// <param name="Section">The section.</param>
/// <param name="Side">The rail, seen from end a to end b.</param>
/// <param name="FromMetres">Where it begins, from end a.</param>
/// <param name="ToMetres">Where it ends, from end a.</param>
public sealed record UnfedRail(PieceId Section, RailSide Side, double FromMetres, double ToMetres);

/// <summary>A length of track that has current in some positions only.</summary>
/// <param name="Section">The section.</param>
/// <param name="FromMetres">Where it begins, from end a.</param>
/// <param name="ToMetres">Where it ends, from end a.</param>
/// <param name="LiveWhen">Positions in which it has current, the fewest that will do; empty when there are none, or none was found within the limits of the search.</param>
public sealed record SwitchedTrack(
    PieceId Section, double FromMetres, double ToMetres, ImmutableSortedDictionary<PieceId, string> LiveWhen)
{
    /// <summary>
    /// Positions in which it has none, the fewest that will do; null where some contact or other brings current in all positions that
    /// were tried, as to a bridge with a split ring; empty where it was not found out within the limit of the search.
    /// </summary>
    public ImmutableSortedDictionary<PieceId, string>? DeadWhen { get; init; }
}

/// <summary>A gap that a wheel cannot cross without making a short.</summary>
/// <param name="Near">One face.</param>
/// <param name="Far">The other face.</param>
/// <param name="Kind"><see cref="MeetingKind.Short"/>, or <see cref="MeetingKind.Reversing"/> between two devices that both swap.</param>
/// <param name="From">A wire that feeds the one face.</param>
/// <param name="To">A wire that feeds the other.</param>
public sealed record GapMeeting(RailPoint Near, RailPoint Far, MeetingKind Kind, FeederLeg From, FeederLeg To);

/// <summary>A length of track with the same leg on both rails.</summary>
/// <param name="Section">The section.</param>
/// <param name="FromMetres">Where it begins, from end a.</param>
/// <param name="ToMetres">Where it ends, from end a.</param>
/// <param name="Leg">A wire that brings that leg.</param>
public sealed record OneSidedTrack(PieceId Section, double FromMetres, double ToMetres, FeederLeg Leg);
