using System.Globalization;

namespace WireUp.Layouts.Reading;

/// <summary>The range a number must be in, in the base unit of its kind, with the words that say so.</summary>
internal sealed record Range(double Least, double Most, string Words)
{
    /// <summary>Whether the number is in range; never true for what is no number.</summary>
    public bool Holds(double value) => value >= Least && value <= Most;

    public static Range TrackLength { get; } = new(0.001, 10_000, "from 1 mm to 10 km");

    public static Range Fitting { get; } = new(0, 100, "from 0 to 100 m");

    public static Range Wheelbase { get; } = new(0.0001, 100, "from 0.1 mm to 100 m");

    public static Range WireLength { get; } = new(0.001, 10_000, "from 1 mm to 10 km");

    public static Range WireSpacing { get; } = new(0.0001, 10, "from 0.1 mm to 10 m");

    public static Range Seconds { get; } = new(0, 100_000, "from 0 to 100000 s");

    public static Range Farads { get; } = new(1e-12, 100, "from 1 pF to 100 F");

    public static Range Plan { get; } = new(-10_000, 10_000, "within 10 km of the origin");

    public static Range Volts { get; } = new(0.1, 60, "from 0.1 V to 60 V (low voltage only)");

    /// <summary>What a meter may show.</summary>
    public static Range ReadVolts { get; } = new(0, 60, "from 0 to 60 V, without sign (low voltage only)");

    public static Range Amps { get; } = new(0, 1000, "from 0 to 1000 A");

    public static Range Rating { get; } = new(0.001, 1000, "from 1 mA to 1000 A");

    public static Range Ohms { get; } = new(0, 1e6, "from 0 to 1000 kohm");

    public static Range LoadOhms { get; } = new(0.001, 1e6, "from 1 mohm to 1000 kohm");

    public static Range Watts { get; } = new(0.1, 100_000, "from 0.1 W to 100 kW");

    public static Range Drop { get; } = new(0.01, 50, "from 0.01 % to 50 %");

    public static Range Chance { get; } = new(0.0001, 50, "from 0.0001 % to 50 %");

    public static Range Years { get; } = new(0, 1000, "from 0 to 1000 years");

    public static Range Celsius { get; } = new(-60, 150, "from -60 to 150 degC");

    public static Range Turn { get; } = new(0, 360, "from 0 to 360 deg");

    public static Range CrossingAngle { get; } = new(1, 90, "from 1 to 90 deg");

    public static Range OhmsPerMetre { get; } = new(1e-6, 1000, "from 0.000001 to 1000 ohm per metre");

    public static Range FrogNumber { get; } = new(0.5, 1000, "from 0.5 to 1000");

    /// <summary>Roads of a turntable: two ends of the bridge need two places to stand at.</summary>
    public const int FewestRoads = 2, MostRoads = 100;

    /// <summary>Legs of a turnout that has no word of its own.</summary>
    public const int FewestLegs = 4, MostLegs = 9;

    public static Range Count(int least, int most) =>
        new(least, most, string.Create(CultureInfo.InvariantCulture, $"a whole number from {least} to {most}"));
}
