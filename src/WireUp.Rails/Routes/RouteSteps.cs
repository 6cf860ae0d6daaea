using WireUp.Layouts;

namespace WireUp.Rails.Routes;

/// <summary>Turns what a search passed into steps of a route.</summary>
internal static class RouteSteps
{
    /// <summary>From one place of a section to another.</summary>
    internal static RouteStep Within(TrackPlace from, TrackPlace to) => new(from.Section, null, null, Math.Abs(to.MetresFromA - from.MetresFromA))
    {
        FromPlaceMetres = from.MetresFromA,
        ToPlaceMetres = to.MetresFromA,
    };

    /// <summary>From a place of a section out of one of its ends.</summary>
    internal static RouteStep Outward(TrackPlace from, Piece.Section section, TrackEnd leave)
    {
        double to = leave.Name == "a" ? 0 : section.Length.Meters;
        return Within(from, new(section.Id, to)) with { Leave = leave };
    }

    /// <summary>From one end of a section to a place of it.</summary>
    internal static RouteStep Inward(TrackEnd enter, Piece.Section section, TrackPlace to)
    {
        double from = enter.Name == "a" ? 0 : section.Length.Meters;
        return Within(new(section.Id, from), to) with { Enter = enter };
    }

    /// <summary>Through a piece. The first end of a way is where the places of the piece begin.</summary>
    internal static RouteStep Through(Piece piece, TrackEnd enter, TrackEnd leave, DrivableWay way)
    {
        RouteStep step = new(piece.Id, enter, leave, piece.WayMetres) { Position = way.Position };
        return piece.PlacesMetres is not { } metres ? step
            : way.From == enter.Name ? step with { FromPlaceMetres = 0, ToPlaceMetres = metres }
            : step with { FromPlaceMetres = metres, ToPlaceMetres = 0 };
    }
}
