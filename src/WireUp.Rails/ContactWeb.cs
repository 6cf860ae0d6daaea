using System.Collections.Immutable;
using WireUp.Layouts;

namespace WireUp.Rails;

/// <summary>A contact between two nets that conducts in one position.</summary>
internal readonly record struct NetContact(int From, int To, PieceId Piece, string Position, RailLink.Contact Link);

/// <summary>
/// The contacts between nets. A step is a contact passed in one direction: twice the contact's index, and one more for the way
/// from its <c>To</c> to its <c>From</c>. Nets without feed that hang together by contacts are a cluster; a way goes through one
/// cluster, for a fed net is where it ends.
/// </summary>
internal sealed class ContactWeb
{
    private readonly int _nets;
    private readonly Func<int, bool> _isFed;
    private readonly int[] _firstOfNet;
    private readonly int[] _touching;
    private readonly int[] _owner;
    private readonly int[] _position;
    private readonly int[] _clusterOfNet;
    private readonly int[] _placeInCluster;
    private readonly ImmutableArray<ContactCluster> _clusters;

    /// <param name="contacts">Contacts, each between two nets.</param>
    /// <param name="nets">How many nets there are.</param>
    /// <param name="isFed">Whether a net has a feed of its own.</param>
    internal ContactWeb(ImmutableArray<NetContact> contacts, int nets, Func<int, bool> isFed)
    {
        (Contacts, _nets, _isFed) = (contacts, nets, isFed);
        (_owner, _position) = (Numbered(contact => contact.Piece), Numbered(contact => contact.Position));
        (_firstOfNet, _touching) = ByNet();
        _placeInCluster = new int[Contacts.Length];
        (_clusterOfNet, _clusters) = Clusters();
    }

    /// <summary>The contacts of a layout that join two nets, in the order of the graph.</summary>
    internal static ContactWeb Of(RailGraph graph, RailNets nets) => new(ContactsOf(graph, nets), nets.Count, nets.IsFed);

    /// <summary>The same without the moments at which something moves from one position to another.</summary>
    internal static ContactWeb AtRest(RailGraph graph, RailNets nets) =>
        new([.. ContactsOf(graph, nets).Where(contact => !Moment.Is(contact.Position))], nets.Count, nets.IsFed);

    private static ImmutableArray<NetContact> ContactsOf(RailGraph graph, RailNets nets) =>
    [
        .. from link in graph.Links.OfType<RailLink.Contact>()
           let contact = new NetContact(nets.NetOf[link.From], nets.NetOf[link.To], link.Piece, link.Position, link)
           where contact.From != contact.To
           select contact,
    ];

    /// <summary>Every contact that joins two nets, in the order of the graph.</summary>
    internal ImmutableArray<NetContact> Contacts { get; }

    /// <summary>Indices of the contacts that touch a net, ascending.</summary>
    internal ReadOnlySpan<int> Touching(int net) => _touching.AsSpan(_firstOfNet[net].._firstOfNet[net + 1]);

    /// <summary>The net at the other side of a contact.</summary>
    internal int Opposite(int net, int contact) => Contacts[contact].From == net ? Contacts[contact].To : Contacts[contact].From;

    /// <summary>A position that contacts ask for of a piece of which one before them asks for another, or null where all agree.</summary>
    internal (PieceId Piece, string Position)? Contradiction(IEnumerable<int> contacts)
    {
        Dictionary<PieceId, string> positions = [];
        foreach (int index in contacts)
        {
            NetContact contact = Contacts[index];
            if (!positions.TryAdd(contact.Piece, contact.Position) && positions[contact.Piece] != contact.Position)
            {
                return (contact.Piece, contact.Position);
            }
        }

        return null;
    }

    /// <summary>Whether a way may pass through a net.</summary>
    internal bool MayPass(int net) => !_isFed(net);

    /// <summary>The step over a contact that begins at a net.</summary>
    internal int StepFrom(int net, int contact) => (2 * contact) + (Contacts[contact].From == net ? 0 : 1);

    internal int Head(int step) => (step & 1) == 0 ? Contacts[step >> 1].To : Contacts[step >> 1].From;

    internal int Tail(int step) => (step & 1) == 0 ? Contacts[step >> 1].From : Contacts[step >> 1].To;

    /// <summary>A number for the piece or switch that a contact belongs to.</summary>
    internal int Owner(int contact) => _owner[contact];

    /// <summary>Whether two contacts belong to one piece and conduct in different positions of it.</summary>
    internal bool Exclude(int one, int other) => _owner[one] == _owner[other] && _position[one] != _position[other];

