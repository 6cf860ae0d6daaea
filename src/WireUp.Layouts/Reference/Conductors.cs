using System.Collections.Frozen;
using System.Collections.Immutable;
using System.Globalization;
using UnitsNet;

namespace WireUp.Layouts.Reference;

/// <summary>
/// Copper wires: resistance, section, current. Gauges follow the diameter law of ASTM B258, d = 0.127 mm · 92^((36 − n)/39),
/// with the resistivity of annealed copper, 1/58 Ω mm²/m at 20 °C; stranded ones 2 % more, since strands lie round each other. Metric
/// sizes take the largest resistance that IEC 60228 allows for a class 5 (flexible) conductor, which is 13 to 16 % above that of the bare
/// section; solid ones that of class 1, 4 to 8 % above it.
/// </summary>
/// <remarks>Source: ASTM B258; IEC 60028; IEC 60228 (shared/conductors.csv); NFPA 70 chapter 9 table 8 for strands. Skin effect is left out: below 4 % at 9 kHz up to 14 AWG.</remarks>
public static class Conductors
{
    private const double ReferenceTemperatureCelsius = 20;

    private static readonly FrozenDictionary<double, double> Class5OhmsPerKilometre = ReferenceTable.Read("conductors.csv")
        .ToFrozenDictionary(row => row.Number("square-millimetres"), row => row.Number("class-5-ohms-per-kilometre"));

    private static readonly FrozenDictionary<double, double> Class1OhmsPerKilometre = ReferenceTable.Read("conductors.csv")
        .Where(row => row.Text("class-2-ohms-per-kilometre").Length > 0)
        .ToFrozenDictionary(row => row.Number("square-millimetres"), row => row.Number("class-2-ohms-per-kilometre"));

    private static readonly ImmutableArray<(Wire Wire, string Use)> OnHand =
        [.. ReferenceTable.Read("gauges-on-hand.csv").Select(row => (ParseWire(row.Text("wire")), row.Text("use")))];

    /// <summary>Usual sizes, American ones first, each from the thickest to the thinnest. Common practice, no published source.</summary>
    public static ImmutableArray<Wire> GaugesOnHand { get; } = [.. OnHand.Select(row => row.Wire)];

    /// <summary>Those of <see cref="GaugesOnHand"/> that are used for a bus.</summary>
    public static ImmutableArray<Wire> BusGauges { get; } = [.. OnHand.Where(row => row.Use == "bus").Select(row => row.Wire)];

    /// <summary>Resistance of one wire of the pair, Ω/m.</summary>
    /// <param name="wire">The wire.</param>
    /// <param name="temperature">Temperature of the copper; the law is linear and meant for −40 to 100 °C.</param>
    public static double OhmsPerMetre(Wire wire, Temperature temperature) => OhmsPerMetreAt20(wire)
        * (1 + (Constants.CopperTemperatureCoefficient.Value * (temperature.DegreesCelsius - ReferenceTemperatureCelsius)));

    /// <summary>Section of the copper, mm²; of a metric size the nominal one.</summary>
    public static double AreaSquareMillimetres(Wire wire) => wire switch
    {
        Wire.Awg awg => Math.PI / 4 * Math.Pow(DiameterMillimetres(awg), 2),
        Wire.Metric metric => metric.SquareMillimetres,
        _ => throw new ArgumentOutOfRangeException(nameof(wire), wire, "not a wire"),
    };

    /// <summary>Diameter of a solid wire of that gauge, mm.</summary>
    public static double DiameterMillimetres(Wire.Awg wire) => Constants.Get("awg-36-diameter").Value
        * Math.Pow(Constants.Get("awg-diameter-ratio").Value, (36 - wire.Gauge) / Constants.Get("awg-steps").Value);

    /// <summary>Continuous current of a wire lying among others, A: its section at 6 A/mm². Common practice, no published source.</summary>
    public static double AmpacityAmps(Wire wire) => AreaSquareMillimetres(wire) * Constants.BundledCurrentDensity.Value;

    private static double OhmsPerMetreAt20(Wire wire)
    {
        double bare = 1 / Constants.CopperConductivity.Value / AreaSquareMillimetres(wire);
        return wire switch
        {
            Wire.Metric metric => Listed(metric).TryGetValue(metric.SquareMillimetres, out double ohmsPerKilometre)
                ? ohmsPerKilometre / 1000
                : bare * Constants.Get("metric-other-size-factor").Value,
            Wire.Awg { Stranded: true } => bare * Constants.Get("stranded-awg-factor").Value,
            _ => bare,
        };
    }

    private static FrozenDictionary<double, double> Listed(Wire.Metric wire) => wire.Solid ? Class1OhmsPerKilometre : Class5OhmsPerKilometre;

    private static Wire ParseWire(string text)
    {
        string[] parts = text.Split(' ');
        return parts[1] == "AWG"
            ? new Wire.Awg(int.Parse(parts[0], CultureInfo.InvariantCulture))
            : new Wire.Metric(double.Parse(parts[0], CultureInfo.InvariantCulture));
    }
}
