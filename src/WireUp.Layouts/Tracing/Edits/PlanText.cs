using System.Collections.Immutable;
using System.Globalization;
using WireUp.Layouts.Quantities;
using WireUp.Layouts.Reading;
using WireUp.Layouts.Text;

namespace WireUp.Layouts.Tracing.Edits;

/// <summary>Writes points and lengths as bare numbers in the unit of a file, to about a hundredth of a millimetre.</summary>
internal sealed class PlanText
{
    // Decimals of a number in each unit of the format, so that the last one is about 0.01 mm.
    private static readonly (string Unit, int Decimals)[] Decimals = [("mm", 2), ("cm", 3), ("m", 5), ("in", 4), ("ft", 5)];

    private readonly double _unitMetres;
    private readonly int _decimals;

    private PlanText(string unit) => (_unitMetres, _decimals) = (QuantityKinds.Length.Units[unit].ToBase(1), Decimals.First(row => row.Unit == unit).Decimals);

    /// <summary>For the unit that a text names, or millimetres.</summary>
    public static PlanText Of(TextTree tree) => new((tree.Value("units") as TextNode.Scalar)?.Value is { } unit && Words.Units.Contains(unit) ? unit : "mm");

    /// <summary>A list of points.</summary>
    public string Path(ImmutableArray<PlanPoint> points) => $"[{string.Join(", ", points.Select(point => $"[{Number(point.X)}, {Number(point.Y)}]"))}]";

    /// <summary>A length.</summary>
    public string Number(double metres) => (Math.Round(metres / _unitMetres, _decimals) + 0.0).ToString("0.#####", CultureInfo.InvariantCulture);
}
