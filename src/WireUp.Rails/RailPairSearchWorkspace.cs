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
internal sealed class RailPairSearchWorkspace(ContactWeb web, RailNets nets, SupplyRelations relations)
{
    private const int StepsPerQuestion = 50_000, MostPieces = 12;

    /// <summary>Steps that all questions may take together: some for any layout, and more with each contact.</summary>
    private const long StepsAnyway = 200_000, StepsEachContact = 200;

    private readonly ImmutableArray<NetContact> _contacts = web.Contacts;

    private readonly ILookup<Setting, int> _ofSetting =
        Enumerable.Range(0, web.Contacts.Length).ToLookup(i => new Setting(web.Contacts[i].Piece, web.Contacts[i].Position));

    private long _steps = StepsAnyway + (StepsEachContact * web.Contacts.Length);

    /// <summary>Whether the last question was given up because the steps were spent.</summary>
    internal bool GaveUp { get; private set; }

    /// <summary>The same contacts without those of pieces that both rails can do without; of a few pieces, to bound the work.</summary>
    internal ImmutableArray<int> Needed(int first, int second, ImmutableArray<int> ways)
    {
        ImmutableArray<PieceId> pieces = [.. ways.Select(contact => _contacts[contact].Piece).Distinct()];
        foreach (PieceId piece in pieces.Length is > 1 and <= MostPieces ? pieces : [])
        {
            ImmutableArray<int> rest = [.. ways.Where(contact => _contacts[contact].Piece != piece)];
            ways = BringOppositeLegs(first, second, rest) ? rest : ways;
        }

        return ways;
    }

    /// <summary>Whether both rails come to opposite legs where the pieces of these contacts stand as the contacts ask.</summary>
    private bool BringOppositeLegs(int first, int second, ImmutableArray<int> settings)
    {
        HashSet<(PieceId, string)> set = [.. settings.Select(index => (_contacts[index].Piece, _contacts[index].Position))];
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
            (int Net, Func<int, bool> IsGoal) one = (first, net => nets.Legs[net].Any(other => other.IsLike(leg)));
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
        foreach (int one in web.Touching(first))
        {
            foreach (int other in _ofSetting[new(_contacts[one].Piece, _contacts[one].Position)])
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
        _contacts[contact].From == net ? _contacts[contact].To : _contacts[contact].To == net ? _contacts[contact].From : null;

    /// <summary>
    /// Ways for which one position will do that both rails have a contact of, or two, one of a contact of each. Among the ways that are
    /// shortest rail by rail the one that takes fewer positions in all may be missing.
    /// </summary>
    private ImmutableArray<int>? OfSettingsAtHand((int Net, Func<int, bool> IsGoal) first, (int Net, Func<int, bool> IsGoal) second, long until)
    {
        ImmutableArray<int>? best = null;
        foreach (int one in web.Touching(first.Net))
        {
            foreach (int other in web.Touching(second.Net))
            {
                if (_steps-- <= until)
                {
                    continue;
                }

                bool IsSet(NetContact contact) => new[] { one, other }.Any(set => _contacts[set].Piece == contact.Piece && _contacts[set].Position == contact.Position);
                bool agree = _contacts[one].Piece != _contacts[other].Piece || _contacts[one].Position == _contacts[other].Position;
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
        PriorityQueue<(SettledPositions? Case, ImmutableArray<int> Ways), (int, int, int)> cases = new();
        int made = 0;
        Consider(null);
        while (cases.TryDequeue(out (SettledPositions? Case, ImmutableArray<int> Ways) most, out _))
        {
            if (web.Contradiction(most.Ways) is not { } position)
            {
                return most.Ways;
            }

            Consider(new(most.Case, position.Piece, position.Position, Only: true));
            Consider(new(most.Case, position.Piece, position.Position, Only: false));
        }

        return null;

        void Consider(SettledPositions? within)
        {
            bool Allows(NetContact contact) => SettledPositions.Allow(within, contact);
            int depth = within?.Depth ?? 0;
            if (_steps > until && Shortest(first, Allows, 1 + depth) is { } one && Shortest(second, Allows, 1 + depth) is { } other)
            {
                ImmutableArray<int> ways = [.. one, .. other];
                (int positions, int steps) = Cost(ways);
                cases.Enqueue((within, ways), (positions, steps, made++));
            }
        }
    }

    private (int Positions, int Steps) Cost(ImmutableArray<int> ways) => (ways.Select(contact => _contacts[contact].Piece).Distinct().Count(), ways.Length);

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

            foreach (int contact in nets.IsFed(net) ? [] : web.Touching(net))
            {
                _steps -= stepsEach;
                int next = web.Opposite(net, contact);
                if (allows(_contacts[contact]) && cameFrom.TryAdd(next, (contact, net)))
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
}
