using System.Collections.Immutable;
using WireUp.Layouts;

namespace WireUp.Rails;

/// <summary>
/// Finds the ways from one fed net to another over blades and contacts that no turnout has to be in two positions for, with the
/// fewest contacts.
/// </summary>
/// <remarks>
/// A breadth-first search over (contact, direction) that only forbids two positions of one turnout one after the other gives a way
/// that is as short as any can be. Where that way does need one turnout in two positions, the search splits in two: the
/// turnout is in the one position, or it is not; the most promising case is tried first. A live frog's two contacts meet at the
/// frog, so such a way passes a frog twice, which takes a ring of frogs without gaps; plain trees of turnouts, ladders of any
/// length among them, never split.
/// The same idea with moving agents: G. Sharon, R. Stern, A. Felner, N. Sturtevant, "Conflict-based search for optimal
/// multi-agent pathfinding", Artificial Intelligence 219 (2015).
/// </remarks>
internal sealed class PositionSearchWorkspace
{
    private readonly ImmutableArray<NetContact> _contacts;
    private readonly ILookup<int, int> _touching;
    private readonly ILookup<PieceId, int> _ofPiece;
    private readonly Func<int, bool> _mayPass;
    private readonly int[] _seen;
    private readonly int[] _cameFrom;
    private readonly int[] _barred;
    private int _search;
    private int _budget;

    /// <param name="contacts">The contacts between nets.</param>
    /// <param name="mayPass">Whether a way may pass through a net.</param>
    /// <param name="budget">How many breadth-first searches may be made in all.</param>
    internal PositionSearchWorkspace(ImmutableArray<NetContact> contacts, Func<int, bool> mayPass, int budget)
    {
        (_contacts, _mayPass, _budget) = (contacts, mayPass, budget);
        _touching = Enumerable.Range(0, contacts.Length)
            .SelectMany(i => new[] { (Net: contacts[i].From, i), (Net: contacts[i].To, i) })
            .ToLookup(pair => pair.Net, pair => pair.i);
        _ofPiece = Enumerable.Range(0, contacts.Length).ToLookup(i => contacts[i].Piece);
        _seen = new int[2 * contacts.Length];
        _cameFrom = new int[2 * contacts.Length];
        _barred = new int[contacts.Length];
    }

    /// <summary>Whether the last search was given up because the budget was spent.</summary>
    internal bool GaveUp { get; private set; }

    /// <summary>Indices of the contacts that touch a net.</summary>
    internal IEnumerable<int> Touching(int net) => _touching[net];

    /// <summary>The contacts of the way that begins at a net with a given contact and ends in the nearest goal, or null.</summary>
    internal ImmutableArray<int>? Find(int net, int contact, Func<int, bool> isGoal)
    {
        GaveUp = false;
        PriorityQueue<Case, (int, int)> cases = new();
        int made = 0;
        Consider(new(null, default, "", Only: false));
        while (cases.TryDequeue(out Case? most, out _))
        {
            if (Contradiction(most.Way) is not { } position)
            {
                return most.Way;
            }

            Consider(new(most, position.Piece, position.Position, Only: true));
            Consider(new(most, position.Piece, position.Position, Only: false));
        }

        return null;

        void Consider(Case next)
        {
            if (_budget-- <= 0)
            {
                GaveUp = true;
            }
            else if (Relaxed(net, contact, isGoal, next) is { } way)
            {
                cases.Enqueue(next with { Way = way }, (way.Length, made++));
            }
        }
    }

    private (PieceId Piece, string Position)? Contradiction(ImmutableArray<int> way)
    {
        Dictionary<PieceId, string> positions = [];
        foreach (NetContact contact in way.Select(index => _contacts[index]))
        {
            if (!positions.TryAdd(contact.Piece, contact.Position) && positions[contact.Piece] != contact.Position)
            {
                return (contact.Piece, contact.Position);
            }
        }

        return null;
    }

    private ImmutableArray<int>? Relaxed(int net, int first, Func<int, bool> isGoal, Case within)
    {
        _search++;
        Bar(within);
        if (_barred[first] == _search)
        {
            return null;
        }

        Queue<int> queue = new();
        Reach(first, net, -1, queue);
        while (queue.TryDequeue(out int step))
        {
            int at = Head(step);
            if (isGoal(at))
            {
                return Back(step);
            }

            if (!_mayPass(at))
            {
                continue;
            }

            NetContact came = _contacts[step / 2];
            foreach (int next in _touching[at])
            {
                NetContact contact = _contacts[next];
                if (_barred[next] != _search && (contact.Piece != came.Piece || contact.Position == came.Position))
                {
                    Reach(next, at, step, queue);
                }
            }
        }

        return null;
    }

    private void Bar(Case within)
    {
        for (Case? part = within; part is { Position.Length: > 0 }; part = part.Parent)
        {
            foreach (int contact in _ofPiece[part.Piece])
            {
                if ((_contacts[contact].Position == part.Position) != part.Only)
                {
                    _barred[contact] = _search;
                }
            }
        }
    }

    private int Head(int step) => (step & 1) == 0 ? _contacts[step / 2].To : _contacts[step / 2].From;

    private void Reach(int contact, int tail, int from, Queue<int> queue)
    {
        int step = (2 * contact) + (_contacts[contact].From == tail ? 0 : 1);
        if (_seen[step] != _search)
        {
            _seen[step] = _search;
            _cameFrom[step] = from;
            queue.Enqueue(step);
        }
    }

    private ImmutableArray<int> Back(int last)
    {
        List<int> way = [];
        for (int step = last; step >= 0; step = _cameFrom[step])
        {
            way.Add(step / 2);
        }

        way.Reverse();
        return [.. way];
    }

    /// <summary>What is settled about positions: that a turnout is in one, or that it is not, and all that its parents say.</summary>
    private sealed record Case(Case? Parent, PieceId Piece, string Position, bool Only)
    {
        internal ImmutableArray<int> Way { get; init; } = [];
    }
}

/// <summary>A contact between two nets that conducts in one position.</summary>
internal readonly record struct NetContact(int From, int To, PieceId Piece, string Position, RailLink.Contact Link);
