namespace WireUp.Rails;

/// <summary>
/// Sets that only ever grow together (union–find with path halving). The smallest member of a set stands for it, so that the
/// outcome does not depend on the order of joining.
/// Source: R. E. Tarjan, Efficiency of a good but not linear set union algorithm, Journal of the ACM 22 (1975).
/// </summary>
public sealed class DisjointSetsWorkspace
{
    private readonly int[] _parent;

    /// <summary>Every member is a set of its own.</summary>
    /// <param name="count">Members are 0 to count − 1.</param>
    public DisjointSetsWorkspace(int count)
    {
        _parent = new int[count];
        for (int i = 0; i < count; i++)
        {
            _parent[i] = i;
        }
    }

    /// <summary>The member that stands for the set.</summary>
    public int Find(int member)
    {
        while (_parent[member] != member)
        {
            _parent[member] = _parent[_parent[member]];
            member = _parent[member];
        }

        return member;
    }

    /// <summary>Joins two sets; false when they were one already.</summary>
    public bool Join(int first, int second)
    {
        (int a, int b) = (Find(first), Find(second));
        if (a == b)
        {
            return false;
        }

        _parent[Math.Max(a, b)] = Math.Min(a, b);
        return true;
    }

    /// <summary>For each member the number of its set, from 0 in the order of first members.</summary>
    public int[] Numbers()
    {
        Dictionary<int, int> numbers = [];
        int[] numberOf = new int[_parent.Length];
        for (int member = 0; member < numberOf.Length; member++)
        {
            int first = Find(member);
            if (!numbers.TryGetValue(first, out numberOf[member]))
            {
                numbers[first] = numberOf[member] = numbers.Count;
            }
        }

        return numberOf;
    }
}
