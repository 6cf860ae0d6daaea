using System.Collections.Frozen;
using System.Collections.Immutable;
using WireUp.Layouts;

namespace WireUp.Rails;

/// <summary>
/// The signed graph behind every question of reversing. Each part of the track has an unknown sign: does its left rail, seen
/// from its plus end, carry A? A joint between a plus and a minus end keeps the sign, a joint between two plus or two
/// minus ends flips it. A closed walk with an odd number of flips brings rail A to rail B: a polarity conflict, whether or not a
/// train can drive that walk.
/// </summary>
/// <remarks>
/// Points are plus and legs are minus, so that both legs of a turnout agree with its points and therefore with each other. A
/// crossing is two parts; a moving bridge may be one of its own; a section with gaps in both rails is one part more for every such pair. Joints open in both
/// rails are not in the graph; joints open in one rail are. Gaps in the two rails no farther apart than the shortest pick-up
/// wheel base are a pair: nothing can stand between them.
/// On three-rail track nothing ever flips, and a gap in the centre conductor alone separates.
/// </remarks>
public sealed class ParityGraph
{
    private readonly FrozenDictionary<TrackEnd, int> _partAt;
    private readonly FrozenDictionary<PieceId, int> _partOfBridge;

    private ParityGraph(ParityGraphBuilder built)
    {
        Parts = [.. built.Parts];
        Links = [.. built.Links];
        _partAt = built.PartAt.ToFrozenDictionary();
        _partOfBridge = built.PartOfBridge.ToFrozenDictionary();
        (Components, Signs) = SignedForest.Label(this);
    }

    /// <summary>Every part of the track, in the order of the layout.</summary>
    public ImmutableArray<TrackPart> Parts { get; }

    /// <summary>Every joint that conducts on at least one rail, in the order of the layout.</summary>
    public ImmutableArray<PartLink> Links { get; }

    /// <summary>For each part, the number of the joined-up component it belongs to, from 0 in order of first part.</summary>
    public ImmutableArray<int> Components { get; }

    /// <summary>
    /// For each part, +1 or −1: its sign when the first part of its component has +1, found along a tree of joints. In a
    /// component with an odd cycle it holds along that tree only.
    /// </summary>
    public ImmutableArray<int> Signs { get; }

    /// <summary>Builds the graph of a layout, with the gaps that are cut.</summary>
    public static ParityGraph Of(LayoutIndex index) => new(new ParityGraphBuilder(index).Build());

    /// <summary>The part to which an end of a piece belongs.</summary>
    public int PartAt(TrackEnd end) => _partAt[end];

    /// <summary>
    /// The part of a section at a place; at the very place of a pair of gaps, the part towards end a. A moving bridge is a part that nothing is
    /// joined to, unless its roads hang together through it.
    /// </summary>
    public int PartAt(TrackPlace place)
    {
        if (_partOfBridge.TryGetValue(place.Section, out int bridge))
        {
            return bridge;
        }

        int part = _partAt[new TrackEnd(place.Section, "a")];
        while (Parts[part].ToMetres < place.MetresFromA - RailGraphBuilder.SamePlaceMetres
            && part + 1 < Parts.Length && Parts[part + 1].Piece == place.Section)
        {
            part++;
        }

        return part;
    }

    /// <summary>Whether no closed walk brings rail A to rail B.</summary>
    public bool IsBalanced() => IsBalanced(static _ => true);

    /// <summary>
    /// Whether none does when only some links are left. Take a piece away by leaving out every link that touches it; cut a
    /// joint by leaving out its link.
    /// </summary>
    /// <param name="keep">Says of each link whether it is left.</param>
    public bool IsBalanced(Func<PartLink, bool> keep)
    {
        SignUnionWorkspace union = new(Parts.Length);
        return Links.Where(keep).All(link => union.Join(link.From, link.To, link.Flips));
    }

    /// <summary>Whether what is left is balanced when these pieces are lifted out of the track.</summary>
    public bool IsBalancedWithout(IReadOnlySet<PieceId> pieces) =>
        IsBalanced(link => !pieces.Contains(Parts[link.From].Piece) && !pieces.Contains(Parts[link.To].Piece));

    /// <summary>Whether these pieces by themselves are balanced, all else lifted away.</summary>
    public bool IsBalancedWithin(IReadOnlySet<PieceId> pieces) =>
        IsBalanced(link => pieces.Contains(Parts[link.From].Piece) && pieces.Contains(Parts[link.To].Piece));

    /// <summary>The 2-connected blocks of the graph that hold at least one closed walk, in order of their first link.</summary>
    public ImmutableArray<ParityBlock> Blocks() =>
    [
        .. BiconnectedParts.Of(Parts.Length, [.. Links.Select(link => (link.From, link.To))])
            .Where(part => part.Length > 1 || Links[part[0]].From == Links[part[0]].To)
            .Select(BlockOf),
    ];

    private ParityBlock BlockOf(ImmutableArray<int> links)
    {
        ImmutableArray<int> parts = [.. links.SelectMany(link => new[] { Links[link].From, Links[link].To }).Distinct().Order()];
        SignUnionWorkspace union = new(parts.Length);
        bool odd = false;
        foreach (PartLink link in links.Select(link => Links[link]))
        {
            odd |= !union.Join(parts.BinarySearch(link.From), parts.BinarySearch(link.To), link.Flips);
        }

        return new(parts, links, odd);
    }

    /// <summary>
    /// Odd cycles of which no two share a joint, each the shortest one left when those before it are taken out; empty when
    /// balanced. At least this many cuts are needed to balance the track.
    /// </summary>
    public ImmutableArray<OddWalk> OddWalks() => new OddWalkFinderWorkspace(this).Find();
}
