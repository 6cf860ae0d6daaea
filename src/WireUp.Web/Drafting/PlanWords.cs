using System.Globalization;
using WireUp.Layouts;

namespace WireUp.Web.Drafting;

/// <summary>Lengths and points of the plan as the forms show them and read them back.</summary>
internal static class PlanWords
{
    /// <summary>In millimetres below one metre, else in metres.</summary>
    public static string Length(double metres) => Math.Abs(metres) < 1 ? $"{Number(metres * 1000, 1)} mm" : $"{Number(metres, 4)} m";

    /// <summary>In millimetres, without unit.</summary>
    public static string Point(PlanPoint at) => $"{Number(at.X * 1000, 2)}, {Number(at.Y * 1000, 2)}";

    public static string Degrees(double degrees) => $"{Number(degrees, 3)} deg";

    private static string Number(double value, int digits) => (Math.Round(value, digits) + 0.0).ToString(CultureInfo.InvariantCulture);
}
