namespace WireUp.Circuits.Numerics;

/// <summary>
/// The first half of a solution for a current into one unknown and out of another, y = L⁻¹·(e_from − e_to). It is nonzero only on
/// the ways from the two unknowns to the root of the elimination tree, which are short; and two of them give any entry of
/// the inverse, aᵀ·Z·b = Σ y_a·y_b/d, without the second half.
/// </summary>
internal sealed class HalfSolution
{
    private int[] _places = new int[64];
    private (double First, double Second)[] _values = new (double, double)[64];

    /// <summary>Columns of the factor with an entry, ascending.</summary>
    internal ReadOnlySpan<int> Places => _places.AsSpan(0, Count);

    /// <summary>The entries, for both unknowns of each column.</summary>
    internal ReadOnlySpan<(double First, double Second)> Values => _values.AsSpan(0, Count);

    internal int Count { get; private set; }

    internal void Clear() => Count = 0;

    internal void Add(int place, double first, double second)
    {
        if (Count == _places.Length)
        {
            Array.Resize(ref _places, 2 * Count);
            Array.Resize(ref _values, 2 * Count);
        }

        (_places[Count], _values[Count]) = (place, (first, second));
        Count++;
    }
}
