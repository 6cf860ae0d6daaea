using System.Collections.Immutable;
using UnitsNet;

namespace WireUp.Circuits.Sessions;

/// <summary>What a simulation of operating sessions comes to.</summary>
public abstract record SessionAnswer
{
    private SessionAnswer()
    {
    }

    /// <summary>Sessions were simulated.</summary>
    /// <param name="Report">The result.</param>
    public sealed record Simulated(SessionReport Report) : SessionAnswer;

    /// <summary>There is nothing to simulate.</summary>
    /// <param name="Reason">Why, one sentence for a person.</param>
    public sealed record NothingToRun(string Reason) : SessionAnswer;
}

/// <summary>
/// The operated load: what every district and booster carries while trains run at random. It is a model of operators who choose at
/// random; docs/loading.md says what it leaves out.
/// </summary>
public sealed record SessionReport
{
    /// <summary>What was asked.</summary>
    public required SessionOptions Options { get; init; }

    /// <summary>Sessions simulated.</summary>
    public required int Sessions { get; init; }

    /// <summary>Whether every 99th percentile is as sure as was asked; false where the most sessions were reached or somebody stopped it.</summary>
    public required bool IsSure { get; init; }

    /// <summary>Whether somebody stopped it before the end.</summary>
    public required bool WasStopped { get; init; }

    /// <summary>Every district that trains can run on, in the order of the layout.</summary>
    public required ImmutableArray<SessionCurrent> Districts { get; init; }

    /// <summary>Every booster of such districts: the sum of its districts at each instant.</summary>
    public required ImmutableArray<SessionCurrent> Boosters { get; init; }

    /// <summary>The whole railway: the sum of all districts at each instant.</summary>
    public required SessionCurrent Railway { get; init; }

    /// <summary>What the trains did.</summary>
    public required SessionTraffic Traffic { get; init; }
}

/// <summary>The current of one district or booster, or of the whole railway, over all sessions.</summary>
/// <param name="Name">Its name.</param>
/// <param name="Track">Length of its track on which trains run.</param>
/// <param name="Mean">Mean over the time.</param>
/// <param name="MeanError">Standard error of <paramref name="Mean"/>.</param>
/// <param name="Percentiles">50, 95 and 99 per cent.</param>
/// <param name="Largest">100 per cent: the largest current seen in these sessions. More sessions can only find more.</param>
public sealed record SessionCurrent(
    string Name,
    Length Track,
    ElectricCurrent Mean,
    ElectricCurrent MeanError,
    ImmutableArray<CurrentPercentile> Percentiles,
    ElectricCurrent Largest)
{
    /// <summary>Every current that occurred, ascending, with the part of the time in which no more flows.</summary>
    public ImmutableArray<CurrentShare> Shares { get; init; } = [];

    /// <summary>The first session: from when which current flows.</summary>
    public ImmutableArray<CurrentStep> FirstSession { get; init; } = [];

    /// <summary>The 99th percentile.</summary>
    public CurrentPercentile Percentile99 => Percentiles[^1];
}

/// <summary>A current that is not exceeded for a part of the time.</summary>
/// <param name="Part">Part of the time.</param>
/// <param name="Current">The smallest such current.</param>
/// <param name="Low">Lower end of the interval that holds the true one in about 95 of 100 simulations.</param>
/// <param name="High">Upper end of it; the largest current seen where the sessions reach no farther.</param>
/// <param name="StandardError">The interval's width over that of a normal distribution with standard error 1.</param>
public readonly record struct CurrentPercentile(
    Ratio Part, ElectricCurrent Current, ElectricCurrent Low, ElectricCurrent High, ElectricCurrent StandardError);

/// <summary>A current and the part of the time in which no more flows.</summary>
/// <param name="Current">The current.</param>
/// <param name="UpTo">Part of the time.</param>
public readonly record struct CurrentShare(ElectricCurrent Current, Ratio UpTo);

/// <summary>A current that flows from some time on until the next step.</summary>
/// <param name="At">Since the session began.</param>
/// <param name="Current">The current.</param>
public readonly record struct CurrentStep(Duration At, ElectricCurrent Current);

/// <summary>What the trains did, a session on average.</summary>
/// <param name="Trips">Trips begun.</param>
/// <param name="Waits">Stops before an occupied way.</param>
/// <param name="OtherWays">Trains that tired of waiting and took another goal, often back.</param>
/// <param name="Lifted">Trains that had no way for ten minutes, as in a deadlock, and were lifted off and set down elsewhere.</param>
/// <param name="Moving">Locomotives moving, mean over the time.</param>
/// <param name="MovingAtOnce">How many may move at one time.</param>
public sealed record SessionTraffic(double Trips, double Waits, double OtherWays, double Lifted, double Moving, int MovingAtOnce)
{
    /// <summary>Trains and single locomotives on the railway.</summary>
    public int Units { get; init; }

    /// <summary>Trains of the stock list for which too few locomotives are left.</summary>
    public ImmutableArray<string> NotMadeUp { get; init; } = [];

    /// <summary>Trains for which there was no room in some session.</summary>
    public ImmutableArray<string> LeftOver { get; init; } = [];

    /// <summary>True where the layout lists no locomotives and two of the scale's usual ones are assumed to run.</summary>
    public bool IsAssumed { get; init; }
}
