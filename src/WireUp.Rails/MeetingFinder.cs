using System.Collections.Immutable;
using WireUp.Layouts;

namespace WireUp.Rails;

/// <summary>Finds wires that must not meet and are always joined by rails: one entry for each pair of districts and kind of meeting.</summary>
internal static class MeetingFinder
{
    internal static ImmutableArray<RailMeeting> Find(
        RailGraph graph, RailNets nets, ImmutableArray<FedNode> fed, SupplyRelations relations, RailPathWorkspace paths)
    {
        Dictionary<(string, string, MeetingKind, Leg, Leg), RailMeeting> found = [];
        foreach (IGrouping<int, FedNode> net in fed.GroupBy(wire => nets.NetOf[wire.Node]).OrderBy(net => net.Key))
        {
            ImmutableArray<FeederLeg> legs = nets.Legs[net.Key];
            for (int i = 0; i < legs.Length; i++)
            {
                for (int j = i + 1; j < legs.Length; j++)
                {
                    (FeederLeg from, FeederLeg to) = Ordered(legs[i], legs[j]);
                    if (relations.Between(from, to) is { } kind && !found.ContainsKey((from.District, to.District, kind, from.Leg, to.Leg)))
                    {
                        found[(from.District, to.District, kind, from.Leg, to.Leg)] = Describe(paths, [.. net], kind, from, to);
                    }
                }
            }
        }

        return [.. found.OrderBy(entry => entry.Key).Select(entry => entry.Value)];
    }

    private static (FeederLeg, FeederLeg) Ordered(FeederLeg first, FeederLeg second) =>
        string.CompareOrdinal(first.District, second.District) <= 0 ? (first, second) : (second, first);

    private static RailMeeting Describe(
        RailPathWorkspace paths, List<FedNode> wires, MeetingKind kind, FeederLeg from, FeederLeg to)
    {
        HashSet<int> goals = [.. wires.Where(wire => wire.Wire.IsLike(to)).Select(wire => wire.Node)];
        ImmutableArray<int> path = paths.Shortest(wires.Where(wire => wire.Wire.IsLike(from)).Select(wire => wire.Node), goals.Contains)!.Value;
        return new(
            kind,
            wires.First(wire => wire.Wire.IsLike(from) && wire.Node == path[0]).Wire,
            wires.First(wire => wire.Wire.IsLike(to) && wire.Node == path[^1]).Wire,
            paths.Points(path));
    }
}
