using System.Collections.Immutable;
using WireUp.Rails;

namespace WireUp.Documents.Phases;

/// <summary>Legs of the wiring that reach a rail.</summary>
[Flags]
internal enum Legs
{
    /// <summary>None.</summary>
    None = 0,

    /// <summary>Leg A.</summary>
    A = 1,

    /// <summary>Leg B.</summary>
    B = 2,
}

/// <summary>
/// Rails that current reaches through contacts only: behind a switch or a bridged gap, beyond a lift-out section, on the blades of a
/// power-routing turnout. Such a rail has the leg that it can get; where it can get either, it follows what moves. A frog, and whatever
/// is one with it, always follows its points and hands nothing on; nor does the bridge of a turntable.
/// </summary>
internal sealed class SwitchedRails
{
    private readonly Func<int, int> _islandOf;
    private readonly Legs[] _fed;
    private readonly Legs[] _reached;
    private readonly HashSet<int> _followers = [];

    /// <summary>Carries legs through contacts.</summary>
    /// <param name="graph">The rails.</param>
    /// <param name="islandOf">The stretch of metal that a node belongs to.</param>
    /// <param name="fed">The legs that feed each stretch.</param>
    /// <param name="districtOf">The district that feeds each; filled in for those reached through contacts.</param>
    public SwitchedRails(RailGraph graph, Func<int, int> islandOf, Legs[] fed, string?[] districtOf)
    {
        (_islandOf, _fed, _reached) = (islandOf, fed, [.. fed]);
        ImmutableArray<RailLink.Contact> contacts = [.. graph.Links.OfType<RailLink.Contact>()];
        foreach (RailLink.Contact contact in contacts)
        {
            foreach (int node in new[] { contact.From, contact.To })
            {
                if (graph.Nodes[node] is RailPoint.Inside) _followers.Add(islandOf(node));
            }
        }

        while (contacts.Any(contact => Carry(contact.From, contact.To, districtOf) | Carry(contact.To, contact.From, districtOf)))
        {
        }
    }

    /// <summary>How a stretch of metal is lettered.</summary>
    public RailPhase PhaseOf(int island) => (_fed[island], _reached[island]) switch
    {
        (Legs.A, _) => RailPhase.A,
        (Legs.B, _) => RailPhase.B,
        (Legs.A | Legs.B, _) => RailPhase.Both,
        _ when _followers.Contains(island) => RailPhase.Switched,
        (_, Legs.A) => RailPhase.A,
        (_, Legs.B) => RailPhase.B,
        (_, Legs.A | Legs.B) => RailPhase.Switched,
        _ => RailPhase.Unfed,
    };

    private bool Carry(int fromNode, int toNode, string?[] districtOf)
    {
        (int from, int to) = (_islandOf(fromNode), _islandOf(toNode));
        if (_fed[to] != Legs.None || (_fed[from] == Legs.None && _followers.Contains(from))) return false;
        Legs legs = _reached[to] | _reached[from];
        if (legs == _reached[to]) return false;
        _reached[to] = legs;
        if (!_followers.Contains(to)) districtOf[to] ??= districtOf[from];
        return true;
    }
}
