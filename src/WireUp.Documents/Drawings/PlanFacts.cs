using System.Collections.Immutable;
using WireUp.Circuits;
using WireUp.Circuits.Places;
using WireUp.Documents.Geometry;
using WireUp.Documents.Phases;
using WireUp.Layouts;
using WireUp.Planning;
using WireUp.Planning.Buses;

namespace WireUp.Documents.Drawings;

/// <summary>What every drawing of one layout has in common, worked out once.</summary>
internal sealed record PlanFacts
{
    private PlanFacts(Layout layout, PlanGeometry geometry, DrawingOptions options)
    {
        (Layout, Geometry) = (layout, geometry);
        Index = new(layout);
        Phases = RailPhases.Of(layout);
        Letters = new(layout);
        Gaps = GapNames.Of(layout, options.Proposals);
        Places = new(layout, geometry);
        Routes = BusRoutes.Of(layout, geometry, options.Before);
        Strips = [.. TerminalStrips.Added(Wiring.None, layout.Wiring).Select(strip => (strip.District, strip.Point))];
        if (options.Figure is { } figure) Figure = (new(figure, layout), PowerMap.Of(Phases.Graph, PowerOptions.Default));
    }

    /// <summary>The layout.</summary>
    public Layout Layout { get; private init; }

    /// <summary>Look-ups into it.</summary>
    public LayoutIndex Index { get; }

    /// <summary>Where everything lies.</summary>
    public PlanGeometry Geometry { get; }

    /// <summary>Rail A and rail B.</summary>
    public RailPhases Phases { get; private init; }

    /// <summary>Letters of the districts.</summary>
    public DistrictLetters Letters { get; }

    /// <summary>What stands beside each gap and who asks for it, in the order of the layout.</summary>
    public ImmutableArray<(string Label, Proposal? Proposal)> Gaps { get; private init; }

    /// <summary>Finds places by their words.</summary>
    public PlaceFinder Places { get; }

    /// <summary>Where the bus runs.</summary>
    public ImmutableArray<BusRoute> Routes { get; private init; }

    /// <summary>Where terminal strips stand.</summary>
    public ImmutableArray<(string District, string Point)> Strips { get; private init; }

    /// <summary>The figure that is shown along the track, or null where the districts are.</summary>
    public (FigureScale Scale, PowerMap Map)? Figure { get; }

    /// <summary>The same with rails lettered otherwise, as when turnouts are thrown.</summary>
    public PlanFacts With(RailPhases phases) => this with { Phases = phases };

    /// <summary>The same of one district alone: its feeders, bus and booster, and some of the gaps; rails that it does not feed look as if nothing did.</summary>
    /// <param name="district">The district.</param>
    /// <param name="gaps">The gaps to show.</param>
    /// <param name="takesTurns">Whether all rails that it can feed are shown, not only those that are its own before others: a second cab, a programming track.</param>
    public PlanFacts Only(District district, IReadOnlySet<Gap> gaps, bool takesTurns)
    {
        Wiring wiring = Layout.Wiring with
        {
            Boosters = [.. Layout.Wiring.Boosters.Where(booster => booster.Name == district.Booster)],
            Buses = [.. Layout.Wiring.Buses.Where(bus => bus.District == district.Name)],
            Feeders = [.. Layout.Wiring.Feeders.Where(feeder => feeder.District == district.Name)],
        };
        return this with
        {
            Layout = Layout with { Wiring = wiring with { Gaps = [.. wiring.Gaps.Where(gaps.Contains)] } },
            Phases = takesTurns ? RailPhases.Of(Layout with { Wiring = wiring }) : DistrictRails.Of(Layout, Phases, district.Name),
            Gaps = [.. Gaps.Where((_, i) => gaps.Contains(wiring.Gaps[i]))],
            Routes = [.. Routes.Where(route => route.District == district.Name)],
            Strips = [.. Strips.Where(strip => strip.District == district.Name)],
        };
    }

    /// <summary>Works out the facts of a layout.</summary>
    public static PlanFacts Of(Layout layout, DrawingOptions options, CancellationToken cancellation) =>
        new(layout, options.Geometry ?? PlanGeometry.Of(layout, cancellation), options);
}
