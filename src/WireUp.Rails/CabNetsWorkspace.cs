using System.Collections.Immutable;
using WireUp.Layouts;

namespace WireUp.Rails;

/// <summary>Tells whether two cabs are joined by both legs when some contacts conduct and no others.</summary>
internal sealed class CabNetsWorkspace
{
    private readonly ILookup<Setting, NetContact> _contacts;
    private readonly ILookup<int, (string Booster, Leg Leg)> _fixed;
    private readonly ImmutableArray<int> _shared;

    internal CabNetsWorkspace(FeedWays ways, IReadOnlyDictionary<string, string> boosters)
    {
        _contacts = ways.Contacts.ToLookup(contact => new Setting(contact.Piece, contact.Position));
        _fixed = Enumerable.Range(0, ways.Nets.Count)
            .SelectMany(net => ways.Nets.Legs[net].Where(wire => boosters.ContainsKey(wire.District)).Select(wire => (net, (boosters[wire.District], wire.Leg))))
            .ToLookup(pair => pair.net, pair => pair.Item2);
        _shared = [.. _fixed.Where(net => net.DistinctBy(cab => cab.Booster).Skip(1).Any()).Select(net => net.Key)];
    }

    /// <summary>Whether a rail joins a leg of the one cab to the other cab, and another rail the other leg.</summary>
    internal bool BothRailsJoin(string first, string second, ImmutableSortedDictionary<PieceId, string> when)
    {
        HashSet<Leg> joined = [];
        foreach (ImmutableArray<int> group in Groups(when))
        {
            ImmutableArray<(string Booster, Leg Leg)> cabs = [.. group.SelectMany(net => _fixed[net])];
            if (cabs.Any(cab => cab.Booster == second))
            {
                joined.UnionWith(cabs.Where(cab => cab.Booster == first).Select(cab => cab.Leg));
            }
        }

        return joined.Count == 2;
    }

    /// <summary>The nets that these contacts join, and each net that always holds several cabs.</summary>
    private IEnumerable<ImmutableArray<int>> Groups(ImmutableSortedDictionary<PieceId, string> when)
    {
        ImmutableArray<NetContact> conducting = [.. when.SelectMany(setting => _contacts[new(setting.Key, setting.Value)])];
        ImmutableArray<int> nets = [.. conducting.SelectMany(contact => new[] { contact.From, contact.To }).Concat(_shared).Distinct()];
        Dictionary<int, int> number = nets.Select((net, i) => (net, i)).ToDictionary(pair => pair.net, pair => pair.i);
        DisjointSetsWorkspace union = new(nets.Length);
        foreach (NetContact contact in conducting)
        {
            union.Join(number[contact.From], number[contact.To]);
        }

        return nets.GroupBy(net => union.Find(number[net])).Select(group => group.ToImmutableArray());
    }
}
