using System.Collections.Immutable;

namespace WireUp.Circuits.Sessions;

/// <summary>What happened in one session.</summary>
/// <param name="Shares">For each district, each booster and the whole railway, for how long which current flowed.</param>
/// <param name="Trips">Trips begun.</param>
/// <param name="Waits">How often a train found its way occupied and stopped.</param>
/// <param name="OtherWays">How often a train that had waited took another goal, the same way or back.</param>
/// <param name="Lifted">How often a train had to be lifted off and set down elsewhere.</param>
/// <param name="LeftOver">Units for which there was no room, or that were lifted off and found none.</param>
/// <param name="MeanMoving">Locomotives moving, mean over the time.</param>
internal sealed record SessionOutcome(
    ImmutableArray<TimeShares> Shares, int Trips, int Waits, int OtherWays, int Lifted, ImmutableArray<string> LeftOver, double MeanMoving);
