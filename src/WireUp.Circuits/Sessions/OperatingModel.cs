using WireUp.Layouts.Reference;

namespace WireUp.Circuits.Sessions;

/// <summary>
/// What the operators of a session are taken to do. Every span of time and every speed is drawn evenly between its two ends. All of it is
/// common practice, no published source (shared/constants.csv, rows session-…).
/// </summary>
internal sealed record OperatingModel
{
    private const double KilometresPerHourPerMetrePerSecond = 3.6;

    /// <summary>Slowest and fastest speed of a train on the rails of the model, metres per second.</summary>
    internal required (double Least, double Most) Speed { get; init; }

    /// <summary>Shortest and longest stop, seconds.</summary>
    internal required (double Least, double Most) Dwell { get; init; }

    /// <summary>Shortest and longest wait before an occupied way, seconds.</summary>
    internal required (double Least, double Most) Patience { get; init; }

    /// <summary>How long a locomotive draws its starting current, seconds.</summary>
    internal required double StartSeconds { get; init; }

    /// <summary>How long a train may stay without a way before it is lifted off, seconds.</summary>
    internal required double StuckSeconds { get; init; }

    /// <summary>How often an operator whose way is occupied looks again, seconds: fineness of the model.</summary>
    internal double LookSeconds { get; init; } = 2;

    /// <summary>A train close behind another slows down with it; behind one that stands this long, seconds, it has stopped.</summary>
    internal double FollowSeconds { get; init; } = 5;

    /// <summary>Track is taken and given free in lengths of at most this, metres: fineness of the model, and the room between two trains.</summary>
    internal double CellMetres { get; init; } = 0.5;

    /// <summary>The usual operators of a scale; of one that the table does not have, those of HO.</summary>
    internal static OperatingModel Of(string scale)
    {
        double ratio = ScaleTable.FindOrUsual(scale).Ratio;
        return new()
        {
            Speed = (MetresPerSecond("session-speed-least", ratio), MetresPerSecond("session-speed-most", ratio)),
            Dwell = (Value("session-dwell-least"), Value("session-dwell-most")),
            Patience = (Value("session-patience-least"), Value("session-patience-most")),
            StartSeconds = Value("session-start"),
            StuckSeconds = Value("session-stuck"),
        };
    }

    private static double MetresPerSecond(string name, double ratio) => Value(name) / KilometresPerHourPerMetrePerSecond / ratio;

    private static double Value(string name) => Constants.Get(name).Value;
}
