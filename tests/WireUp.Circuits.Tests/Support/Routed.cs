using System.Collections.Immutable;
using WireUp.Circuits.Places;
using WireUp.Layouts;
using WireUp.Rails;
using WireUp.Rails.Routes;

namespace WireUp.Circuits.Tests.Support;

/// <summary>Routes and maps of small layouts in one line.</summary>
internal static class Routed
{
    internal static RouteSearch Search(Layout layout, string route) =>
        new RouteFinder(new LayoutIndex(layout), PowerOptions.Default.Turnouts).Find(LayoutWords.Route(layout, route).Value!.Value);

    internal static TrackRoute Route(Layout layout, string route) => Assert.IsType<RouteSearch.Found>(Search(layout, route)).Route;

    internal static RoutePower Power(Layout layout, string route)
    {
        TrackRoute found = Route(layout, route);
        return RoutePower.Of(Map(layout, [], SetFor(found)), found);
    }

    internal static PowerMap Map(Layout layout, IEnumerable<TrackPlace> stations, PowerOptions? options = null) =>
        PowerMap.Of(RailGraph.Build(layout, stations), options ?? PowerOptions.Default);

    internal static PowerOptions SetFor(TrackRoute route) =>
        new() { Turnouts = route.Settings.GroupBy(setting => setting.Owner).ToImmutableSortedDictionary(owner => owner.Key, owner => owner.First().Position) };
}
