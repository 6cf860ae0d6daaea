namespace WireUp.Circuits.Numerics;

/// <summary>
/// Factor, solutions and selected inverse of a grounded conductance network, Y = L·D·Lᵀ.
/// </summary>
/// <remarks>
/// <para>
/// Symbols: Y nodal matrix without the row of the reference; g_ij conductance between unknowns i and j, e_i from unknown i to the
/// reference, so Y_ij = −g_ij and Y_ii = e_i + Σ g_ij; d_j pivot; ℓ_aj = −L_aj = g_aj/d_j; Z = Y⁻¹.
/// </para>
/// <para>
/// A column stands for a vertex of one or two unknowns, an entry for a block of two by two (<see cref="Pairs"/>); the two unknowns of a
/// vertex are coupled by one number more. Where a vertex has one unknown, the place of the second holds a siemens to the
/// reference and nothing else. The loops are in <see cref="Elimination"/>, <see cref="SelectedInverse"/> and <see cref="Substitution"/>.
/// </para>
/// </remarks>
internal sealed class ConductanceWorkspace
{
    /// <summary>Stands for the reference in place of an unknown.</summary>
    internal const int Reference = -1;

    /// <summary>Numbers in a block.</summary>
    internal const int Block = 4;

    private const int NoEffect = -1;

    private readonly double[] _inverseLower;
    private readonly double[] _inverseDiagonal;
    /// <summary>While factorising, conductances to the reference; afterwards room for a solution.</summary>
    private readonly double[] _toReference;
    private readonly double[] _inversePivots;
    private readonly double[] _lower;
    private readonly double[] _within;
    private readonly double[] _column;
    private readonly int[] _targets;

    internal ConductanceWorkspace(FactorPattern pattern)
    {
        Pattern = pattern;
        int n = pattern.Count, entries = pattern.Rows.Length, longest = pattern.LongestColumn;
        (_lower, _within, _toReference) = (Unwritten(Block * entries), Unwritten(n), Unwritten(2 * n));
        (_inverseLower, _inverseDiagonal, _inversePivots) = (Unwritten(Block * entries), Unwritten(Block * n), Unwritten(2 * n));
        _column = new double[3 * Block * longest];
        _targets = pattern.IsIndexed ? [] : new int[longest * (longest - 1) / 2];
    }

    internal FactorPattern Pattern { get; }

    /// <summary>ℓ of every entry of the pattern, a block each.</summary>
    internal ReadOnlySpan<double> Lower => _lower;

    /// <summary>ℓ between the two unknowns of every column.</summary>
    internal ReadOnlySpan<double> Within => _within;

    /// <summary>1/d of every unknown, two a column.</summary>
    internal ReadOnlySpan<double> InversePivots => _inversePivots;

    /// <summary>Where each conductance is added: a number of the factor, or one within a column, or one to the reference.</summary>
    /// <param name="from">One end of each conductance, an unknown or <see cref="Reference"/>.</param>
    /// <param name="to">The other end; both the same: the conductance has no effect.</param>
    internal int[] Slots(ReadOnlySpan<int> from, ReadOnlySpan<int> to)
    {
        int[] slots = GC.AllocateUninitializedArray<int>(from.Length);
        for (int i = 0; i < slots.Length; i++)
        {
            slots[i] = Slot(from[i], to[i]);
        }

        return slots;
    }

    /// <summary>Factorises for conductances in siemens, each above 0, given in the order of <paramref name="slots"/>.</summary>
    internal FactorOutcome Factor(ReadOnlySpan<int> slots, ReadOnlySpan<double> siemens)
    {
        Array.Clear(_lower);
        Array.Clear(_within);
        Array.Clear(_toReference);
        FillEmpty(1);
        int within = _lower.Length, toReference = within + _within.Length;
        for (int i = 0; i < slots.Length; i++)
        {
            int slot = slots[i];
            if (slot >= toReference)
            {
                _toReference[slot - toReference] += siemens[i];
            }
            else if (slot >= within)
            {
                _within[slot - within] += siemens[i];
            }
            else if (slot != NoEffect)
            {
                _lower[slot] += siemens[i];
            }
        }

        int failed = Elimination.Run(Pattern, _lower, _within, _toReference, _inversePivots, _targets);
        FillEmpty(0);
        return failed < 0 ? FactorOutcome.Solved.Instance : new FactorOutcome.NotDefinite(Array.IndexOf(Pattern.SlotOf, failed));
    }

    /// <summary>Solves Y·x = b in place.</summary>
    /// <param name="values">On entry currents into the unknowns in ampere; on return their potentials in volt. In the order of the unknowns.</param>
    internal void Solve(Span<double> values)
    {
        int[] slotOf = Pattern.SlotOf;
        for (int i = 0; i < slotOf.Length; i++)
        {
            _toReference[slotOf[i]] = values[i];
        }

        Substitution.Run(Pattern, _lower, _within, _inversePivots, _toReference);
        for (int i = 0; i < slotOf.Length; i++)
        {
            values[i] = _toReference[slotOf[i]];
        }
    }

    /// <summary>Works out Z on the pattern of the factor, for <see cref="Inverse"/>.</summary>
    internal void SelectInverse() =>
        SelectedInverse.Run(Pattern, (_lower, _within, _inversePivots), (_inverseLower, _inverseDiagonal), _column, _targets);

    /// <summary>
    /// Entry of the inverse: volts at one unknown for each ampere into the other, ohm. Zero where one is <see cref="Reference"/>.
    /// </summary>
    /// <exception cref="ArgumentException">The pair is not in the pattern: it was not connected in the vertex graph.</exception>
    internal double Inverse(int first, int second)
    {
        if (first == Reference || second == Reference)
        {
            return 0;
        }

        (int a, int b) = (Pattern.SlotOf[first], Pattern.SlotOf[second]);
        return a / 2 == b / 2 ? _inverseDiagonal[(Block * (a / 2)) + (2 * (a % 2)) + (b % 2)] : _inverseLower[Entry(a, b)];
    }

    /// <summary>Room that is written before it is read: clearing it would cost as much as a step of the work.</summary>
    private static double[] Unwritten(int length) => GC.AllocateUninitializedArray<double>(length);

    private void FillEmpty(double value)
    {
        foreach (int empty in Pattern.EmptySlots)
        {
            _toReference[empty] = value;
        }
    }

    private int Slot(int from, int to)
    {
        if (from == to)
        {
            return NoEffect;
        }

        if (from == Reference || to == Reference)
        {
            return _lower.Length + _within.Length + Pattern.SlotOf[from == Reference ? to : from];
        }

        (int a, int b) = (Pattern.SlotOf[from], Pattern.SlotOf[to]);
        return a / 2 == b / 2 ? _lower.Length + (a / 2) : Entry(a, b);
    }

    private int Entry(int a, int b)
    {
        (int row, int column) = a > b ? (a, b) : (b, a);
        int entry = Pattern.EntryAt(row / 2, column / 2);
        return entry >= 0 ? (Block * entry) + (2 * (column % 2)) + (row % 2) : throw new ArgumentException($"places {a} and {b} are not in the pattern", nameof(b));
    }
}
