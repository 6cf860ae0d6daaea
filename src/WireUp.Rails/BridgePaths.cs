using System.Collections.Immutable;
using WireUp.Layouts;

namespace WireUp.Rails;

/// <summary>Turns what <see cref="BridgeSearchWorkspace"/> found between nets into ways through rails.</summary>
internal sealed class BridgePaths
{
    private readonly MendedRails _rails;
    private readonly BridgeSearchWorkspace _search;
    private readonly ILookup<int, FeederLeg> _wires;

    internal BridgePaths(MendedRails rails, BridgeSearchWorkspace search)
    {
        (_rails, _search) = (rails, search);
        _wires = rails.Fed.ToLookup(wire => wire.Node, wire => wire.Wire);
    }

    /// <summary>The meeting of two wires when the nodes on either side are joined, with every position it takes.</summary>
    internal RailMeeting Describe(int near, int far, Bridging bridging)
    {
        ImmutableArray<int> toNear = Nodes(near, bridging.Near, bridging.From), toFar = Nodes(far, bridging.Far, bridging.To);
        return new(
            bridging.Kind,
            _wires[toNear[^1]].First(wire => wire.IsLike(bridging.From)),
            _wires[toFar[^1]].First(wire => wire.IsLike(bridging.To)),
            _rails.Paths.Points([.. toNear.Reverse(), .. toFar]))
        {
            Turnouts = Positions(bridging),
        };
    }

    /// <summary>The shortest way from one rail of a track over two nodes that are joined to its other rail.</summary>
    internal ImmutableArray<RailPoint> Loop(int near, int far, RailMates mates)
    {
        RailNets nets = _rails.Nets;
        Dictionary<int, int> fromNear = _rails.Paths.Distances(near), fromFar = _rails.Paths.Distances(far);
        (int one, int other) = mates.Places(nets.NetOf[near], nets.NetOf[far]).MinBy(place => (fromNear[place.One] + fromFar[place.Other], place.One));
        return _rails.Paths.Points([.. Way(one, near), .. Way(far, other)]);
    }

    private ImmutableSortedDictionary<PieceId, string> Positions(Bridging bridging) => bridging.Near.Contacts.Concat(bridging.Far.Contacts)
        .Select(index => _search.Contacts[index]).DistinctBy(contact => contact.Piece)
        .ToImmutableSortedDictionary(contact => contact.Piece, contact => contact.Position);

    /// <summary>From a node along the contacts of a way to the nearest wire like the one given.</summary>
    private ImmutableArray<int> Nodes(int start, NetWay way, FeederLeg wire)
    {
        List<int> nodes = [start];
        foreach (NetContact contact in way.Contacts.Select(index => _search.Contacts[index]))
        {
            bool forward = contact.From == _rails.Nets.NetOf[nodes[^1]];
            (int here, int there) = forward ? (contact.Link.From, contact.Link.To) : (contact.Link.To, contact.Link.From);
            nodes.AddRange(Way(nodes[^1], here).Skip(1));
            nodes.Add(there);
        }

        nodes.AddRange(_rails.Paths.Shortest([nodes[^1]], node => _wires[node].Any(other => other.IsLike(wire)))!.Value.Skip(1));
        return [.. nodes];
    }

    private ImmutableArray<int> Way(int from, int to) => _rails.Paths.Shortest([from], node => node == to)!.Value;
}
