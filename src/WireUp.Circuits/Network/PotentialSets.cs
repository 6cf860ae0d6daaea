namespace WireUp.Circuits.Network;

/// <summary>
/// Nodes whose potentials differ by a known amount: joined by no resistance, or by an ideal source. Each set is one unknown, so
/// that nothing has to be given a tiny resistance. Union–find that carries the difference to the set's root along.
/// </summary>
internal sealed class PotentialSets
{
    private readonly int[] _parent;
    private readonly double[] _overParent;

    internal PotentialSets(int count)
    {
        _parent = [.. Enumerable.Range(0, count)];
        _overParent = new double[count];
    }

    /// <summary>The root of a node's set and the node's potential over that of the root, volt.</summary>
    internal (int Root, double Volts) Find(int node)
    {
        int root = node;
        double volts = 0;
        while (_parent[root] != root)
        {
            volts += _overParent[root];
            root = _parent[root];
        }

        double left = volts;
        while (_parent[node] != root && node != root)
        {
            (int next, double step) = (_parent[node], _overParent[node]);
            (_parent[node], _overParent[node]) = (root, left);
            left -= step;
            node = next;
        }

        return (root, volts);
    }

    /// <summary>Fixes the potential of one node over another; false when something else is fixed for the two already.</summary>
    internal bool Join(int node, int other, double volts)
    {
        ((int root, double over), (int otherRoot, double otherOver)) = (Find(node), Find(other));
        if (root == otherRoot)
        {
            return Math.Abs(over - otherOver - volts) <= 1e-9 * (1 + Math.Abs(volts));
        }

        // potential(node) = potential(other) + volts, written for the roots; the smaller index stays root.
        double rootOverOther = volts + otherOver - over;
        if (root > otherRoot)
        {
            (_parent[root], _overParent[root]) = (otherRoot, rootOverOther);
        }
        else
        {
            (_parent[otherRoot], _overParent[otherRoot]) = (root, -rootOverOther);
        }

        return true;
    }
}
