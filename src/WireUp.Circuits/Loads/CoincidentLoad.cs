using System.Collections.Immutable;
using UnitsNet;
using WireUp.Circuits.Sessions;
using WireUp.Layouts;
using WireUp.Layouts.Reference;

namespace WireUp.Circuits;

/// <summary>
/// The current of the trains that chance brings together on a part of the track: what is not exceeded there for 99 % of the time, if every
/// train of the stock list is as likely to be at one place of the track as at another, and moves as often as there are operators for it.
/// </summary>
/// <remarks>
/// With p the part of all fed track and m the number of locomotives that move at once over that of all, a train draws its running current
/// there with the chance p·m, its standing current with p·(1 − m), and nothing with 1 − p. The sum over all trains is worked out exactly in
/// steps of 10 mA, each train rounded up. It is never more than all of them draw together, as many moving as may. The current never falls as
/// p grows. Common practice has no such rule; docs/loading.md sets it beside the currents of simulated sessions.
/// </remarks>
public sealed class CoincidentLoad
{
    internal const double StepAmps = 0.01;

    private readonly ImmutableArray<(int Running, int Standing)> _trains;
    private readonly double _movingPart;
    private readonly double _mostAmps;

    private CoincidentLoad(ImmutableArray<(int Running, int Standing)> trains, double movingPart, double mostAmps) =>
        (_trains, _movingPart, _mostAmps) = (trains, movingPart, mostAmps);

    /// <summary>Part of the time in which no more than this current flows, 0 to 1.</summary>
    public static double Part => Constants.Get("coincident-part").Value;

    /// <summary>That of a layout's stock; null under direct control, where a cab drives one train at a time.</summary>
    public static CoincidentLoad? Of(Layout layout)
    {
        DesignLoad design = DesignLoad.Of(layout);
        SessionStock stock = SessionStock.Of(layout);
        int locomotives = stock.Units.Sum(unit => unit.Locomotives);
        return design.IsByCab || locomotives == 0 ? null : new(
            [.. stock.Units.Select(unit => (Steps(unit.Consumers.Sum(each => each.Running)), Steps(unit.Consumers.Sum(each => each.Standing))))],
            Math.Min(1, (double)stock.MovingAtOnce / locomotives),
            design.Working.Amperes);
    }

    /// <summary>The current on a part of the track.</summary>
    /// <param name="shareOfTrack">Length of that track over that of all fed track, 0 to 1.</param>
    public ElectricCurrent For(double shareOfTrack)
    {
        double left = Part * (1 - 1e-12);
        double[] chances = Chances(shareOfTrack);
        int steps = 0;
        while (steps < chances.Length && (left -= chances[steps]) > 0)
        {
            steps++;
        }

        return ElectricCurrent.FromAmperes(Math.Min(_mostAmps, steps * StepAmps));
    }

    /// <summary>The largest part of the track, 0 to 1, to a thousandth, on which no more than a current flows.</summary>
    /// <param name="limit">That current.</param>
    public double MostShare(ElectricCurrent limit)
    {
        int fits = 0, fails = 1001;
        while (fails - fits > 1)
        {
            int middle = (fits + fails) / 2;
            (fits, fails) = For(middle / 1000.0) <= limit ? (middle, fails) : (fits, middle);
        }

        return fits / 1000.0;
    }

    /// <summary>The chance of each current, by its number of steps, up to the most that all draw together.</summary>
    private double[] Chances(double share)
    {
        double running = share * _movingPart, standing = share * (1 - _movingPart);
        double[] chances = new double[Math.Min(_trains.Sum(train => Math.Max(train.Running, train.Standing)), (int)Math.Ceiling(_mostAmps / StepAmps)) + 1];
        chances[0] = 1;
        int most = 0;
        foreach ((int run, int stand) in _trains)
        {
            most = Math.Min(chances.Length - 1, most + Math.Max(run, stand));
            for (int steps = most; steps >= 0; steps--)
            {
                double without = chances[steps] * (1 - share);
                chances[steps] = without
                    + (steps >= run ? running * (run == 0 ? chances[steps] : chances[steps - run]) : 0)
                    + (steps >= stand ? standing * (stand == 0 ? chances[steps] : chances[steps - stand]) : 0);
            }
        }

        return chances;
    }

    private static int Steps(int microamperes) => (int)Math.Ceiling((microamperes / (StepAmps * 1e6)) - 1e-9);
}
