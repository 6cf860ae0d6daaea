using System.Globalization;

namespace WireUp.Layouts.Quantities;

/// <summary>Writes lengths so that reading them back gives the same number.</summary>
internal static class LengthText
{
    /// <summary>In millimetres below one metre, else in metres; in metres anyway where millimetres would not read back the same.</summary>
    public static string Write(UnitsNet.Length length)
    {
        double metres = Metres(length);
        if (Math.Abs(metres) < 1 && Millimetres(metres) is { } text)
        {
            return text;
        }

        return string.Create(CultureInfo.InvariantCulture, $"{metres:R} m");
    }

    /// <summary>The length in metres, by way of the unit it is in where that is millimetres, so that 250 mm is 0.25 m and no other number.</summary>
    public static double Metres(UnitsNet.Length length) =>
        length.Unit == UnitsNet.Units.LengthUnit.Millimeter ? (double)length.Value / 1000 : length.Meters;

    private static string? Millimetres(double metres)
    {
        double millimetres = Math.Round(metres * 1000, 9);
        return millimetres / 1000 == metres ? string.Create(CultureInfo.InvariantCulture, $"{millimetres:0.#########} mm") : null;
    }
}
