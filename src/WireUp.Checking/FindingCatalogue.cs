using System.Collections.Immutable;
using WireUp.Checking.Rules;

namespace WireUp.Checking;

/// <summary>Every rule there is, in order of code.</summary>
public static class FindingCatalogue
{
    internal static ImmutableArray<Rule> Rules { get; } =
    [
        new DeadFrog(),
        new OpenEnd(),
        new UselessGap(),
        new FrogJoinsRails(),
        new SlipFrogsOfOwnEnd(),
        new SlipPositionToAvoid(),
        new DeadStretch(),
        new FoilNotCut(),
        new StandingShort(),
        new ShortByPosition(),
        new OddLoopRule(),
        new DistrictsJoined(),
        new FeedersExchanged(),
        new ReversingSectionShort(),
        new ReversingSectionsTouch(),
        new GapBetweenPolarities(),
        new ReversingSectionLeaks(),
        new UnfedTrack(),
        new OneSidedTrackRule(),
        new SearchGivenUp(),
        new SwitchedTrackRule(),
        new GapByPosition(),
        new PitEdgeShort(),
        new BridgedDeadLength(),
        new WheelBack(),
        new CommonRail(),
        new CabsJoined(),
        new NoCommonCab(),
        new SuppliesOutOfPhase(),
        new ProgrammingTrackJoined(),
        new ProgrammingBufferShort(),
        new ReversingSectionsNear(),
        new CoinTestFails(),
        new FaultCurrentLow(),
        new DropTooLarge(),
        new WireTooThin(),
        new Overload(),
        new TripAboveCeiling(),
        new Discrimination(),
        new FeederTooFar(),
        new SupplyTooWeak(),
        new LimitsNotChecked(),
        new BusTooSlow(),
        new BreakerTooSlow(),
        new WireBurnsFirst(),
        new NoRestart(),
        new BusRings(),
        new BoostersApart(),
        new SupplyNotLimited(),
        new BusRing(),
        new AccessoriesOnRails(),
        new SwitchDefeated(),
        new LiftOutApproach(),
        new SwitchWithoutEffect(),
    ];

    /// <summary>The descriptors.</summary>
    public static ImmutableArray<FindingDescriptor> All { get; } = [.. Rules.Select(rule => rule.Descriptor)];

    /// <summary>The descriptor of that code, or null.</summary>
    public static FindingDescriptor? Find(string code) => All.FirstOrDefault(descriptor => descriptor.Code == code);
}
