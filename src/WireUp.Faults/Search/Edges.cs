using WireUp.Layouts;
using WireUp.Layouts.Reference;

namespace WireUp.Faults.Search;

/// <summary>Probabilities of what is read in words: soft edges, since no two locomotives and no two buzzers agree.</summary>
internal static class Edges
{
    private static readonly double Slow = Constants.Get("run-volts-slow").Value, Stop = Constants.Get("run-volts-stop").Value;
    private static readonly double Dead = Constants.Get("run-volts-dead").Value, Edge = Constants.Get("run-volts-edge").Value;
    private static readonly double TripEdge = Constants.Get("trip-edge").Value;
    private static readonly double BuzzerOhms = Constants.Get("continuity-ohms").Value;

    /// <summary>Width of the edge of a buzzer and of "open" on a meter, in the logarithm of the resistance.</summary>
    private const double OhmsEdge = 0.3;

    /// <summary>Probability that a locomotive runs so at this part of the full volts.</summary>
    internal static double Running(RunningState state, double part) => state switch
    {
        RunningState.Runs => Above(part, Slow),
        RunningState.Slows => Above(part, Stop) - Above(part, Slow),
        RunningState.Stops => Above(part, Dead) - Above(part, Stop),
        RunningState.Dead => 1 - Above(part, Dead),
        _ => throw new ArgumentOutOfRangeException(nameof(state), state, "not a way of running"),
    };

    /// <summary>The middle of what a way of running stands for, part of the full volts.</summary>
    internal static double Middle(RunningState state) => state switch
    {
        RunningState.Runs => (1 + Slow) / 2,
        RunningState.Slows => (Slow + Stop) / 2,
        RunningState.Stops => (Stop + Dead) / 2,
        _ => Dead / 2,
    };

    /// <summary>Probability that a breaker trips.</summary>
    internal static double Trips(double amps, double tripAmps) => Logistic((Math.Abs(amps) - tripAmps) / (TripEdge * tripAmps));

    /// <summary>Probability that a buzzer sounds.</summary>
    internal static double Sounds(double ohms) => Below(ohms, BuzzerOhms);

    /// <summary>Probability that a meter shows open.</summary>
    internal static double ShowsOpen(double ohms) => 1 - Below(ohms, Meter.MostOhms);

    private static double Below(double ohms, double limit) => Logistic(Math.Log(limit / Math.Max(Math.Abs(ohms), 1e-9)) / OhmsEdge);

    private static double Above(double part, double limit) => Logistic((part - limit) / Edge * 1.7);

    private static double Logistic(double x) => 1 / (1 + Math.Exp(-x));
}
