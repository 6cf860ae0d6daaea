using WireUp.Circuits.Places;
using WireUp.Circuits.Tests.Support;
using WireUp.Layouts;

namespace WireUp.Circuits.Tests.Exact;

/// <summary>Routes so simple that what a train finds along them can be written down. Each rail has r = 0.05 Ω/m; source 0.15 Ω, coin 0.05 Ω.</summary>
public sealed class RouteTests
{
    private const double RailOhmsPerMetre = 0.05;

    [Theory]
    [InlineData("line", 0, 1)]
    [InlineData("line@4 m > line@0", 4, -1)]
    [InlineData("line@1 m > line@3 m", 1, 1)]
    public void Loop_and_fault_current_follow_a_line_fed_at_its_beginning(string route, double start, int direction)
    {
        // At x from the feed: loop 2·r·x, fault current 15/(0.15 + 2·r·x + 0.05).
        Layout layout = new PlanBuilder().BareFeeds().Section("line", 4).Booster("main").District("east", "main")
            .Feeder("f1", "line", 0, "east", "main", metres: 0).Build();
        RoutePower power = Routed.Power(layout, route);
        RouteStretch stretch = Assert.Single(power.Stretches);
        for (int i = 0; i <= 8; i++)
        {
            double driven = stretch.ToMetres * i / 8, x = start + (direction * driven);
            PlacePower place = stretch.Track!.At(stretch.PlaceMetres(driven)!.Value);
            Close(x, place.At.MetresFromA);
            Close(driven, stretch.RouteMetres(x));
            Close(2 * RailOhmsPerMetre * x, place.Loop.Ohms);
            Close(15 / (0.2 + (2 * RailOhmsPerMetre * x)), place.FaultCurrent.Amperes);
        }

        Close(Math.Max(start, start + (direction * stretch.ToMetres)), power.LowestFault!.At.MetresFromA);
    }

    [Fact]
    public void A_ring_fed_once_is_worst_opposite_its_feeder()
    {
        // Both ways round in parallel: at x of D the loop is 2·r·x·(D − x)/D.
        Layout layout = new PlanBuilder().BareFeeds().Section("ring", 6).Join("ring.b", "ring.a", ohms: 0)
            .Booster("main").District("east", "main").Feeder("f1", "ring", 1, "east", "main", metres: 0).Build();
        RoutePower power = Routed.Power(layout, "ring");
        Assert.Equal(6, power.Route.LengthMetres);
        foreach (RouteStretch stretch in power.Stretches)
        {
            for (int i = 0; i <= 6; i++)
            {
                double driven = stretch.FromMetres + ((stretch.ToMetres - stretch.FromMetres) * i / 6), x = Math.Abs(driven - 1);
                Close(2 * RailOhmsPerMetre * x * (6 - x) / 6, stretch.Track!.At(stretch.PlaceMetres(driven)!.Value).Loop.Ohms);
            }
        }

        Close(4, power.LowestFault!.At.MetresFromA);
        Close(15 / (0.2 + (RailOhmsPerMetre * 6 / 2)), power.LowestFault.FaultCurrent.Amperes);
    }

    [Fact]
    public void Turnouts_are_set_for_the_route_and_track_without_power_is_told()
    {
        Layout layout = Junction().Build();
        RoutePower main = Routed.Power(layout, "stem > east"), branch = Routed.Power(layout, "stem > west");
        Assert.Equal([new Setting(new("T"), "through")], main.Route.Settings);
        Assert.Equal([new Setting(new("T"), "diverging")], branch.Route.Settings);
        Assert.Equal(4, branch.Stretches.Length);
        Assert.All(branch.Stretches[..1], stretch => Assert.NotNull(stretch.Track));
        Assert.All(branch.Stretches[1..2], stretch => Assert.Null(stretch.Track));
        Assert.Equal((2, 3.5), (branch.Stretches[2].FromMetres, branch.Stretches[2].ToMetres));
        Assert.Null(branch.Stretches[3].Track);
        Assert.Equal((3.5, 4), (branch.Stretches[3].FromMetres, branch.Stretches[3].ToMetres));
    }

    [Fact]
    public void A_place_is_told_with_what_lies_beside_it()
    {
        Layout layout = Junction().Build();
        PowerMap map = Routed.Map(layout, []);
        PlaceReport place = PlaceReport.Of(map, new(layout), new(new("west"), 1));
        Assert.Equal(
            [new(-1, NeighbourKind.Joint, "T.diverging"), new(0.5, NeighbourKind.Gap, "west@1.5 m")], place.Neighbours);
        Close(15, place.OpenVolts!.Value.Volts);
        Close(15 / (0.2 + (2 * RailOhmsPerMetre * 3)), place.Power!.FaultCurrent.Amperes);
        Close(place.Power.FaultCurrent.Amperes / 4, place.FaultOverTrip!.Value);
        Assert.NotNull(PlaceReport.Of(map, new(layout), new(new("west"), 1.5)).Power);
        PlaceReport dead = PlaceReport.Of(map, new(layout), new(new("west"), 1.75));
        Assert.Null(dead.Power);
        Assert.Equal([new(-0.25, NeighbourKind.Gap, "west@1.5 m"), new(0.25, NeighbourKind.EndOfTrack, "west.b")], dead.Neighbours);
    }

    /// <summary>Stem fed at its far end, a turnout without resistance, two branches of two metres; the last half metre of the west one cut off.</summary>
    private static PlanBuilder Junction() => new PlanBuilder().BareFeeds()
        .Section("stem", 2).Section("east", 2).Section("west", 2).Turnout("T")
        .Join("stem.b", "T.points", ohms: 0).Join("T.through", "east.a", ohms: 0).Join("T.diverging", "west.a", ohms: 0)
        .Cut("west", 1.5)
        .Booster("main").District("one", "main").Feeder("f1", "stem", 0, "one", "main", metres: 0);

    private static void Close(double expected, double actual) => Assert.Equal(expected, actual, 1e-9 * (1 + Math.Abs(expected)));
}
