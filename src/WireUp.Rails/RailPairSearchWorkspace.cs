using System.Collections.Immutable;
using WireUp.Layouts;

namespace WireUp.Rails;

/// <summary>
/// Finds positions that bring opposite legs to two rails at once, where neither has a feed of its own: a way from each rail to a fed net, no
/// piece in two positions on both ways together.
/// </summary>
/// <remarks>
/// Each rail takes its shortest way. Where the two ways want one piece in two positions, the search splits: the piece is in the one position,
/// or it is not; fewest positions first. Steps are counted over all questions, and none is answered any more once they are spent.
/// </remarks>
internal sealed class RailPairSearchWorkspace(ImmutableArray<NetContact> contacts, RailNets nets, SupplyRelations relations)
{
    private const int StepsPerQuestion = 50_000, MostPieces = 12;

    /// <summary>Steps that all questions may take together: some for any layout, and more with each contact.</summary>
    private const long StepsAnyway = 200_000, StepsEachContact = 200;

    private readonly ILookup<int, int> _touching = Enumerable.Range(0, contacts.Length)
        .SelectMany(i => new[] { (Net: contacts[i].From, i), (Net: contacts[i].To, i) })
        .ToLookup(pair => pair.Net, pair => pair.i);

    private readonly ILookup<Setting, int> _ofSetting =
        Enumerable.Range(0, contacts.Length).ToLookup(i => new Setting(contacts[i].Piece, contacts[i].Position));

    private long _steps = StepsAnyway + (StepsEachContact * contacts.Length);

    /// <summary>Whether the last question was given up because the steps were spent.</summary>
    internal bool GaveUp { get; private set; }

    /// <summary>The same contacts without those of pieces that both rails can do without; of a few pieces, to bound the work.</summary>
    internal ImmutableArray<int> Needed(int first, int second, ImmutableArray<int> ways)
    {
        ImmutableArray<PieceId> pieces = [.. ways.Select(contact => contacts[contact].Piece).Distinct()];
        foreach (PieceId piece in pieces.Length is > 1 and <= MostPieces ? pieces : [])
        {
            ImmutableArray<int> rest = [.. ways.Where(contact => contacts[contact].Piece != piece)];
            ways = BringOppositeLegs(first, second, rest) ? rest : ways;
        }

        return ways;
    }

    /// <summary>Whether both rails come to opposite legs where the pieces of these contacts stand as the contacts ask.</summary>
    private bool BringOppositeLegs(int first, int second, ImmutableArray<int> settings)
    {
        HashSet<(PieceId, string)> set = [.. settings.Select(index => (contacts[index].Piece, contacts[index].Position))];
        List<FeederLeg> Reached(int rail) => Reachable(rail, contact => set.Contains((contact.Piece, contact.Position)));
        List<FeederLeg> beside = Reached(second);
        return Reached(first).Exists(leg => beside.Exists(other => relations.Between(leg, other) == MeetingKind.Short));
    }

    /// <summary>The contacts of both ways, or null where there are none or none was found within the steps.</summary>
    internal ImmutableArray<int>? Find(int first, int second)
    {
        GaveUp = false;
        if (OfOneFeeder(first, second) is { } least)
        {
            return least;
        }

        long until = Math.Max(0, _steps - StepsPerQuestion);
        ImmutableArray<int>? best = null;
        foreach (FeederLeg leg in Reachable(first, static _ => true))
        {
            (int Net, Func<int, bool> IsGoal) one = (first, net => nets.Legs[net].Any(other => IsLike(other, leg)));
            (int Net, Func<int, bool> IsGoal) two = (second, net => nets.Legs[net].Any(other => relations.Between(leg, other) == MeetingKind.Short));
            foreach (Func<ImmutableArray<int>?> way in new[] { () => Cases(one, two, until), () => OfSettingsAtHand(one, two, until) })
            {
                ImmutableArray<int>? next = way();
                best = best is { } known && !(next is { } found && Cost(found).CompareTo(Cost(known)) < 0) ? known : next;
            }
        }

        GaveUp = best is null && _steps <= until;
        return best;
    }

    /// <summary>One position that joins each rail to a fed net over one contact: nothing can take fewer. A feeder with a contact is such.</summary>
    private ImmutableArray<int>? OfOneFeeder(int first, int second)
    {
        foreach (int one in _touching[first])
        {
            foreach (int other in _ofSetting[new(contacts[one].Piece, contacts[one].Position)])
            {
                if (Beyond(one, first) is { } from && Beyond(other, second) is { } to
                    && nets.Legs[from].Any(leg => nets.Legs[to].Any(beside => relations.Between(leg, beside) == MeetingKind.Short)))
                {
                    return [one, other];
                }
            }
        }

        return null;
    }

    /// <summary>The net at the other side of a contact, or null where the contact does not touch the net.</summary>
    private int? Beyond(int contact, int net) =>
        contacts[contact].From == net ? contacts[contact].To : contacts[contact].To == net ? contacts[contact].From : null;

