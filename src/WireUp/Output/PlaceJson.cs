using System.Text.Json.Nodes;
using WireUp.Circuits;
using WireUp.Circuits.Places;
using WireUp.Layouts;

namespace WireUp.Output;

/// <summary>Places and routes as JSON.</summary>
internal static class PlaceJson
{
    /// <summary>Adds <c>at</c> and <c>routes</c> to what <c>power --json</c> prints, where they were asked for.</summary>
    public static JsonObject Add(JsonObject power, IReadOnlyCollection<PlaceReport> places, IReadOnlyCollection<RoutePower> routes)
    {
        if (places.Count > 0)
        {
            power["at"] = ResultJson.Array(places, OnePlace);
        }

        if (routes.Count > 0)
        {
            power["routes"] = ResultJson.Array(routes, OneRoute);
        }

        return power;
    }

    private static JsonObject OnePlace(PlaceReport report)
    {
        JsonObject node = report is { Power: { } power, Track: { } track, OpenVolts: { } open }
            ? Figures(track, power, open.Volts)
            : new JsonObject { ["at"] = report.At.ToString(), ["district"] = null };
        node["neighbours"] = ResultJson.Array(report.Neighbours, neighbour => new JsonObject
        {
            ["metres"] = ResultJson.Number(neighbour.Metres),
            ["kind"] = PlaceText.Word(neighbour.Kind),
            ["name"] = neighbour.Name,
        });
        return node;
    }

    private static JsonObject OneRoute(RoutePower route)
    {
        JsonObject turnouts = [];
        foreach (IGrouping<PieceId, Setting> owner in route.Route.Settings.GroupBy(setting => setting.Owner))
        {
            turnouts[owner.Key.Name] = string.Join(", ", owner.Select(setting => setting.Position));
        }

        return new()
        {
            ["pieces"] = ResultJson.Array(route.Route.Steps, step => JsonValue.Create(step.Piece.Name)),
            ["length-metres"] = ResultJson.Number(route.Route.LengthMetres),
            ["turnouts"] = turnouts,
            ["worst"] = route.LowestVolts is { } volts ? ResultJson.OnePlace(volts) : null,
            ["worst-fault"] = route.LowestFault is { } fault ? ResultJson.OnePlace(fault) : null,
            ["points"] = ResultJson.Array(route.Stretches.SelectMany(Points), point => point),
        };
    }

    /// <summary>Both ends of a length of track and what is extreme between: with them the curves are known.</summary>
    private static IEnumerable<JsonObject> Points(RouteStretch stretch)
    {
        if (stretch.Track is not { } track)
        {
            return [];
        }

        IEnumerable<PlacePower> places =
            [track.At(track.FromMetres), track.LowestVolts, track.LowestFault, track.LargestLoop, track.At(track.ToMetres)];
        return places.DistinctBy(place => place.At)
            .OrderBy(place => stretch.RouteMetres(place.At.MetresFromA))
            .Select(place =>
            {
                JsonObject node = Figures(track, place, track.OpenVolts(place.At.MetresFromA).Volts);
                node.Insert(0, "metres", ResultJson.Number(stretch.RouteMetres(place.At.MetresFromA)));
                return node;
            });
    }

    private static JsonObject Figures(FedStretch track, PlacePower power, double openVolts)
    {
        JsonObject node = ResultJson.OnePlace(power);
        node["open-volts"] = ResultJson.Number(openVolts);
        node["district"] = track.District;
        node["trip-amps"] = ResultJson.Number(track.Trip.Amperes);
        node["fault-over-trip"] = ResultJson.Number(power.FaultCurrent / track.Trip);
        return node;
    }
}
