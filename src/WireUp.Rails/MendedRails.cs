using System.Collections.Immutable;

namespace WireUp.Rails;

/// <summary>
/// The rails of a layout with the faults taken out that would hide others: copper foil and loops cut, frogs that join what they must not taken out,
/// exchanged feeders lifted. What always conducts in them is gathered into nets.
/// </summary>
internal sealed record MendedRails(RailGraph Graph, ParityGraph Parity, SupplyRelations Relations, RailPathWorkspace Paths)
{
    internal required ImmutableArray<OddLoop> Loops { get; init; }

    internal required ImmutableArray<ExchangedFeeders> Exchanged { get; init; }

    internal required ImmutableArray<FrogFault> FrogFaults { get; init; }

    internal required ImmutableArray<RailMeeting> FrogShorts { get; init; }

    internal required ImmutableArray<FedNode> Fed { get; init; }

    internal required RailNets Nets { get; init; }

    internal static MendedRails Of(RailGraph graph, CancellationToken cancellationToken)
    {
        ParityGraph parity = ParityGraph.Of(graph.Index);
        RailPathWorkspace paths = new(graph);
        paths.TakeOut(link => FrogJoinerWorkspace.IsOfFrog(graph, link) || link is RailLink.Bond { IsFoil: true });
        ImmutableArray<OddLoop> loops = OddLoopFinder.Find(graph, parity, paths);
        cancellationToken.ThrowIfCancellationRequested();

        ImmutableArray<ExchangedFeeders> exchanged = ExchangedFeederFinder.Find(graph, parity, loops, paths);
        HashSet<string> doubtful = [.. exchanged.SelectMany(feeders => feeders.Feeders)];
        ImmutableArray<FedNode> fed = [.. FedNode.All(graph).Where(wire => !doubtful.Contains(wire.Wire.Feeder))];
        SupplyRelations relations = new(graph.Layout);
        FrogJoinerWorkspace frogs = new(graph, paths, relations, fed);
        frogs.JoinAll();
        cancellationToken.ThrowIfCancellationRequested();
        return new(graph, parity, relations, paths)
        {
            Loops = loops,
            Exchanged = exchanged,
            FrogFaults = [.. frogs.Faults],
            FrogShorts = [.. frogs.Shorts],
            Fed = fed,
            Nets = RailNets.Of(graph, paths.Conducting, fed),
        };
    }
}
