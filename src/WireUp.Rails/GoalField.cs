using System.Collections.Immutable;

namespace WireUp.Rails;

/// <summary>
/// For every step of a cluster a shortest way to the nearest goal that breaks no rule between one step and the next: one sweep back from
/// the goals, layer by layer. Such a way may still need a piece in two positions at places apart; see <see cref="PositionSearchWorkspace"/>.
/// </summary>
/// <remarks>
/// Of the steps that shorten the way, the one over the contact listed first is taken, so that ways of one length are ordered by their
/// contacts. Each net keeps the steps that still wait for a way; a step that leads on serves all of them but those it excludes, so
/// that all nets together cost little more than their contacts.
/// </remarks>
internal sealed class GoalField
{
    private const int None = -2, AtGoal = -1;

    private readonly ContactCluster _cluster;
    private readonly ContactWeb _web;
    private readonly int[] _next;
    private AlternatingWays? _exact;

    internal GoalField(ContactCluster cluster, Func<int, bool> isGoal)
    {
        (_cluster, _web, IsGoal) = (cluster, cluster.Web, isGoal);
        _next = new int[2 * cluster.Contacts.Length];
        Array.Fill(_next, None);
        Sweep();
    }

    /// <summary>Whether a way may end in a net.</summary>
    internal Func<int, bool> IsGoal { get; }

    /// <summary>What decides exactly whether there is a way, or null where the contacts are such that only searching does.</summary>
    internal AlternatingWays? Exact => _cluster.IsLocal ? _exact ??= new(_cluster, IsGoal) : null;

    /// <summary>Whether some way begins with a step.</summary>
    internal bool Leads(int step) => _next[Place(step)] != None;

    /// <summary>The contacts of the way that begins with a step; null where there is none.</summary>
    internal ImmutableArray<int>? Way(int step)
    {
        if (!Leads(step))
        {
            return null;
        }

        ImmutableArray<int>.Builder way = ImmutableArray.CreateBuilder<int>();
        for (int at = step; at >= 0; at = _next[Place(at)])
        {
            way.Add(at >> 1);
        }

        return way.ToImmutable();
    }

    private int Place(int step) => (2 * _web.PlaceInCluster(step >> 1)) + (step & 1);

    private void Sweep()
    {
        Dictionary<int, List<int>> waiting = [];
        List<int> layer = [];
        foreach (int step in _cluster.Contacts.SelectMany(contact => new[] { 2 * contact, (2 * contact) + 1 }))
        {
            int head = _web.Head(step);
            if (_web.MayPass(head))
            {
                (waiting.TryGetValue(head, out List<int>? list) ? list : waiting[head] = []).Add(step);
            }
            else if (IsGoal(head))
            {
                _next[Place(step)] = AtGoal;
                layer.Add(step);
            }
        }

        while (layer.Count > 0)
        {
            layer.Sort();
            layer = Before(layer, waiting);
        }
    }

    private List<int> Before(List<int> layer, Dictionary<int, List<int>> waiting)
    {
        List<int> before = [];
        foreach (int step in layer)
        {
            if (waiting.TryGetValue(_web.Tail(step), out List<int>? list))
            {
                list.RemoveAll(first =>
                {
                    bool follows = _web.MayFollow(first, step);
                    if (follows)
                    {
                        _next[Place(first)] = step;
                        before.Add(first);
                    }

                    return follows;
                });
            }
        }

        return before;
    }
}
