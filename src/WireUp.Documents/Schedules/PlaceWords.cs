using System.Globalization;
using UnitsNet;
using WireUp.Layouts;

namespace WireUp.Documents;

/// <summary>Places, lengths and sizes in the words of the papers. Lengths under 10 m are told in millimetres, as they are measured.</summary>
internal static class PlaceWords
{
    /// <summary><c>loop@1250 mm</c>, measured from the section's end a.</summary>
    public static string Place(TrackPlace place) => $"{place.Section}@{Millimetres(place.MetresFromA)}";

    /// <summary><c>loop@1250 mm/left</c>.</summary>
    public static string Rail(TrackPlace place, RailSide side) => $"{Place(place)}/{RailSides.Word(side)}";

    /// <summary>A length as it is measured on the bench.</summary>
    public static string Millimetres(double metres) => string.Create(CultureInfo.InvariantCulture, $"{Math.Round(metres * 1000)} mm");

    /// <summary>A length in metres to the centimetre.</summary>
    public static string Metres(Length length) => length.Meters.ToString("0.00", CultureInfo.InvariantCulture);

    /// <summary>A wire's size with its sign: <c>2.5 mm²</c>, <c>12 AWG</c>.</summary>
    public static string Size(Wire wire) => wire switch
    {
        Wire.Metric metric => string.Create(CultureInfo.InvariantCulture, $"{metric.SquareMillimetres} mm²"),
        _ => wire.ToString()!,
    };
}
