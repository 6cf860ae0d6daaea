using System.Collections.Immutable;
using WireUp.Circuits;
using WireUp.Circuits.Places;
using WireUp.Layouts;
using WireUp.Rails;
using WireUp.Rails.Routes;

namespace WireUp.Web.Desk;

/// <summary>What a train finds along a route.</summary>
/// <param name="Power">Volts and fault current along it, or null.</param>
/// <param name="Trouble">Why there is none; null where there is.</param>
internal sealed record RouteAnswer(RoutePower? Power, string? Trouble)
{
    /// <summary>Solves the layout with the turnouts as they stand, those on the route set for it.</summary>
    public static RouteAnswer Of(Layout layout, string typed, ImmutableSortedDictionary<PieceId, string> positions)
    {
        WordsRead<ImmutableArray<RouteStop>> read = LayoutWords.Route(layout, typed);
        if (read.Value is not { } stops) return new(null, read.Trouble);
        RailGraph graph = RailGraph.Build(layout);
        switch (new RouteFinder(graph.Index, positions).Find(stops))
        {
            case RouteSearch.Found { Route: var route }:
                if (route.Settings.GroupBy(setting => setting.Owner).FirstOrDefault(owner => owner.Distinct().Skip(1).Any()) is { } twice)
                {
                    return new(null, $"The route passes {twice.Key} set to {string.Join(" and then ", twice.Select(setting => setting.Position))}: take it in two parts.");
                }

                ImmutableSortedDictionary<PieceId, string> set = positions.SetItems(route.Settings.Select(setting => KeyValuePair.Create(setting.Owner, setting.Position)));
                return new(RoutePower.Of(PowerMap.Of(graph, PowerOptions.Default with { Turnouts = set }), route), null);
            case RouteSearch.NoWay none:
                return new(null, none.Message);
            default:
                throw new InvalidOperationException("not an outcome of looking for a route");
        }
    }
}
