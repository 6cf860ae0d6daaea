using System.Collections.Immutable;
using UnitsNet;
using WireUp.Circuits.Network.WhatIfs;
using WireUp.Circuits.Tests.Support;
using WireUp.Layouts;

namespace WireUp.Circuits.Tests.Exact;

/// <summary>
/// A line of 4 m with a feeder at each end, taken away by pencil and paper. Each rail has r = 0.05 Ω/m, each leg of a feeder 0.02 Ω, booster and
/// breaker together 0.15 Ω.
/// </summary>
public sealed class FeederRemovalTests
{
    private const double Rails = 2 * 4 * 0.05, Feeder = 2 * 0.02, Source = 0.15;

    private static readonly ElectricCurrent Engine = ElectricCurrent.FromAmperes(1);

    [Fact]
    public void With_the_far_feeder_gone_a_train_sees_both_rails_and_with_both_gone_nothing()
    {
        Layout layout = Line();
        FeederRemovals removals = new(layout, Engine, layout.Wiring.Feeders);
        double both = Source + (Feeder * (Feeder + Rails) / (Feeder + Feeder + Rails)), far = Source + Feeder + Rails, near = Source + Feeder;
        Assert.True(removals.IsFed(0));
        Assert.Equal(0, removals.Breaking(1, [1, 0], both - 1e-9));
        Assert.Equal(1, removals.Breaking(1, [1, 0], both + 1e-9));
        Assert.Equal(1, removals.Breaking(1, [1], far - 1e-9));
        Assert.Null(removals.Breaking(1, [1], far + 1e-9));
        Assert.Equal(2, removals.Breaking(1, [1, 0], far + 1e-9));
        Assert.Equal(2, removals.Breaking(0, [1, 0], near + 1e-9));
        Assert.Equal(1, removals.Breaking(0, [1, 0], near - 1e-9));
        Assert.Equal(1, removals.Breaking(0, [0], far - 1e-9));
        Assert.Null(removals.Breaking(0, [], both + 1e-9));
        Assert.Equal([both, both], OhmsAt(layout, 1), Same);
        Assert.Equal([near, far], OhmsAt(Without(layout, 1), 1), Same);
        Assert.Equal([far, near], OhmsAt(Without(layout, 0), 1), Same);
        Assert.Equal([double.PositiveInfinity, double.PositiveInfinity], OhmsAt(Without(layout, 0, 1), 1));
    }

    [Fact]
    public void What_the_train_does_not_draw_is_spread_over_the_line_and_loses_half_in_its_rails()
    {
        // 1.5 A: one for the train, half an ampere over the line. At the far end that loses 0.5 A in source and feeder and half of it in the rails.
        Layout layout = Line();
        double far = Source + Feeder + Rails + (0.5 * (Source + Feeder + (Rails / 2))), near = Source + Feeder + (0.5 * (Source + Feeder));
        Assert.Equal([near, far], OhmsAt(Without(layout, 1), 1.5), Same);
        FeederRemovals removals = new(layout, ElectricCurrent.FromAmperes(1.5), layout.Wiring.Feeders);
        Assert.Equal(1, removals.Breaking(1, [1], far - 1e-9));
        Assert.Null(removals.Breaking(1, [1], far + 1e-9));
        Assert.Equal(1, removals.Breaking(0, [1], near - 1e-9));
        Assert.Null(removals.Breaking(0, [1], near + 1e-9));
    }

    [Fact]
    public void Track_that_no_feeder_reaches_has_no_feed_from_the_start()
    {
        Layout layout = Line();
        Feeder first = layout.Wiring.Feeders[0];
        FeederRemovals removals = new(layout, Engine, [first, first with { At = new(new("siding"), 1) }]);
        Assert.Equal([true, false], [removals.IsFed(0), removals.IsFed(1)]);
    }

    private static bool Same(double one, double other) => Math.Abs(one - other) < 1e-9;

    private static Layout Line() => new PlanBuilder().Defaults(defaults => defaults with { Tap = ElectricResistance.FromOhms(0.02) })
        .Section("line", 4).Section("siding", 2).Booster("main").District("east", "main")
        .Feeder("f1", "line", 0, "east", "main", metres: 0).Feeder("f2", "line", 4, "east", "main", metres: 0)
        .Runs(Rings.Engines(1, 1, 0, 1)).Build();

    private static Layout Without(Layout layout, params int[] removed) =>
        layout with { Wiring = layout.Wiring with { Feeders = [.. layout.Wiring.Feeders.Where((_, i) => !removed.Contains(i))] } };

    /// <summary>At the places of both feeders of the line.</summary>
    private static ImmutableArray<double> OhmsAt(Layout layout, double amps) =>
        FeederRemovals.OhmsAt(layout, "east", ElectricCurrent.FromAmperes(amps), Line().Wiring.Feeders);
}
