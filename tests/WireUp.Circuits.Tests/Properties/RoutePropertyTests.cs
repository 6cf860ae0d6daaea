using System.Collections.Immutable;
using UnitsNet;
using WireUp.Circuits.Places;
using WireUp.Circuits.Tests.Support;
using WireUp.Layouts;
using WireUp.Rails;
using WireUp.Rails.Routes;

namespace WireUp.Circuits.Tests.Properties;

/// <summary>What is said along a route, against the same circuits solved otherwise.</summary>
public sealed class RoutePropertyTests
{
    public static TheoryData<int> PlainSeeds => RandomPlans.PlainSeeds;

    [Theory]
    [MemberData(nameof(PlainSeeds))]
    public void Figures_along_a_route_are_those_of_a_station_put_exactly_there(int seed)
    {
        Layout layout = RandomPlans.Make(seed).Layout;
        foreach (TrackRoute route in Routes(layout).Take(3))
        {
            PowerOptions set = Routed.SetFor(route);
            foreach (RouteStretch stretch in RoutePower.Of(Routed.Map(layout, [], set), route).Stretches.Where(stretch => stretch.Track is not null))
            {
                double metres = stretch.PlaceMetres(stretch.FromMetres + (0.37 * (stretch.ToMetres - stretch.FromMetres)))!.Value;
                TrackPlace place = new(stretch.Track!.Section, metres);
                FedStretch there = Routed.Map(layout, [place], set).Find(place)!;
                Same(there.At(metres), stretch.Track.At(metres));
                Close(there.OpenVolts(metres).Volts, stretch.Track.OpenVolts(metres).Volts);
                Close(Drawn(layout, set, place, 0).Volts - Drawn(layout, set, place, 1).Volts,
                    (there.OpenVolts(metres).Volts / stretch.Track.At(metres).FaultCurrent.Amperes) - layout.Defaults.Coin.Ohms);
            }
        }
    }

    [Theory]
    [MemberData(nameof(PlainSeeds))]
    public void A_route_driven_the_other_way_round_finds_the_same(int seed)
    {
        Layout layout = RandomPlans.Make(seed).Layout;
        foreach (TrackRoute route in Routes(layout).Take(3))
        {
            ImmutableArray<RouteStop> back = [.. route.Steps.Reverse().Select(step => new RouteStop.Through(step.Piece))];
            TrackRoute reversed = Assert.IsType<RouteSearch.Found>(new RouteFinder(new(layout), PowerOptions.Default.Turnouts).Find(back)).Route;
            Close(route.LengthMetres, reversed.LengthMetres);
            PowerMap map = Routed.Map(layout, [], Routed.SetFor(route));
            RoutePower there = RoutePower.Of(map, route), here = RoutePower.Of(map, reversed);
            Close(there.LowestVolts?.Volts.Volts ?? 0, here.LowestVolts?.Volts.Volts ?? 0);
            Close(there.LowestFault?.FaultCurrent.Amperes ?? 0, here.LowestFault?.FaultCurrent.Amperes ?? 0);
            Assert.Equal(there.Stretches.Length, here.Stretches.Length);
        }
    }

    [Theory]
    [MemberData(nameof(PlainSeeds))]
    public void The_worst_of_a_route_is_no_better_than_any_place_of_it_and_is_one_of_them(int seed)
    {
        Layout layout = RandomPlans.Make(seed).Layout;
        foreach (TrackRoute route in Routes(layout).Take(3))
        {
            RoutePower power = RoutePower.Of(Routed.Map(layout, [], Routed.SetFor(route)), route);
            PlacePower[] sampled = [.. from stretch in power.Stretches
                                       where stretch.Track is not null
                                       from i in Enumerable.Range(0, 101)
                                       select stretch.Track!.At(stretch.Track.FromMetres + (stretch.Track.LengthMetres * i / 100))];
            if (sampled.Length > 0)
            {
                Assert.True(power.LowestVolts!.Volts.Volts <= sampled.Min(place => place.Volts.Volts) + 1e-12);
                Assert.True(power.LowestFault!.FaultCurrent.Amperes <= sampled.Min(place => place.FaultCurrent.Amperes) + 1e-12);
                Assert.Equal(sampled.Min(place => place.Volts.Volts), power.LowestVolts.Volts.Volts, 1e-2);
            }
        }
    }

    [Fact]
    public void Routes_are_found_on_random_layouts() =>
        Assert.True(RandomPlans.PlainSeeds.Sum(row => Routes(RandomPlans.Make(row.Data).Layout).Count()) > 100);

    /// <summary>Every way between two sections.</summary>
    private static IEnumerable<TrackRoute> Routes(Layout layout)
    {
        RouteFinder finder = new(new(layout), PowerOptions.Default.Turnouts);
        Piece.Section[] sections = [.. layout.Track.OfType<Piece.Section>()];
        return from first in sections
               from last in sections
               where first != last
               let search = finder.Find([new RouteStop.Through(first.Id), new RouteStop.Through(last.Id)])
               where search is RouteSearch.Found found && found.Route.Steps.Select(step => step.Piece).Distinct().Count() == found.Route.Steps.Length
               select ((RouteSearch.Found)search).Route;
    }

    private static ElectricPotential Drawn(Layout layout, PowerOptions set, TrackPlace place, double amps)
    {
        PowerOptions options = set with { Loads = [new(place, ElectricCurrent.FromAmperes(amps))] };
        double volts = PowerAnalysis.Solve(RailGraph.Build(layout, [place]), options, TestContext.Current.CancellationToken).Places[0].Volts.Volts;
        return ElectricPotential.FromVolts(Math.Abs(volts));
    }

    private static void Same(PlacePower expected, PlacePower actual)
    {
        Close(expected.Volts.Volts, actual.Volts.Volts);
        Close(expected.FaultCurrent.Amperes, actual.FaultCurrent.Amperes);
        Close(expected.Loop.Ohms, actual.Loop.Ohms);
    }

    private static void Close(double expected, double actual) => Assert.Equal(expected, actual, 1e-9 * (1 + Math.Abs(expected)));
}
