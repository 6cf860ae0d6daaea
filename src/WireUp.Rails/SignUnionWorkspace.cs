namespace WireUp.Rails;

/// <summary>
/// Sets of things that are known to be alike or unlike: union–find in which every member carries whether it differs from its
/// root. Source: B. A. Galler, M. J. Fischer, An improved equivalence algorithm, CACM 7 (1964), with a parity on each link.
/// </summary>
public sealed class SignUnionWorkspace
{
    private readonly int[] _parent;
    private readonly bool[] _differs;

    /// <summary>Nothing is known yet.</summary>
    /// <param name="count">Members are 0 to count − 1.</param>
    public SignUnionWorkspace(int count)
    {
        _parent = [.. Enumerable.Range(0, count)];
        _differs = new bool[count];
    }

    /// <summary>The root of a member, its set's smallest, and whether the member differs from it.</summary>
    public (int Root, bool Differs) Find(int member)
    {
        int root = member;
        bool parity = false;
        while (_parent[root] != root)
        {
            parity ^= _differs[root];
            root = _parent[root];
        }

        Compress(member, root, parity);
        return (root, parity);
    }

    /// <summary>Records that two members are alike or differ. False when they are already known to be otherwise.</summary>
    public bool Join(int one, int other, bool differ = false)
    {
        (int rootOne, bool parityOne) = Find(one);
        (int rootOther, bool parityOther) = Find(other);
        bool link = parityOne ^ parityOther ^ differ;
        if (rootOne == rootOther)
        {
            return !link;
        }

        (int low, int high) = rootOne < rootOther ? (rootOne, rootOther) : (rootOther, rootOne);
        _parent[high] = low;
        _differs[high] = link;
        return true;
    }

    private void Compress(int member, int root, bool parity)
    {
        while (_parent[member] != root && member != root)
        {
            (int next, bool step) = (_parent[member], _differs[member]);
            (_parent[member], _differs[member]) = (root, parity);
            parity ^= step;
            member = next;
        }
    }
}
