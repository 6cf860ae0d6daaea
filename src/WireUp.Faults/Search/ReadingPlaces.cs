using WireUp.Layouts;

namespace WireUp.Faults.Search;

/// <summary>Places that readings name.</summary>
internal static class ReadingPlaces
{
    /// <summary>Every place along a section or bridge that a set of readings needs as a station.</summary>
    internal static IEnumerable<TrackPlace> Of(ReadingSet set) => set.Readings.SelectMany(Of);

    /// <summary>The middle of every section and bridge.</summary>
    internal static IEnumerable<TrackPlace> Middles(Layout layout) => layout.Track
        .Where(piece => piece.PlacesMetres is > 0)
        .Select(piece => new TrackPlace(piece.Id, piece.PlacesMetres!.Value / 2));

    /// <summary>Whether a part is where somebody pressed: on the same piece, or at the same joint.</summary>
    internal static bool IsAt(FaultElement element, ReadingPlace place) => place switch
    {
        ReadingPlace.Along along => element.Piece == along.Place.Section,
        ReadingPlace.AtEnd at => element.Piece == at.End.Piece || element.End == at.End
            || element.Place.Contains(at.End.ToString(), StringComparison.Ordinal),
        ReadingPlace.AtBus bus => element.District == bus.District && element.BusPoint == bus.Point,
        ReadingPlace.AtBreaker breaker => element.Kind == FaultElementKind.Breaker && element.District == breaker.District,
        ReadingPlace.AtBooster booster => element.Kind == FaultElementKind.Booster
            && element.Place.EndsWith(" " + booster.Booster, StringComparison.Ordinal),
        _ => throw new InvalidOperationException($"not a place: {place}"),
    };

    private static IEnumerable<TrackPlace> Of(MeterReading reading) => reading switch
    {
        MeterReading.Volts volts => [.. Of(volts.At), .. Of(volts.Load)],
        MeterReading.VoltsAlong volts => [.. Of(volts.From), .. Of(volts.To), .. Of(volts.Load)],
        MeterReading.Ohms ohms => [.. Of(ohms.From), .. Of(ohms.To)],
        MeterReading.Continuity ohms => [.. Of(ohms.From), .. Of(ohms.To)],
        MeterReading.Amps amps => [.. Of(amps.In), .. Of(amps.Load)],
        MeterReading.Running running => Of(running.At),
        MeterReading.Pressed or MeterReading.Breaker => [],
        _ => throw new InvalidOperationException($"not a kind of reading: {reading}"),
    };

    private static IEnumerable<TrackPlace> Of(ReadingPlace place) => place is ReadingPlace.Along along ? [along.Place] : [];

    private static IEnumerable<TrackPlace> Of(ReadingPoint point) => point is ReadingPoint.AtPlace at ? [at.Place] : [];

    private static IEnumerable<TrackPlace> Of(ReadingLoad? load) => load is null ? [] : Of(load.At);
}
