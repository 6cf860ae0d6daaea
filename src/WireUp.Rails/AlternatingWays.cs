using System.Collections.Immutable;

namespace WireUp.Rails;

/// <summary>
/// Decides for every step into a local cluster at once whether a consistent way to a goal begins with it, in time that grows as the
/// cluster does, and can show one, though not the shortest.
/// </summary>
/// <remarks>
/// In a local cluster a consistent way is one that passes no net twice and leaves no net over a contact of the piece by which it came.
/// That is an alternating path: each net becomes a port and an inner vertex for every piece that touches it, matched to each
/// other, and two hub vertices, matched to each other and joined to every inner vertex; contacts join ports. A path that
/// alternates passes a net from one port over its hub to another port, once.
/// Sources: J. Edmonds, "Paths, trees, and flowers", Canadian Journal of Mathematics 17 (1965), pages 449–467; S. Szeider, "Finding paths in
/// graphs avoiding forbidden transitions", Discrete Applied Mathematics 126 (2003), pages 261–273, for which rules between
/// one edge and the next leave the question easy (both from memory).
/// </remarks>
internal sealed class AlternatingWays
{
    /// <summary>The one vertex that stands for all goals.</summary>
    private const int Goal = 0;

    private readonly ContactWeb _web;
    private readonly Dictionary<(int Net, int Owner), int> _ports = [];
    private readonly Dictionary<int, (int One, int Other)> _hubs = [];
    private readonly Dictionary<(int From, int To), int> _contacts = [];
    private readonly AlternatingTreeWorkspace _tree = new();

    internal AlternatingWays(ContactCluster cluster, Func<int, bool> isGoal)
    {
        _web = cluster.Web;
        foreach (int contact in cluster.Contacts)
        {
            int? from = VertexAt(_web.Contacts[contact].From, contact, isGoal), to = VertexAt(_web.Contacts[contact].To, contact, isGoal);
            if (from is { } one && to is { } other)
            {
                _tree.Join(one, other);
                _contacts.TryAdd((one, other), contact);
                _contacts.TryAdd((other, one), contact);
            }
        }

        _tree.Grow(Goal);
    }

    /// <summary>Whether a consistent way begins with a step into the cluster.</summary>
    internal bool Leads(int step) => _tree.IsEven(PortOf(step));

    /// <summary>The contacts of such a way.</summary>
    internal ImmutableArray<int> Way(int step)
    {
        ImmutableArray<int>.Builder way = ImmutableArray.CreateBuilder<int>();
        way.Add(step >> 1);
        ImmutableArray<int> vertices = _tree.PathToRoot(PortOf(step));
        for (int i = 1; i < vertices.Length; i++)
        {
            if (_contacts.TryGetValue((vertices[i - 1], vertices[i]), out int contact))
            {
                way.Add(contact);
            }
        }

        return way.ToImmutable();
    }

    private int PortOf(int step) => _ports[(_web.Head(step), _web.Owner(step >> 1))];

    /// <summary>The port of a contact at a net, the goal, or null at a fed net that is none.</summary>
    private int? VertexAt(int net, int contact, Func<int, bool> isGoal)
    {
        if (!_web.MayPass(net))
        {
            return isGoal(net) ? Goal : null;
        }

        if (_ports.TryGetValue((net, _web.Owner(contact)), out int port))
        {
            return port;
        }

        if (!_hubs.TryGetValue(net, out (int One, int Other) hub))
        {
            hub = _hubs[net] = _tree.AddMatched();
        }

        (port, int inner) = _tree.AddMatched();
        _tree.Join(inner, hub.One);
        _tree.Join(inner, hub.Other);
        return _ports[(net, _web.Owner(contact))] = port;
    }
}