    /// <summary>
    /// Whether one step may follow another: not into the net that the first one came from, and not over a contact that excludes it.
    /// </summary>
    internal bool MayFollow(int first, int second) => Head(second) != Tail(first) && !Exclude(first >> 1, second >> 1);

    /// <summary>The cluster that a step leads into, or null when it ends in a fed net.</summary>
    internal ContactCluster? ClusterAt(int step) => _clusterOfNet[Head(step)] is var cluster and >= 0 ? _clusters[cluster] : null;

    /// <summary>Place of a contact in the list of its cluster.</summary>
    internal int PlaceInCluster(int contact) => _placeInCluster[contact];

    private int[] Numbered<T>(Func<NetContact, T> what)
        where T : notnull
    {
        Dictionary<T, int> numbers = [];
        return [.. Contacts.Select(contact => numbers.TryGetValue(what(contact), out int number) ? number : numbers[what(contact)] = numbers.Count)];
    }

    private (int[] First, int[] Touching) ByNet()
    {
        int[] first = new int[_nets + 1], touching = new int[2 * Contacts.Length];
        foreach (NetContact contact in Contacts)
        {
            first[contact.From + 1]++;
            first[contact.To + 1]++;
        }

        for (int net = 0; net < _nets; net++)
        {
            first[net + 1] += first[net];
        }

        int[] next = [.. first];
        for (int i = 0; i < Contacts.Length; i++)
        {
            touching[next[Contacts[i].From]++] = i;
            touching[next[Contacts[i].To]++] = i;
        }

        return (first, touching);
    }

    private (int[] ClusterOfNet, ImmutableArray<ContactCluster> Clusters) Clusters()
    {
        DisjointSetsWorkspace union = new(_nets);
        foreach (NetContact contact in Contacts.Where(contact => MayPass(contact.From) && MayPass(contact.To)))
        {
            union.Join(contact.From, contact.To);
        }

        int[] clusterOf = new int[_nets];
        Array.Fill(clusterOf, -1);
        List<ImmutableArray<int>.Builder> contacts = [];
        Dictionary<int, int> numberOf = [];
        for (int i = 0; i < Contacts.Length; i++)
        {
            (int from, int to) = (Contacts[i].From, Contacts[i].To);
            int net = MayPass(from) ? from : to;
            if (!MayPass(net))
            {
                continue;
            }

            int root = union.Find(net);
            if (!numberOf.TryGetValue(root, out int number))
            {
                numberOf[root] = number = contacts.Count;
                contacts.Add(ImmutableArray.CreateBuilder<int>());
            }

            _placeInCluster[i] = contacts[number].Count;
            contacts[number].Add(i);
            clusterOf[from] = MayPass(from) ? number : -1;
            clusterOf[to] = MayPass(to) ? number : -1;
        }

        return (clusterOf, [.. contacts.Select((list, i) => new ContactCluster(this, i, list.ToImmutable()))]);
    }
}

/// <summary>Nets without feed that hang together by contacts.</summary>
/// <param name="Web">The contacts it is part of.</param>
/// <param name="Number">Its number, from 0.</param>
/// <param name="Contacts">The contacts that touch its nets, ascending.</param>
internal sealed record ContactCluster(ContactWeb Web, int Number, ImmutableArray<int> Contacts)
{
    private bool? _isLocal;
    private ImmutableArray<int>? _fedNets;

    /// <summary>The fed nets round it, ascending.</summary>
    internal ImmutableArray<int> FedNets => _fedNets ??=
    [
        .. Contacts.SelectMany(contact => new[] { Web.Contacts[contact].From, Web.Contacts[contact].To }).Where(net => !Web.MayPass(net)).Distinct().Order(),
    ];

    /// <summary>
    /// Whether contacts that exclude each other always meet in a net, and no two contacts of one piece in one position lead from one net to
    /// two others. That is so of all turnouts with two legs; a way that passes no net twice is then consistent
    /// when no two of its steps that follow each other exclude each other.
    /// </summary>
    internal bool IsLocal => _isLocal ??= Contacts.GroupBy(Web.Owner).All(owner => AreLocal([.. owner]));

    private bool AreLocal(ImmutableArray<int> contacts)
    {
        for (int i = 0; i < contacts.Length; i++)
        {
            for (int k = i + 1; k < contacts.Length; k++)
            {
                NetContact one = Web.Contacts[contacts[i]], other = Web.Contacts[contacts[k]];
                bool meet = one.From == other.From || one.From == other.To || one.To == other.From || one.To == other.To;
                bool parallel = (one.From == other.From && one.To == other.To) || (one.From == other.To && one.To == other.From);
                if (one.Position == other.Position ? meet && !parallel : !meet)
                {
                    return false;
                }
            }
        }

        return true;
    }
}
