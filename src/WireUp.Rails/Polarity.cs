using System.Collections.Immutable;
using WireUp.Layouts;

namespace WireUp.Rails;

/// <summary>Looks for places where rails of opposite polarity meet, and for rails without current.</summary>
public static class Polarity
{
    /// <summary>Looks at every rail, in every position that can matter.</summary>
    /// <param name="graph">The rails of the layout.</param>
    /// <param name="options">Limits of the search; null for the usual ones.</param>
    /// <param name="cancellationToken">Stops the search.</param>
    public static PolarityReport Analyse(RailGraph graph, PolarityOptions? options = null, CancellationToken cancellationToken = default)
    {
        long budget = (options ?? new PolarityOptions()).SearchBudget;
        MendedRails mended = MendedRails.Of(graph, cancellationToken);
        (RailNets nets, SupplyRelations relations, RailPathWorkspace paths) = (mended.Nets, mended.Relations, mended.Paths);
        PositionMeetingFinder finder = new(graph, nets, mended.Fed, relations, (paths, budget));
        (ImmutableArray<RailMeeting> byPosition, ImmutableArray<PieceId> undecided) = finder.Find();
        cancellationToken.ThrowIfCancellationRequested();

        GapFinder gaps = new(graph, nets, relations);
        FeedReach reach = new(graph, relations, budget);
        ImmutableArray<SwitchedTrack> switched = reach.Switched();
        ImmutableArray<GapMeeting> acrossGaps = gaps.AcrossGaps();
        WheelFinder wheels = new(mended);
        ImmutableArray<WheelMeeting> underWheels = wheels.Find(acrossGaps);
        (ImmutableArray<LongBridge> bridges, ImmutableArray<DeadLength> dead) = wheels.FindLong(acrossGaps, underWheels);
        cancellationToken.ThrowIfCancellationRequested();
        return new(graph, mended.Parity, nets)
        {
            FoilFaults = FoilFault.Find(graph.Layout),
            OddLoops = mended.Loops,
            Exchanged = mended.Exchanged,
            FrogFaults = mended.FrogFaults,
            Standing = [.. mended.FrogShorts, .. MeetingFinder.Find(graph, nets, mended.Fed, relations, paths)],
            ByPosition = byPosition,
            Undecided = undecided,
            AcrossGaps = acrossGaps,
            UnderWheels = underWheels,
            UnderVehicles = bridges,
            DeadLengths = dead,
            OneSided = gaps.OneSided(),
            Unfed = reach.Unfed(),
            Switched = switched,
            UndecidedFeed = [.. reach.Undecided],
            UndecidedUnderTrains = [.. wheels.Undecided],

            // Last: what is before it makes steps.
            SearchSteps = finder.StepsMade + reach.StepsMade,
        };
    }

    /// <summary>The legs that reach each node when the turnouts stand as given.</summary>
    /// <param name="graph">The rails of the layout.</param>
    /// <param name="positions">A position for each turnout; one that is left out stands between its positions and none of its blades touch.</param>
    /// <returns>For each node of the graph the legs that reach it, ordered by district and leg.</returns>
    public static ImmutableArray<ImmutableSortedSet<string>> LegsIn(RailGraph graph, IReadOnlyDictionary<PieceId, string> positions)
    {
        RailNets nets = RailNets.Of(
            graph,
            graph.Links.Where(link => link is not RailLink.Contact contact || positions.GetValueOrDefault(contact.Piece) == contact.Position),
            FedNode.All(graph));
        ImmutableArray<ImmutableSortedSet<string>> legs =
            [.. nets.Legs.Select(net => net.Select(leg => $"{leg.District}/{leg.Leg}").ToImmutableSortedSet(StringComparer.Ordinal))];
        return [.. nets.NetOf.Select(net => legs[net])];
    }
}

/// <summary>Limits of the search for shorts.</summary>
public sealed record PolarityOptions
{
    /// <summary>
    /// How many steps over contacts may be made, from 0, where a shortest way needs a piece in two positions and the search has to tell cases
    /// apart: only rings of live frogs without gaps, and switches that act at several places, bring that about. When it does not suffice,
    /// <see cref="PolarityReport.Undecided"/> says so.
    /// </summary>
    public long SearchBudget { get; init; } = 20_000_000;
}
