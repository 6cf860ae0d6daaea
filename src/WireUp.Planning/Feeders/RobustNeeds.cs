using System.Collections.Immutable;
using WireUp.Layouts;
using WireUp.Planning.Districts;
using WireUp.Rails;

namespace WireUp.Planning.Feeders;

/// <summary>Metal that needs feeders of its own, so that nothing that fails leaves it without.</summary>
/// <param name="Block">The metal: a number of <see cref="RobustNeeds"/>.</param>
/// <param name="Feeders">How many: one where a joiner ties it to other feeders, two where nothing does.</param>
/// <param name="Joiner">The joiner that alone ties it to the rest, or null.</param>
internal sealed record RobustNeed(int Block, int Feeders, RailLink.Through? Joiner);

/// <summary>
/// What it takes that after any one failed joiner, or any one failed feeder, all rail where a feeder may be soldered is still joined to a
/// feeder by metal that always conducts. Only a joiner that alone ties two parts of a rail together matters; without those joiners rails
/// are blocks that hang together as trees, and it is enough that each block at the tip of a tree has a feeder, and a block alone has two.
/// </summary>
internal sealed class RobustNeeds
{
    private readonly FeedableTrack _track;
    private readonly int[] _blockOf;

    public RobustNeeds(FeedableTrack track)
    {
        _track = track;
        RailGraph graph = track.Graph;
        DisjointSetsWorkspace solid = new(graph.Nodes.Length);
        List<RailLink.Through> joiners = [];
        foreach (RailLink link in graph.Links.Where(link => link is not RailLink.Contact))
        {
            if (link is RailLink.Through { Joint.Kind: JointKind.Joiner } joiner)
            {
                joiners.Add(joiner);
            }
            else
            {
                solid.Join(link.From, link.To);
            }
        }

        bool[] bridges = Bridges.Of(graph.Nodes.Length, [.. joiners.Select(joiner => (solid.Find(joiner.From), solid.Find(joiner.To)))]);
        foreach (RailLink.Through joiner in joiners.Where((_, i) => !bridges[i]))
        {
            solid.Join(joiner.From, joiner.To);
        }

        _blockOf = [.. Enumerable.Range(0, graph.Nodes.Length).Select(solid.Find)];
        Needs = [.. Tips([.. joiners.Where((_, i) => bridges[i])])];
    }

    /// <summary>Every need, in the order of the rails.</summary>
    public ImmutableArray<RobustNeed> Needs { get; }

    /// <summary>Whether a feeder at a place feeds a block.</summary>
    public bool Feeds(TrackPlace feeder, RobustNeed need) => Blocks(feeder).Contains(need.Block);

    private IEnumerable<int> Blocks(TrackPlace place)
    {
        (int first, int second) = _track.LinksAt(place);
        return [_blockOf[_track.Graph.Links[first].From], _blockOf[_track.Graph.Links[second].From]];
    }

    /// <summary>Blocks at the tips of the trees, once tips where no feeder may be soldered are taken off.</summary>
    private IEnumerable<RobustNeed> Tips(ImmutableArray<RailLink.Through> ties)
    {
        HashSet<int> feedable = [.. _track.Spans.SelectMany(span => Blocks(new(span.Section, span.MiddleMetres)))];
        ImmutableArray<RailLink.Through> left = ties;
        for (ImmutableArray<RailLink.Through> kept; (kept = WithoutBareTips(left, feedable)).Length < left.Length;)
        {
            left = kept;
        }

        ILookup<int, RailLink.Through> tiesAt = TiesAt(left);
        foreach (int block in feedable.Order())
        {
            switch (tiesAt[block].Count())
            {
                case 0:
                    yield return new(block, 2, null);
                    break;
                case 1:
                    yield return new(block, 1, tiesAt[block].Single());
                    break;
            }
        }
    }

    private ImmutableArray<RailLink.Through> WithoutBareTips(ImmutableArray<RailLink.Through> ties, HashSet<int> feedable)
    {
        ILookup<int, RailLink.Through> tiesAt = TiesAt(ties);
        return ties.RemoveAll(tie => IsBareTip(_blockOf[tie.From]) || IsBareTip(_blockOf[tie.To]));

        bool IsBareTip(int block) => !feedable.Contains(block) && tiesAt[block].Count() == 1;
    }

    private ILookup<int, RailLink.Through> TiesAt(ImmutableArray<RailLink.Through> ties) =>
        ties.SelectMany(tie => new[] { tie.From, tie.To }, (tie, node) => (Block: _blockOf[node], tie)).ToLookup(pair => pair.Block, pair => pair.tie);
}
