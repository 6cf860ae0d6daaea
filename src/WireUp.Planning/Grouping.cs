namespace WireUp.Planning;

/// <summary>Things that are joined two by two into groups; groups are numbered by their first member.</summary>
internal sealed class Grouping(int count)
{
    private readonly int[] _parents = [.. Enumerable.Range(0, count)];

    /// <summary>Makes one group of the groups of two things.</summary>
    public void Join(int one, int other)
    {
        (int a, int b) = (Find(one), Find(other));
        _parents[Math.Max(a, b)] = Math.Min(a, b);
    }

    /// <summary>The first member of a thing's group.</summary>
    public int Find(int thing)
    {
        while (_parents[thing] != thing)
        {
            thing = _parents[thing] = _parents[_parents[thing]];
        }

        return thing;
    }

    /// <summary>For each thing the number of its group, from 0 in the order of first members.</summary>
    public int[] Numbers()
    {
        Dictionary<int, int> numbers = [];
        return [.. Enumerable.Range(0, _parents.Length).Select(thing =>
        {
            int first = Find(thing);
            return numbers.TryGetValue(first, out int number) ? number : numbers[first] = numbers.Count;
        })];
    }
}
