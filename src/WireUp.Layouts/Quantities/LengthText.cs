namespace WireUp.Layouts.Quantities;

/// <summary>Writes lengths so that reading them back gives the same number.</summary>
internal static class LengthText
{
    /// <summary>In millimetres below one metre, else in metres.</summary>
    public static string Write(UnitsNet.Length length) => Write(Metres(length));

    /// <summary>In millimetres below one metre, else in metres.</summary>
    public static string Write(double metres) =>
        Math.Abs(metres) < 1 && Thousandths.Of(metres) is { } text ? $"{text} mm" : $"{Numbers.Exact(metres)} m";

    /// <summary>A bare number of millimetres where that reads back the same, else in metres with the unit.</summary>
    public static string WriteBare(double metres) => Thousandths.Of(metres) ?? $"{Numbers.Exact(metres)} m";

    /// <summary>The length in metres. By division where it is kept in millimetres, so that 1150 mm is 1.15 m and not its neighbour.</summary>
    public static double Metres(UnitsNet.Length length) =>
        length.Unit == UnitsNet.Units.LengthUnit.Millimeter ? (double)length.Value / 1000 : length.Meters;
}
