using UnitsNet;
using WireUp.Layouts.Reference;

namespace WireUp.Circuits.Sessions;

/// <summary>How an operating session is simulated.</summary>
public sealed record SessionOptions
{
    /// <summary>Running time of one session, above 0.</summary>
    public Duration Length { get; init; } = Duration.FromHours(Constants.Get("session-hours").Value);

    /// <summary>Where the random numbers begin: the same seed gives the same result to the last digit, on any machine.</summary>
    public ulong Seed { get; init; } = 1;

    /// <summary>Sessions that are simulated in any case, 2 or more.</summary>
    public int LeastSessions { get; init; } = 20;

    /// <summary>Sessions after which it ends although the result is not sure enough.</summary>
    public int MostSessions { get; init; } = 400;

    /// <summary>
    /// It is sure enough when the standard error of the 99th percentile of every district, of every booster and of the whole is no more
    /// than this part of it, or no more than <see cref="ToleratedError"/>.
    /// </summary>
    public Ratio ToleratedPart { get; init; } = Ratio.FromPercent(3);

    /// <summary>A standard error that is small enough in any case.</summary>
    public ElectricCurrent ToleratedError { get; init; } = ElectricCurrent.FromMilliamperes(10);

    /// <summary>Most sessions simulated at one time, or −1 for as many as the machine has processors. The result does not depend on it.</summary>
    public int Threads { get; init; } = -1;
}

/// <summary>How far a simulation is.</summary>
/// <param name="Sessions">Sessions done.</param>
/// <param name="AtMost">Sessions after which it ends in any case.</param>
public readonly record struct SessionProgress(int Sessions, int AtMost);