    /// <summary>
    /// Ways for which one position will do that both rails have a contact of, or two, one of a contact of each. Among the ways that are
    /// shortest rail by rail the one that takes fewer positions in all may be missing.
    /// </summary>
    private ImmutableArray<int>? OfSettingsAtHand((int Net, Func<int, bool> IsGoal) first, (int Net, Func<int, bool> IsGoal) second, long until)
    {
        ImmutableArray<int>? best = null;
        foreach (int one in _touching[first.Net])
        {
            foreach (int other in _touching[second.Net].Where(_ => _steps-- > until))
            {
                bool IsSet(NetContact contact) => new[] { one, other }.Any(set => contacts[set].Piece == contact.Piece && contacts[set].Position == contact.Position);
                bool agree = contacts[one].Piece != contacts[other].Piece || contacts[one].Position == contacts[other].Position;
                bool mayBeBetter = agree && !(best is { } known && Cost(known).Positions <= Cost([one, other]).Positions);
                if (mayBeBetter && Shortest(first, IsSet) is { } way && Shortest(second, IsSet) is { } beside)
                {
                    best = [.. way, .. beside];
                }
            }
        }

        return best;
    }

    /// <summary>The legs, one of each district and side, at the fed nets that a rail can be joined to.</summary>
    private List<FeederLeg> Reachable(int start, Func<NetContact, bool> allows)
    {
        Dictionary<(string, Leg), FeederLeg> legs = [];
        _ = Shortest((start, net =>
        {
            foreach (FeederLeg leg in nets.Legs[net])
            {
                legs.TryAdd((leg.District, leg.Leg), leg);
            }

            return false;
        }
        ), allows);
        return [.. legs.OrderBy(pair => pair.Key).Select(pair => pair.Value)];
    }

    private ImmutableArray<int>? Cases((int Net, Func<int, bool> IsGoal) first, (int Net, Func<int, bool> IsGoal) second, long until)
    {
        PriorityQueue<Case, (int, int, int)> cases = new();
        int made = 0;
        Consider(null);
        while (cases.TryDequeue(out Case? most, out _))
        {
            if (Contradiction(most.Ways) is not { } position)
            {
                return most.Ways;
            }

            Consider(new(most, position.Piece, position.Position, Only: true));
            Consider(new(most, position.Piece, position.Position, Only: false));
        }

        return null;

        void Consider(Case? within)
        {
            bool Allows(NetContact contact) => Case.Allows(within, contact);
            int depth = Case.Depth(within);
            if (_steps > until && Shortest(first, Allows, 1 + depth) is { } one && Shortest(second, Allows, 1 + depth) is { } other)
            {
                ImmutableArray<int> ways = [.. one, .. other];
                (int positions, int steps) = Cost(ways);
                cases.Enqueue((within ?? new(null, default, "", Only: false)) with { Ways = ways }, (positions, steps, made++));
            }
        }
    }

    private (int Positions, int Steps) Cost(ImmutableArray<int> ways) => (ways.Select(contact => contacts[contact].Piece).Distinct().Count(), ways.Length);

    private (PieceId Piece, string Position)? Contradiction(ImmutableArray<int> ways)
    {
        Dictionary<PieceId, string> positions = [];
        foreach (NetContact contact in ways.Select(index => contacts[index]))
        {
            if (!positions.TryAdd(contact.Piece, contact.Position) && positions[contact.Piece] != contact.Position)
            {
                return (contact.Piece, contact.Position);
            }
        }

        return null;
    }

    /// <summary>The contacts of a shortest way over contacts that are allowed; it passes through no net with a feed.</summary>
    private ImmutableArray<int>? Shortest((int Net, Func<int, bool> IsGoal) way, Func<NetContact, bool> allows, int stepsEach = 1)
    {
        Dictionary<int, (int Contact, int From)> cameFrom = new() { [way.Net] = (-1, -1) };
        Queue<int> queue = new([way.Net]);
        while (_steps > 0 && queue.TryDequeue(out int net))
        {
            if (way.IsGoal(net))
            {
                return Back(net, cameFrom);
            }

            foreach (int contact in nets.IsFed(net) ? [] : _touching[net])
            {
                _steps -= stepsEach;
                int next = contacts[contact].From == net ? contacts[contact].To : contacts[contact].From;
                if (allows(contacts[contact]) && cameFrom.TryAdd(next, (contact, net)))
                {
                    queue.Enqueue(next);
                }
            }
        }

        return null;
    }

    private static ImmutableArray<int> Back(int net, Dictionary<int, (int Contact, int From)> cameFrom)
    {
        List<int> way = [];
        for (int at = net; cameFrom[at].Contact >= 0; at = cameFrom[at].From)
        {
            way.Add(cameFrom[at].Contact);
        }

        return [.. way];
    }

    private static bool IsLike(FeederLeg one, FeederLeg other) => one.District == other.District && one.Leg == other.Leg;

    /// <summary>What is settled: that a piece is in a position, or that it is not, and all that was settled before.</summary>
    private sealed record Case(Case? Before, PieceId Piece, string Position, bool Only)
    {
        internal ImmutableArray<int> Ways { get; init; } = [];

        internal static int Depth(Case? settled)
        {
            int depth = 0;
            for (Case? part = settled; part is { Position.Length: > 0 }; part = part.Before)
            {
                depth++;
            }

            return depth;
        }

        internal static bool Allows(Case? settled, NetContact contact)
        {
            for (Case? part = settled; part is { Position.Length: > 0 }; part = part.Before)
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
