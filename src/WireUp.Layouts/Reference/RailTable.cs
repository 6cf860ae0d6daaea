using System.Collections.Frozen;
using System.Collections.Immutable;
using UnitsNet;

namespace WireUp.Layouts.Reference;

/// <summary>
/// Resistance of rail by code and alloy. What somebody measured and published comes first (shared/rail-measured.csv); any other
/// pair is an estimate: resistivity of the alloy over a section of 0.62 × height × foot, the foot from NMRA RP-15.1 and
/// interpolated between its rows. Measurements of one nominal rail differ by a third: measure yours where it matters.
/// </summary>
public static class RailTable
{
    private const double MillimetresPerInch = 25.4;

    private static readonly FrozenDictionary<string, ReferenceRow> AlloyRows =
        ReferenceTable.Read("alloys.csv").ToFrozenDictionary(row => row.Text("alloy"));

    private static readonly FrozenDictionary<(int Code, string Alloy), ReferenceRow> Measured = ReferenceTable.Read("rail-measured.csv")
        .Where(row => row.Text("use") == "default")
        .ToFrozenDictionary(row => ((int)row.Number("code"), row.Text("alloy")));

    private static readonly ImmutableArray<(double HeightInches, double FootInches)> Profiles =
        [.. ReferenceTable.Read("rail-codes.csv").Select(row => (row.Number("height-inches"), row.Number("foot-inches"))).Order()];

    private static readonly FrozenDictionary<string, int> JoinersByAlloy =
        ReferenceTable.Read("trusted-joiners.csv").ToFrozenDictionary(row => row.Text("alloy"), row => (int)row.Number("joiners"));

    /// <summary>Most slide-on joiners in a row that the rail of any alloy is trusted to carry current through.</summary>
    public static int MostTrustedJoiners { get; } = JoinersByAlloy.Values.Max();

    /// <summary>Names of the alloys, in the order of the table.</summary>
    public static ImmutableArray<string> Alloys { get; } = [.. ReferenceTable.Read("alloys.csv").Select(row => row.Text("alloy"))];

    /// <summary>Resistance of one rail, Ω/m. A resistance the person measured holds as it is, at any temperature.</summary>
    /// <param name="rail">The rail.</param>
    /// <param name="temperature">Temperature of the rail.</param>
    /// <exception cref="KeyNotFoundException">The alloy is none of <see cref="Alloys"/>.</exception>
    public static double OhmsPerMetre(RailMaterial rail, Temperature temperature) =>
        rail.OhmsPerMetre ?? OhmsPerMetreAt20(rail).Value * (1 + (Alloy(rail).Number("temperature-coefficient") * (temperature.DegreesCelsius - 20)));

    /// <summary>How many rails in series current meets along the track, there and back: two, or with three rails the centre one and both running rails side by side.</summary>
    /// <param name="control">How the railway is controlled.</param>
    public static double RailsInLoop(ControlSystem control) => control == ControlSystem.ThreeRail ? 1.5 : 2;

    /// <summary>Resistance of one rail at 20 °C in Ω/m with its source, and whether it is published or derived.</summary>
    /// <exception cref="KeyNotFoundException">The alloy is none of <see cref="Alloys"/>.</exception>
    public static ReferenceValue OhmsPerMetreAt20(RailMaterial rail)
    {
        string name = $"code {rail.Code} {rail.Alloy}";
        if (rail.OhmsPerMetre is { } measured)
        {
            return new("rail as measured", measured, "ohm/m", Standing.Published, "the layout file");
        }

        if (Measured.TryGetValue((rail.Code, rail.Alloy), out ReferenceRow? row))
        {
            return new(name, row.Number("milliohms-per-metre") / 1000, "ohm/m", row.Standing, row.Source);
        }

        double resistivity = ResistivityOhmMetres(rail.Alloy);
        return new(name, resistivity / (SectionSquareMillimetres(rail.Code) * 1e-6), "ohm/m", Standing.Derived,
            $"resistivity over 0.62 x height x foot; {Alloy(rail).Source}");
    }

    /// <summary>Estimated section of one rail, mm²: fill factor × height × foot.</summary>
    /// <param name="code">Height in thousandths of an inch, above 0.</param>
    public static double SectionSquareMillimetres(int code)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(code);
        double height = code / 1000.0;
        return Constants.Get("rail-fill-factor").Value * height * FootInches(height) * MillimetresPerInch * MillimetresPerInch;
    }

    /// <summary>Length of the outline that height and foot enclose, mm: a rail's recesses are shielded from fast currents.</summary>
    /// <param name="code">Height in thousandths of an inch, above 0.</param>
    public static double GirthMillimetres(int code)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(code);
        double height = code / 1000.0;
        return 2 * (height + FootInches(height)) * MillimetresPerInch;
    }

    /// <summary>Resistivity of an alloy at 20 °C, Ω·m.</summary>
    /// <exception cref="KeyNotFoundException">The alloy is none of <see cref="Alloys"/>.</exception>
    public static double ResistivityOhmMetres(string alloy) => Alloy(alloy).Number("nano-ohm-metres") * 1e-9;

    /// <summary>How many slide-on joiners in a row a rail is trusted to carry current through. Common practice, no published source.</summary>
    /// <param name="rail">The rail.</param>
    /// <exception cref="KeyNotFoundException">The alloy is none of <see cref="Alloys"/>.</exception>
    public static int TrustedJoiners(RailMaterial rail) => JoinersByAlloy[rail.Alloy];

    /// <summary>Interpolates between the rows of the standard; beyond them the foot keeps the last row's proportion.</summary>
    private static double FootInches(double heightInches)
    {
        int next = 0;
        while (next < Profiles.Length && Profiles[next].HeightInches < heightInches)
        {
            next++;
        }

        if (next == 0 || next == Profiles.Length)
        {
            (double height, double foot) = Profiles[Math.Min(next, Profiles.Length - 1)];
            return foot * heightInches / height;
        }

        (double low, double lowFoot) = Profiles[next - 1];
        (double high, double highFoot) = Profiles[next];
        return lowFoot + ((highFoot - lowFoot) * (heightInches - low) / (high - low));
    }

    private static ReferenceRow Alloy(RailMaterial rail) => Alloy(rail.Alloy);

    private static ReferenceRow Alloy(string alloy) =>
        AlloyRows.TryGetValue(alloy, out ReferenceRow? row) ? row : throw new KeyNotFoundException($"no alloy '{alloy}'");
}
