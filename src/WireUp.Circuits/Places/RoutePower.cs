using System.Collections.Immutable;
using WireUp.Rails.Routes;

namespace WireUp.Circuits.Places;

/// <summary>What a train finds along a route, as closed forms.</summary>
/// <param name="Route">The route.</param>
/// <param name="Stretches">Its lengths of track in order, without holes from 0 to the route's length.</param>
public sealed record RoutePower(TrackRoute Route, ImmutableArray<RouteStretch> Stretches)
{
    /// <summary>The place with the lowest volts under the design load, in closed form; null where the whole route has no power.</summary>
    public PlacePower? LowestVolts => Fed.Select(track => track.LowestVolts).MinBy(place => place.Volts.Volts);

    /// <summary>The place with the lowest fault current, in closed form; null where the whole route has no power.</summary>
    public PlacePower? LowestFault => Fed.Select(track => track.LowestFault).MinBy(place => place.FaultCurrent.Amperes);

    private IEnumerable<FedStretch> Fed => Stretches.Select(stretch => stretch.Track).OfType<FedStretch>();

    /// <summary>Follows a route over a map of the same layout, solved for the positions that the route needs.</summary>
    public static RoutePower Of(PowerMap map, TrackRoute route)
    {
        ImmutableArray<RouteStretch>.Builder stretches = ImmutableArray.CreateBuilder<RouteStretch>();
        double driven = 0;
        for (int i = 0; i < route.Steps.Length; i++)
        {
            stretches.AddRange(Along(map, route.Steps[i], i, driven));
            driven += route.Steps[i].LengthMetres;
        }

        return new(route, stretches.ToImmutable());
    }

    private static IEnumerable<RouteStretch> Along(PowerMap map, RouteStep step, int number, double driven)
    {
        if (step is not { FromPlaceMetres: { } from, ToPlaceMetres: { } to })
        {
            return [new(number, driven, driven + step.LengthMetres, null, IsReversed: false)];
        }

        List<RouteStretch> found = [];
        double at = driven;
        foreach (FedStretch part in Parts(map, step, from, to))
        {
            double start = driven + Math.Abs((to >= from ? part.FromMetres : part.ToMetres) - from);
            AddUnfed(found, number, at, start);
            found.Add(new(number, start, at = start + part.LengthMetres, part, to < from));
        }

        AddUnfed(found, number, at, driven + step.LengthMetres);
        return found;
    }

    /// <summary>The fed parts of a step, in the order in which they are driven.</summary>
    private static IEnumerable<FedStretch> Parts(PowerMap map, RouteStep step, double from, double to)
    {
        (double low, double high) = (Math.Min(from, to), Math.Max(from, to));
        IEnumerable<FedStretch> parts = map.Of(step.Piece)
            .Where(track => Math.Min(track.ToMetres, high) > Math.Max(track.FromMetres, low))
            .Select(track => track.Part(Math.Max(track.FromMetres, low), Math.Min(track.ToMetres, high)));
        return to >= from ? parts : parts.Reverse();
    }

    private static void AddUnfed(List<RouteStretch> found, int step, double from, double to)
    {
        const double LeastMetres = 1e-9;
        if (to - from > LeastMetres)
        {
            found.Add(new(step, from, to, null, IsReversed: false));
        }
    }
}

/// <summary>A length of track on a route.</summary>
/// <param name="Step">Index of the route's step that it belongs to.</param>
/// <param name="FromMetres">Where it starts, metres from the start of the route.</param>
/// <param name="ToMetres">Where it ends.</param>
/// <param name="Track">Its figures; null without power and inside trackwork, whose rails have no places.</param>
/// <param name="IsReversed">Whether it is driven towards end a.</param>
public sealed record RouteStretch(int Step, double FromMetres, double ToMetres, FedStretch? Track, bool IsReversed)
{
    /// <summary>The place of its section at a distance along the route, metres from end a; null without <see cref="Track"/>.</summary>
    /// <param name="routeMetres">Metres from the start of the route, from <see cref="FromMetres"/> to <see cref="ToMetres"/>.</param>
    public double? PlaceMetres(double routeMetres) => Track is null ? null
        : IsReversed ? Track.ToMetres - (routeMetres - FromMetres) : Track.FromMetres + (routeMetres - FromMetres);

    /// <summary>Where on the route a place of <see cref="Track"/> lies, metres from its start.</summary>
    /// <param name="metresFromA">Metres from end a of the section.</param>
    public double RouteMetres(double metresFromA) => Track is null ? FromMetres
        : FromMetres + (IsReversed ? Track.ToMetres - metresFromA : metresFromA - Track.FromMetres);
}
