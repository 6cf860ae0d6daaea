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

    private long _steps = 5_000_000;
    private long _until;

    private readonly RailNets _nets;
    private readonly SupplyRelations _relations;
    private readonly ImmutableArray<NetContact> _contacts;
    private readonly ILookup<int, int> _touching;
    private readonly bool[] _isSpoilt;
    private readonly Dictionary<int, List<(int Net, int Tie)>> _ties = [];

    internal BridgeSearchWorkspace(RailGraph graph, RailNets nets, SupplyRelations relations)
    {
        (_nets, _relations) = (nets, relations);
        _contacts = ContactWeb.AtRest(graph, nets).Contacts;
        _touching = Enumerable.Range(0, _contacts.Length)
            .SelectMany(i => new[] { (Net: _contacts[i].From, i), (Net: _contacts[i].To, i) })
            .ToLookup(pair => pair.Net, pair => pair.i);
        _isSpoilt = [.. Enumerable.Range(0, nets.Count).Select(net => Kinds(net, net).Any())];
    }

    /// <summary>Whether the last search was given up.</summary>
    internal bool GaveUp { get; private set; }

    /// <summary>The contacts, by the numbers that answers use.</summary>
    internal ImmutableArray<NetContact> Contacts => _contacts;

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

    /// <summary>The nets with a feed that a net reaches in positions that agree with those given, nearest first.</summary>
    internal ImmutableArray<NetWay> FedFrom(int net, ImmutableSortedDictionary<PieceId, string> given)
    {
        Begin();
        return [.. Reach(net, new(null, default, "", Only: false), given).Where(way => _nets.IsFed(way.Net))];
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

        PriorityQueue<(Case Case, Bridging Way), (int, int)> cases = new();
        int made = 0;
        Consider(new(null, default, "", Only: false));
        while (cases.TryDequeue(out (Case Case, Bridging Way) best, out _))
        {
            if (Contradiction(best.Way) is not { } position)
            {
                return best.Way;
            }

            Consider(new(best.Case, position.Piece, position.Position, Only: true));
            Consider(new(best.Case, position.Piece, position.Position, Only: false));
        }

        return null;

        void Consider(Case next)
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
        int near, int far, (Case Case, ImmutableSortedDictionary<PieceId, string> Given) within, Func<int, int, (FeederLeg From, FeederLeg To)?> judge)
    {
        ImmutableArray<NetWay> fromNear = FedOf(near, within), fromFar = FedOf(far, within);
        Bridging? best = null;
        foreach (NetWay one in fromNear)
        {
            foreach (NetWay other in fromFar)
            {
                int length = one.Contacts.Length + other.Contacts.Length;
                bool closer = best is null || length < best.Near.Contacts.Length + best.Far.Contacts.Length;
                if (closer && one.Net != other.Net && judge(one.Net, other.Net) is { } pair)
                {
                    best = new(one, other, pair.From, pair.To);
                }
            }
        }

        return best;
    }

    private ImmutableArray<NetWay> FedOf(int net, (Case Case, ImmutableSortedDictionary<PieceId, string> Given) within) =>
        [.. Reach(net, within.Case, within.Given).Where(way => _nets.IsFed(way.Net) && !_isSpoilt[way.Net])];

    /// <summary>Every net reached over contacts and ties through nets without a feed; a net without a feed is passed, one with a feed is the end of a way.</summary>
    private List<NetWay> Reach(int start, Case within, ImmutableSortedDictionary<PieceId, string> given)
    {
        List<NetWay> reached = [];
        HashSet<(int Net, int By)> seen = [(start, -1)];
        HashSet<int> nets = [];
        Queue<(NetWay Way, int By)> queue = new([(new(start, [], []), -1)]);
        while (_steps > _until && queue.TryDequeue(out (NetWay Way, int By) at))
        {
            // What a step costs grows with the way, which each step copies.
            _steps -= 1 + (at.Way.Contacts.Length / 8);
            if (nets.Add(at.Way.Net))
            {
                reached.Add(at.Way);
            }

            if (_nets.IsFed(at.Way.Net))
            {
                continue;
            }

            foreach ((int next, int tie) in _ties.GetValueOrDefault(at.Way.Net) ?? [])
            {
                if (seen.Add((next, at.By)))
                {
                    queue.Enqueue((at.Way with { Net = next, Ties = at.Way.Ties.Add(tie) }, at.By));
                }
            }

            foreach (int index in _touching[at.Way.Net])
            {
                NetContact contact = _contacts[index];
                int next = contact.From == at.Way.Net ? contact.To : contact.From;
                bool turnsBack = at.By >= 0 && _contacts[at.By].Piece == contact.Piece && _contacts[at.By].Position != contact.Position;
                if (!turnsBack && within.Allows(contact, given) && seen.Add((next, index)))
                {
                    queue.Enqueue((at.Way with { Net = next, Contacts = at.Way.Contacts.Add(index) }, index));
                }
            }
        }

        GaveUp |= queue.Count > 0;
        return reached;
    }

    private (PieceId Piece, string Position)? Contradiction(Bridging way)
    {
        Dictionary<PieceId, string> positions = [];
        foreach (NetContact contact in way.Near.Contacts.Concat(way.Far.Contacts).Select(index => _contacts[index]))
        {
            if (!positions.TryAdd(contact.Piece, contact.Position) && positions[contact.Piece] != contact.Position)
            {
                return (contact.Piece, contact.Position);
            }
        }

        return null;
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

    /// <summary>What is settled about positions: that a piece is in one, or that it is not, and all that its parents say.</summary>
    private sealed record Case(Case? Parent, PieceId Piece, string Position, bool Only)
    {
        internal bool Allows(NetContact contact, ImmutableSortedDictionary<PieceId, string> given)
        {
            if (given.TryGetValue(contact.Piece, out string? settled) && settled != contact.Position)
            {
                return false;
            }

            for (Case? part = this; part is { Position.Length: > 0 }; part = part.Parent)
            {
                if (part.Piece == contact.Piece && (part.Position == contact.Position) != part.Only)
                {
                    return false;
                }
            }

            return true;
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
