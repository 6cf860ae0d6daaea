using System.Collections.Immutable;
using WireUp.Layouts;

namespace WireUp.Rails;

/// <summary>
/// Looks for positions in which two rails, were they joined to each other, would bring together wires that must not meet: because a
/// wheel stands on the gap between them, or because the gap is not there. It looks outward from the two rails only as far as the
/// nearest fed rails, so that its cost does not grow with the layout.
/// </summary>
/// <remarks>
/// A breadth-first search from each of the two rails gives the nearest wires; the closest two that must not meet are a way. Where that way
/// needs one turnout in two positions the search splits, as in <see cref="PositionSearchWorkspace"/>.
/// </remarks>
internal sealed class BridgeSearchWorkspace
{
    private const int MostCases = 2_000;

    /// <summary>One question may take this part of the steps that are left, so that the questions after it get their share.</summary>
    private const int ShareOfOne = 8;

    /// <summary>Steps that all questions may take together: some for any layout, and more with each contact, so that the cost grows with the layout and no faster.</summary>
    private const long StepsAnyway = 200_000, StepsEachContact = 400;

    private long _steps;
    private long _until;

    private readonly RailNets _nets;
    private readonly SupplyRelations _relations;
    private readonly ContactWeb _web;
    private readonly FedKinds _kinds;
    private readonly int _kindCount;
    private readonly Dictionary<int, List<(int Net, int Tie)>> _ties = [];

    internal BridgeSearchWorkspace(ContactWeb web, RailNets nets, SupplyRelations relations)
    {
        (_web, _nets, _relations) = (web, nets, relations);
        _steps = StepsAnyway + (StepsEachContact * web.Contacts.Length);
        _kinds = new(nets, relations);
        _kindCount = Enumerable.Range(0, nets.Count).Where(nets.IsFed).Select(_kinds.Of).Distinct().Count();
    }

    /// <summary>Whether the last search was given up.</summary>
    internal bool GaveUp { get; private set; }

    /// <summary>The contacts, by the numbers that answers use.</summary>
    internal ImmutableArray<NetContact> Contacts => _web.Contacts;

    /// <summary>From now on two nets are taken as joined; answers tell of the tie by its number.</summary>
    internal void Tie(int first, int second, int tie)
    {
        foreach ((int one, int other) in new[] { (first, second), (second, first) })
        {
            if (!_ties.TryGetValue(one, out List<(int, int)>? list))
            {
                _ties[one] = list = [];
            }

            list.Add((other, tie));
        }
    }

    /// <summary>The closest wires that must not meet, of the worst kind there is, or null.</summary>
    /// <param name="near">One net.</param>
    /// <param name="far">The other net.</param>
    /// <param name="given">Positions that are settled.</param>
    /// <param name="matters">Whether a meeting of two wires is asked for.</param>
    internal Bridging? Worst(
        int near, int far, ImmutableSortedDictionary<PieceId, string> given, Func<MeetingKind, FeederLeg, FeederLeg, bool> matters)
    {
        foreach (MeetingKind kind in new[] { MeetingKind.Short, MeetingKind.Reversing, MeetingKind.Joined })
        {
            if (Find(near, far, given, (from, to) => Between(from, to, kind, matters)) is { } found)
            {
                return found with { Kind = kind };
            }
        }

        return null;
    }

    /// <summary>The nets with a feed that a net reaches in positions that agree with those given, nearest first, found out as they are asked for.</summary>
    internal IEnumerable<NetWay> FedFrom(int net, ImmutableSortedDictionary<PieceId, string> given)
    {
        Begin();
        foreach (NetWay way in ReachFed(net, null, given))
        {
            yield return way;
        }
    }

    /// <summary>Whether the last question ran out of steps, so that what it did not find may be there.</summary>
    internal bool RanOut => _steps <= _until;

    private void Begin() => _until = _steps - (_steps / ShareOfOne) - 1;

    /// <summary>The nets that a net is one with by the ties alone, itself first.</summary>
    internal ImmutableArray<NetWay> Tied(int net)
    {
        List<NetWay> reached = [new(net, [], [])];
        HashSet<int> seen = [net];
        for (int i = 0; i < reached.Count; i++)
        {
            foreach ((int next, int tie) in _ties.GetValueOrDefault(reached[i].Net) ?? [])
            {
                if (seen.Add(next))
                {
                    reached.Add(new(next, reached[i].Contacts, reached[i].Ties.Add(tie)));
                }
            }
        }

        return [.. reached];
    }

    private Bridging? Find(
        int near, int far, ImmutableSortedDictionary<PieceId, string> given, Func<int, int, (FeederLeg From, FeederLeg To)?> judge)
    {
        GaveUp = false;
        if (near == far)
        {
            return null;
        }

        Begin();

        PriorityQueue<(SettledPositions? Case, Bridging Way), (int, int)> cases = new();
        int made = 0;
        Consider(null);
        while (cases.TryDequeue(out (SettledPositions? Case, Bridging Way) best, out _))
        {
            if (_web.Contradiction(best.Way.Near.Contacts.Concat(best.Way.Far.Contacts)) is not { } position)
            {
                return best.Way;
            }

            Consider(new(best.Case, position.Piece, position.Position, Only: true));
            Consider(new(best.Case, position.Piece, position.Position, Only: false));
        }

        return null;

        void Consider(SettledPositions? next)
        {
            if (made >= MostCases || _steps <= _until)
            {
                GaveUp = true;
            }
            else if (Closest(near, far, (next, given), judge) is { } way)
            {
                cases.Enqueue((next, way), (way.Near.Contacts.Length + way.Far.Contacts.Length, made++));
            }
        }
    }

