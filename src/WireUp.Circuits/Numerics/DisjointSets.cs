namespace WireUp.Circuits.Numerics;

/// <summary>
/// Sets that only ever grow together (union–find with path halving). The smallest member of a set stands for it, so that the
/// outcome does not depend on the order of joining.
/// Source: R. E. Tarjan, Efficiency of a good but not linear set union algorithm, Journal of the ACM 22 (1975).
/// </summary>
internal sealed class DisjointSets
{
    private readonly int[] _parent;

    internal DisjointSets(int count)
    {
        _parent = new int[count];
        for (int i = 0; i < count; i++)
        {
            _parent[i] = i;
        }
    }

    /// <summary>The member that stands for the set.</summary>
    internal int Find(int member)
    {
        while (_parent[member] != member)
        {
            _parent[member] = _parent[_parent[member]];
            member = _parent[member];
        }

        return member;
    }

    /// <summary>Joins two sets; false when they were one already.</summary>
    internal bool Join(int first, int second)
    {
        (int a, int b) = (Find(first), Find(second));
        if (a == b)
        {
            return false;
        }

        _parent[Math.Max(a, b)] = Math.Min(a, b);
        return true;
    }
}
