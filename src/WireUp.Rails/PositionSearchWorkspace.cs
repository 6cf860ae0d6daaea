using System.Collections.Immutable;
using WireUp.Layouts;

namespace WireUp.Rails;

/// <summary>
/// Finds the ways from one net to another over blades and contacts that no turnout has to be in two positions for, with the fewest
/// contacts.
/// </summary>
/// <remarks>
/// A way that only never turns back and never takes two positions of one piece one after the other is as short as any can be; those are in
/// a <see cref="GoalField"/>. Where that way does need one piece in two positions, the search splits in two: the piece is in the
/// one position, or it is not; the most promising case is tried first. Of turnouts only, whether there is a way at all is known
/// before (<see cref="AlternatingWays"/>). In general the question is as hard as any of logic (paths avoiding forbidden pairs: H. N. Gabow, S. N.
/// Maheshwari, L. J. Osterweil, "On two problems in the generation of program test paths", IEEE Transactions on Software
/// Engineering 2, 1976), so the steps are counted and the search given up when they are spent.
/// The same idea with moving agents: G. Sharon, R. Stern, A. Felner, N. Sturtevant, "Conflict-based search for optimal
/// multi-agent pathfinding", Artificial Intelligence 219 (2015).
/// </remarks>
internal sealed class PositionSearchWorkspace
{
    /// <summary>One question may take this part of the steps that are left, so that the questions after it get their share.</summary>
    private const int ShareOfOne = 8;

    private readonly ContactWeb _web;
    private readonly ILookup<PieceId, int> _ofPiece;
    private readonly int[] _seen;
    private readonly int[] _cameFrom;
    private readonly int[] _barred;
    private int _search;
    private readonly long _budget;
    private long _left;
    private long _allowed;

    /// <param name="web">The contacts between nets.</param>
    /// <param name="budget">How many steps over contacts may be made in all where cases have to be told apart.</param>
    internal PositionSearchWorkspace(ContactWeb web, long budget)
    {
        (_web, _budget, _left) = (web, budget, budget);
        _ofPiece = Enumerable.Range(0, web.Contacts.Length).ToLookup(i => web.Contacts[i].Piece);
        _seen = new int[2 * web.Contacts.Length];
        _cameFrom = new int[2 * web.Contacts.Length];
        _barred = new int[web.Contacts.Length];
    }

    /// <summary>How many steps have been made to tell cases apart.</summary>
    internal long StepsMade => Math.Min(_budget, _budget - _left);

    /// <summary>Whether the last search found nothing because it was given up.</summary>
    internal bool GaveUp { get; private set; }

    /// <summary>The contacts of the way that begins with a step and ends in the nearest goal of a field, or null.</summary>
    internal ImmutableArray<int>? Find(int step, GoalField field)
    {
        GaveUp = false;
        if (field.Way(step) is not { } relaxed || _web.Contradiction(relaxed) is not { } position)
        {
            return field.Way(step);
        }

        if (field.Exact is { } exact)
        {
            return exact.Leads(step) ? Split(step, field, relaxed, position) ?? Given(exact.Way(step)) : null;
        }

        return Split(step, field, relaxed, position);
    }

    /// <summary>The way of one contact from a fed net, or to one: it is a way when it ends in a goal.</summary>
    internal ImmutableArray<int>? Direct(int step, Func<int, bool> isGoal)
    {
        GaveUp = false;
        return isGoal(_web.Head(step)) ? [step >> 1] : null;
    }

    /// <summary>A way that is known without searching, though perhaps not the shortest.</summary>
    private ImmutableArray<int>? Given(ImmutableArray<int> way)
    {
        GaveUp = _web.Contradiction(way) is not null;
        return GaveUp ? null : way;
    }

    private ImmutableArray<int>? Split(int step, GoalField field, ImmutableArray<int> relaxed, (PieceId, string) first)
    {
        _allowed = (_left / ShareOfOne) + 1;
        _left -= _allowed;
        ImmutableArray<int>? found = Cheapest(step, field, relaxed, first);
        GaveUp = found is null && _allowed <= 0;
        _left += Math.Max(0, _allowed);
        return found;
    }

    private ImmutableArray<int>? Cheapest(int step, GoalField field, ImmutableArray<int> relaxed, (PieceId Piece, string Position) first)
    {
        PriorityQueue<Case, (int, int)> cases = new();
        int made = 0;
        cases.Enqueue(new Case(null, default, "", Only: false) { Way = relaxed, Contradiction = first }, (relaxed.Length, made++));
        while (cases.TryDequeue(out Case? most, out _))
        {
            if (most.Contradiction is not { } position)
            {
                return most.Way;
            }

            foreach (bool only in new[] { true, false })
            {
                Case next = new(most, position.Piece, position.Position, only);
                if (Relaxed(step, field, next) is { } way)
                {
                    cases.Enqueue(next with { Way = way, Contradiction = _web.Contradiction(way) }, (way.Length, made++));
                }
            }
        }

        return null;
    }

    private ImmutableArray<int>? Relaxed(int first, GoalField field, Case within)
    {
        _search++;
        Bar(within);
        if (_barred[first >> 1] == _search)
        {
            return null;
        }

        Queue<int> queue = new();
        Reach(first, -1, queue);
        while (_allowed > 0 && queue.TryDequeue(out int step))
        {
            int at = _web.Head(step);
            if (field.IsGoal(at))
            {
                return Back(step);
            }

            foreach (int contact in _web.MayPass(at) ? _web.Touching(at) : [])
            {
                _allowed--;
                int next = _web.StepFrom(at, contact);
                if (_barred[contact] != _search && _web.MayFollow(step, next) && field.Leads(next))
                {
                    Reach(next, step, queue);
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
                if ((_web.Contacts[contact].Position == part.Position) != part.Only)
                {
                    _barred[contact] = _search;
                }
            }
        }
    }

    private void Reach(int step, int from, Queue<int> queue)
    {
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
            way.Add(step >> 1);
        }

        way.Reverse();
        return [.. way];
    }

    /// <summary>What is settled about positions: that a piece is in one, or that it is not, and all that its parents say.</summary>
    private sealed record Case(Case? Parent, PieceId Piece, string Position, bool Only)
    {
        internal ImmutableArray<int> Way { get; init; } = [];

        internal (PieceId Piece, string Position)? Contradiction { get; init; }
    }
}