    private Bridging? Closest(
        int near, int far, (SettledPositions? Case, ImmutableSortedDictionary<PieceId, string> Given) within, Func<int, int, (FeederLeg From, FeederLeg To)?> judge)
    {
        ImmutableArray<NetWay> fromFar = [.. FedOf(far, within)];
        Bridging? best = null;
        foreach (NetWay one in fromFar.IsEmpty ? [] : FedOf(near, within))
        {
            if (one.Contacts.Length + fromFar[0].Contacts.Length >= Length(best))
            {
                break;
            }

            foreach (NetWay other in fromFar)
            {
                bool closer = one.Contacts.Length + other.Contacts.Length < Length(best);
                if (closer && one.Net != other.Net && judge(one.Net, other.Net) is { } pair)
                {
                    best = new(one, other, pair.From, pair.To);
                }
            }
        }

        return best;

        static int Length(Bridging? way) => way is null ? int.MaxValue : way.Near.Contacts.Length + way.Far.Contacts.Length;
    }

    /// <summary>
    /// The nearest fed nets, two of each kind: of the closest two that must not meet, each is the nearest of its kind or, where that is the same
    /// net for both, the next.
    /// </summary>
    private IEnumerable<NetWay> FedOf(int net, (SettledPositions? Case, ImmutableSortedDictionary<PieceId, string> Given) within)
    {
        Dictionary<int, int> found = [];
        int missing = 2 * _kindCount;
        foreach (NetWay way in ReachFed(net, within.Case, within.Given).Where(way => !_kinds.IsSpoilt(way.Net)))
        {
            int known = found.GetValueOrDefault(_kinds.Of(way.Net));
            if (known < 2)
            {
                found[_kinds.Of(way.Net)] = known + 1;
                yield return way;
                if (--missing == 0)
                {
                    yield break;
                }
            }
        }
    }

    /// <summary>
    /// Every net with a feed that is reached over contacts and ties through nets without one, nearest first; one with a feed is the end of
    /// a way. It is found out as it is asked for.
    /// </summary>
    private IEnumerable<NetWay> ReachFed(int start, SettledPositions? within, ImmutableSortedDictionary<PieceId, string> given)
    {
        HashSet<(int Net, int By)> seen = [(start, -1)];
        HashSet<int> nets = [];
        Queue<Step> queue = new([new(start, -1, -1, null)]);
        Stack<Step> tied = new();
        while (_steps > _until && (tied.TryPop(out Step? at) || queue.TryDequeue(out at)))
        {
            _steps--;
            if (_nets.IsFed(at.Net))
            {
                if (nets.Add(at.Net))
                {
                    yield return at.Way();
                }

                continue;
            }

            foreach ((int next, int tie) in _ties.GetValueOrDefault(at.Net) ?? [])
            {
                if (seen.Add((next, at.LastContact)))
                {
                    tied.Push(new(next, -1, tie, at));
                }
            }

            foreach (int index in _web.Touching(at.Net))
            {
                int next = _web.Opposite(at.Net, index);
                bool turnsBack = at.LastContact >= 0 && _web.Exclude(at.LastContact, index);
                if (!turnsBack && Allows(_web.Contacts[index], within, given) && seen.Add((next, index)))
                {
                    queue.Enqueue(new(next, index, -1, at));
                }
            }
        }

        GaveUp |= queue.Count > 0 || tied.Count > 0;
    }

    private IEnumerable<(MeetingKind Kind, FeederLeg From, FeederLeg To)> Kinds(int first, int second) =>
        from one in _nets.Legs[first]
        from other in _nets.Legs[second]
        let kind = _relations.Between(one, other)
        where kind is not null
        select (kind.Value, one, other);

    private (FeederLeg From, FeederLeg To)? Between(int first, int second, MeetingKind kind, Func<MeetingKind, FeederLeg, FeederLeg, bool> matters)
    {
        foreach ((MeetingKind found, FeederLeg from, FeederLeg to) in Kinds(first, second))
        {
            if (found == kind && matters(found, from, to))
            {
                return (from, to);
            }
        }

        return null;
    }

    private static bool Allows(NetContact contact, SettledPositions? within, ImmutableSortedDictionary<PieceId, string> given) =>
        !(given.TryGetValue(contact.Piece, out string? settled) && settled != contact.Position) && SettledPositions.Allow(within, contact);

    /// <summary>One step of a way: the net it leads to, over a contact or a tie, and the step before.</summary>
    private sealed class Step(int net, int contact, int tie, Step? before)
    {
        internal int Net => net;

        /// <summary>The last contact passed, or −1.</summary>
        internal int LastContact { get; } = contact >= 0 ? contact : before?.LastContact ?? -1;

        private int Contact => contact;

        private int Tie => tie;

        private Step? Before => before;

        internal NetWay Way()
        {
            List<int> contacts = [], ties = [];
            for (Step? step = this; step is not null; step = step.Before)
            {
                if (step.Contact >= 0)
                {
                    contacts.Add(step.Contact);
                }
                else if (step.Tie >= 0)
                {
                    ties.Add(step.Tie);
                }
            }

            contacts.Reverse();
            ties.Reverse();
            return new(Net, [.. contacts], [.. ties]);
        }
    }
}

/// <summary>A net and the contacts and ties passed on the way to it.</summary>
internal sealed record NetWay(int Net, ImmutableArray<int> Contacts, ImmutableArray<int> Ties);

/// <summary>Two wires that meet when two rails are joined.</summary>
/// <param name="Near">The way from the one rail to the one wire's net.</param>
/// <param name="Far">The way from the other rail to the other wire's net.</param>
/// <param name="From">The one wire.</param>
/// <param name="To">The other wire.</param>
internal sealed record Bridging(NetWay Near, NetWay Far, FeederLeg From, FeederLeg To)
{
    internal MeetingKind Kind { get; init; }
}
