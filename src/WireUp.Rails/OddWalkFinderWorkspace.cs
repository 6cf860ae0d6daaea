using System.Collections.Immutable;
using WireUp.Layouts;

namespace WireUp.Rails;

/// <summary>
/// Finds short odd cycles, each apart from the others. Every odd cycle passes at least one link that contradicts the signs along
/// a spanning forest, so it is enough to look for the shortest one through each such link: a breadth-first search over
/// (part, flipped or not).
/// </summary>
internal sealed class OddWalkFinderWorkspace
{
    private readonly ParityGraph _graph;
    private readonly ImmutableArray<ImmutableArray<int>> _adjacency;
    private readonly bool[] _taken;
    private readonly int[] _cameBy;
    private readonly int[] _seenInSearch;
    private int _search;

    internal OddWalkFinderWorkspace(ParityGraph graph)
    {
        _graph = graph;
        _adjacency = SignedForest.Adjacency(graph);
        _taken = new bool[graph.Links.Length];
        _cameBy = new int[2 * graph.Parts.Length];
        _seenInSearch = new int[2 * graph.Parts.Length];
    }

    internal ImmutableArray<OddWalk> Find()
    {
        ImmutableArray<OddWalk>.Builder walks = ImmutableArray.CreateBuilder<OddWalk>();
        while (Shortest() is { } cycle)
        {
            walks.Add(Describe(cycle));
            cycle.ForEach(link => _taken[link] = true);
        }

        return walks.ToImmutable();
    }

    private List<int>? Shortest()
    {
        (_, ImmutableArray<int> signs) = SignedForest.Label(_graph.Parts.Length, _graph.Links, _adjacency, link => !_taken[link]);
        List<int>? best = null;
        for (int i = 0; i < _graph.Links.Length; i++)
        {
            PartLink link = _graph.Links[i];
            if (!_taken[i] && (signs[link.From] == signs[link.To]) == link.Flips && Through(i, best?.Count ?? int.MaxValue) is { } cycle)
            {
                best = cycle;
            }
        }

        return best;
    }

    /// <summary>The shortest odd cycle through one link that has fewer links than <paramref name="fewerThan"/>, as a list of links.</summary>
    private List<int>? Through(int first, int fewerThan)
    {
        PartLink link = _graph.Links[first];
        int start = 2 * link.To, goal = (2 * link.From) + (link.Flips ? 0 : 1);
        if (start == goal)
        {
            return fewerThan > 1 ? [first] : null;
        }

        _search++;
        _seenInSearch[start] = _search;
        List<int> layer = [start];
        for (int length = 2; layer.Count > 0 && length < fewerThan; length++)
        {
            layer = NextLayer(layer, first);
            if (_seenInSearch[goal] == _search)
            {
                return Back(goal, start, first);
            }
        }

        return null;
    }

    private List<int> NextLayer(List<int> layer, int without)
    {
        List<int> next = [];
        foreach (int state in layer)
        {
            foreach (int link in _adjacency[state / 2])
            {
                if (link == without || _taken[link])
                {
                    continue;
                }

                int reached = Step(state, link);
                if (_seenInSearch[reached] != _search)
                {
                    _seenInSearch[reached] = _search;
                    _cameBy[reached] = link;
                    next.Add(reached);
                }
            }
        }

        return next;
    }

    private int Step(int state, int link) =>
        (2 * _graph.Links[link].Opposite(state / 2)) + ((state & 1) ^ (_graph.Links[link].Flips ? 1 : 0));

    private List<int> Back(int goal, int start, int first)
    {
        List<int> links = [];
        for (int state = goal; state != start; state = Step(state, _cameBy[state]))
        {
            links.Add(_cameBy[state]);
        }

        links.Add(first);
        links.Reverse();
        return links;
    }

    /// <summary>Turns a closed list of links, the first one walked from its From to its To, into steps through parts.</summary>
    private OddWalk Describe(List<int> cycle)
    {
        List<(TrackEnd Out, TrackEnd In, int Part)> passed = [];
        int at = _graph.Links[cycle[0]].From;
        foreach (int index in cycle)
        {
            PartLink link = _graph.Links[index];
            bool forward = link.From == at;
            at = link.Opposite(at);
            passed.Add(forward ? (link.Joint.First, link.Joint.Second, at) : (link.Joint.Second, link.Joint.First, at));
        }

        int turn = Enumerable.Range(0, passed.Count).MinBy(i => (IsPlain(passed[i].Part), passed[i].Part));
        List<int> order = [.. Enumerable.Range(0, passed.Count).Select(i => (turn + i) % passed.Count)];
        return new([.. order.Select(i => new WalkStep(passed[i].Part, passed[i].In, passed[(i + 1) % passed.Count].Out))])
        {
            Joints = [.. order.Select(i => _graph.Links[cycle[(i + 1) % cycle.Count]].Joint)],
        };
    }

    /// <summary>A walk is easier to follow when it starts at trackwork and not in the middle of nowhere.</summary>
    private bool IsPlain(int part) => _graph.Parts[part].MinusEnds.Length < 2;
}
