namespace WireUp.Rails;

/// <summary>
/// Sets of members with a sign between any two of a set: disjoint sets with parity.
/// </summary>
/// <remarks>Union by size and path halving: R. E. Tarjan, J. van Leeuwen, "Worst-case analysis of set union algorithms", JACM 31 (1984).</remarks>
internal sealed class SignUnionWorkspace
{
    private readonly int[] _parent;
    private readonly int[] _size;
    private readonly bool[] _flipped;

    internal SignUnionWorkspace(int count)
    {
        _parent = [.. Enumerable.Range(0, count)];
        _size = new int[count];
        Array.Fill(_size, 1);
        _flipped = new bool[count];
    }

    /// <summary>The representative of a member, and whether the member's sign differs from it.</summary>
    internal (int Root, bool Flipped) Find(int member)
    {
        bool flipped = false;
        while (_parent[member] != member)
        {
            int parent = _parent[member];
            _flipped[member] ^= _flipped[parent];
            _parent[member] = _parent[parent];
            flipped ^= _flipped[member];
            member = _parent[member];
        }

        return (member, flipped);
    }

    /// <summary>Says that two members differ in sign or agree; false when that contradicts what was said before.</summary>
    internal bool Join(int first, int second, bool flips = false)
    {
        (int a, bool aFlipped) = Find(first);
        (int b, bool bFlipped) = Find(second);
        bool between = aFlipped ^ bFlipped ^ flips;
        if (a == b)
        {
            return !between;
        }

        (int child, int root) = _size[a] < _size[b] ? (a, b) : (b, a);
        _parent[child] = root;
        _flipped[child] = between;
        _size[root] += _size[child];
        return true;
    }
}
