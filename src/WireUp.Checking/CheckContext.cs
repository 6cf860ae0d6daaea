using System.Collections.Immutable;
using WireUp.Circuits;
using WireUp.Circuits.Devices;
using WireUp.Layouts;
using WireUp.Layouts.Reference;
using WireUp.Rails;

namespace WireUp.Checking;

/// <summary>Everything that rules may look at.</summary>
/// <param name="Graph">The rails.</param>
/// <param name="Polarity">What they say about polarity.</param>
/// <param name="Track">The track as trains drive it.</param>
/// <param name="Power">The solved circuit, the worst of every set of positions that was solved.</param>
internal sealed record CheckContext(RailGraph Graph, PolarityReport Polarity, TrackGraph Track, PowerReport Power)
{
    private OrderedDictionary<string, double>? _metresOfDistricts;
    private ProtectionReport? _protection;
    private MeetingLoads? _meeting;

    /// <summary>Track that has current only in positions that were not solved, because there are too many sets of them.</summary>
    internal ImmutableArray<SwitchedTrack> Unsolved { get; init; } = [];

    /// <summary>Track that has current only in positions that join wires of opposite polarity.</summary>
    internal ImmutableArray<SwitchedTrack> FedByShort { get; init; } = [];

    /// <summary>Whether no positions were found that do not join wires of opposite polarity.</summary>
    internal bool HasNoClearPositions { get; init; }

    /// <summary>Metres of track that each district powers, in order of first section.</summary>
    internal OrderedDictionary<string, double> MetresOfDistricts => _metresOfDistricts ??= SumMetres();

    /// <summary>What can feed each rail, and in which positions.</summary>
    internal FeedWays Ways { get; init; } = FeedWays.Of(Graph);

    /// <summary>What several cabs or controllers do to each other.</summary>
    internal CabReport Cabs { get; init; } = CabReport.None;

    internal Layout Layout => Graph.Layout;

    internal LayoutIndex Index => Graph.Index;

    internal Wiring Wiring => Layout.Wiring;

    /// <summary>What is usual in the layout's scale.</summary>
    internal ScaleRow Scale => ScaleTable.FindOrUsual(Layout.Scale);

    /// <summary>
    /// Whether some wires are shorted however the turnouts stand, so that volts and fault currents would say nothing about the railway as it is meant.
    /// </summary>
    internal bool IsShorted => !Wiring.Feeders.IsEmpty && (HasStandingFault || HasNoClearPositions);

    /// <summary>What breakers, wires and signal do in time; nothing where a standing short makes it meaningless.</summary>
    internal ProtectionReport Protection => _protection ??= Circuits.Devices.Protection.Of(Layout, Power with { Districts = Districts });

    /// <summary>What trains draw that meet in a district or behind a booster; null where none meet, or where a standing short makes it meaningless.</summary>
    internal MeetingLoads? Meeting => IsShorted ? null : _meeting ??= MeetingLoads.Of(Layout, Power);

    /// <summary>The districts with their figures; none where a standing short makes them meaningless (see WU4010).</summary>
    internal ImmutableArray<DistrictPower> Districts => IsShorted ? [] : Power.Districts;

    private bool HasStandingFault =>
        Polarity.Standing.Any(meeting => meeting.Kind == MeetingKind.Short)
        || Polarity.Exchanged.Any(feeders => feeders.Short is not null)
        || Polarity.OddLoops.Any(loop => !loop.Path.IsEmpty)
        || !Polarity.FrogFaults.IsEmpty
        || Polarity.FoilFaults.Any(fault => fault.Positions.IsEmpty);

    private OrderedDictionary<string, double> SumMetres()
    {
        OrderedDictionary<string, double> metres = [];
        foreach (SectionPower section in Power.Sections)
        {
            metres[section.District] = metres.GetValueOrDefault(section.District) + (Index.Piece(section.Section).PlacesMetres ?? 0);
        }

        return metres;
    }
}
