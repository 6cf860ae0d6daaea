using System.Collections.Immutable;
using WireUp.Layouts;
using WireUp.Planning.Buses;
using WireUp.Planning.Devices;
using WireUp.Planning.Districts;
using WireUp.Planning.Reversing;

namespace WireUp.Planning;

/// <summary>A plan in the making: the layout as far as it is settled, and what each stage handed on.</summary>
/// <param name="Before">The layout as given.</param>
/// <param name="Layout">The layout with what is settled: gaps, contacts, devices.</param>
internal sealed record PlanDraft(Layout Before, Layout Layout)
{
    public ImmutableArray<Proposal> Proposals { get; init; } = [];

    public ImmutableArray<Objective> Objectives { get; init; } = [];

    public ImmutableArray<string> Remains { get; init; } = [];

    /// <summary>Set once reversing is settled.</summary>
    public ReversingPlan? Reversing { get; init; }

    /// <summary>Set once districts are settled.</summary>
    public DistrictPlan? Districts { get; init; }

    /// <summary>Set once districts are settled.</summary>
    public PowerSizing? Sizing { get; init; }

    /// <summary>New feeders, each with its district.</summary>
    public ImmutableArray<FeederSite> Feeders { get; init; } = [];

    /// <summary>The new bus of each district that gets new feeders.</summary>
    public ImmutableArray<PlannedBus> Buses { get; init; } = [];

    /// <summary>Districts with new bus that are out of their limits even with the thickest wire.</summary>
    public ImmutableArray<string> Failing { get; init; } = [];

    /// <summary>Set once wire is chosen.</summary>
    public GaugeChoice? Gauges { get; init; }

    /// <summary>The wiring with selectors for several cabs; set at the end where there are such.</summary>
    public Wiring? WithSelectors { get; init; }

    public PlanDraft Add(IEnumerable<Proposal> proposals) => this with { Proposals = [.. Proposals, .. proposals] };

    public PlanDraft Remain(IEnumerable<string> remains) => this with { Remains = [.. Remains, .. remains] };

    public PlanDraft Measure(IEnumerable<Objective> objectives) => this with { Objectives = [.. Objectives, .. objectives] };
}

/// <summary>A new feeder: its place, its district, and what it is there for besides the distance.</summary>
internal sealed record FeederSite(TrackPlace At, string District, string? Why);
