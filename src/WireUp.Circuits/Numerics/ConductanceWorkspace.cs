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
/// Elimination of j is the star–mesh transformation: d_j = e_j + Σ g_aj, then g_ab += ℓ_aj·g_bj and e_a += ℓ_aj·e_j. Because e is
/// carried along instead of the diagonal, nothing is ever subtracted: pivots, solutions for currents of one sign and all entries of
/// Z keep nearly full relative precision however far the conductances lie apart.
/// Source: W. K. Grassmann, M. I. Taksar, D. P. Heyman, Regenerative analysis and steady state distributions for Markov chains,
/// Operations Research 33 (1985), for the elimination without subtraction; T. A. Davis, Direct Methods for Sparse Linear Systems,
/// SIAM 2006, chapter 4, for the sparse factor.
/// </para>
/// <para>
/// Selected inverse: from Z = D⁻¹L⁻¹ + (I − Lᵀ)Z, taken on the pattern of L from the last column to the first,
/// Z_aj = Σ_b ℓ_bj·Z_ab and Z_jj = 1/d_j + Σ_a ℓ_aj·Z_aj, with a and b in S_j.
/// Source: K. Takahashi, J. Fagan, M.-S. Chen, Formation of a sparse bus impedance matrix and its application to short circuit
/// study, Power Industry Computer Applications Conference, 1973.
/// </para>
/// </remarks>
internal sealed class ConductanceWorkspace
{
    /// <summary>Stands for the reference in place of an unknown.</summary>
    internal const int Reference = -1;

    private readonly FactorPattern _pattern;
    private readonly double[] _lower;
    private readonly double[] _toReference;
    private readonly double[] _inversePivot;
    private readonly double[] _inverseLower;
    private readonly double[] _inverseDiagonal;
    private readonly double[] _work;
    private readonly double[] _column;
    private readonly int[] _scratch;

    internal ConductanceWorkspace(FactorPattern pattern)
    {
        _pattern = pattern;
        _lower = new double[pattern.Rows.Length];
        _inverseLower = new double[pattern.Rows.Length];
        _toReference = new double[pattern.Count];
        _inversePivot = new double[pattern.Count];
        _inverseDiagonal = new double[pattern.Count];
        _work = new double[pattern.Count];
        _column = new double[pattern.LongestColumn];
        _scratch = pattern.IsIndexed ? [] : new int[pattern.LongestColumn * (pattern.LongestColumn - 1) / 2];
    }

    internal FactorPattern Pattern => _pattern;

    /// <summary>ℓ of every entry of the pattern.</summary>
    internal ReadOnlySpan<double> Lower => _lower;

    /// <summary>1/d of every column.</summary>
    internal ReadOnlySpan<double> InversePivots => _inversePivot;

    /// <summary>Where each conductance is added: an entry of the factor, or ~column for one to the reference.</summary>
    /// <param name="from">One end of each conductance, an unknown or <see cref="Reference"/>.</param>
    /// <param name="to">The other end; both the same: the conductance has no effect.</param>
    internal int[] Slots(ReadOnlySpan<int> from, ReadOnlySpan<int> to)
    {
        int[] slots = new int[from.Length];
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
        Array.Clear(_toReference);
        for (int i = 0; i < slots.Length; i++)
        {
            int slot = slots[i];
            if (slot >= 0)
            {
                _lower[slot] += siemens[i];
            }
            else if (slot != NoEffect)
            {
                _toReference[~slot] += siemens[i];
            }
        }

        return Eliminate();
    }

    /// <summary>Solves Y·x = b in place.</summary>
    /// <param name="values">On entry currents into the unknowns in ampere; on return their potentials in volt. In the order of the unknowns.</param>
    internal void Solve(Span<double> values)
    {
        int[] placeOf = _pattern.PlaceOf;
        for (int i = 0; i < placeOf.Length; i++)
        {
            _work[placeOf[i]] = values[i];
        }

        SolveOrdered();
        for (int i = 0; i < placeOf.Length; i++)
        {
            values[i] = _work[placeOf[i]];
        }
    }

    /// <summary>Works out Z on the pattern of the factor, for <see cref="Inverse"/>.</summary>
    internal unsafe void SelectInverse()
    {
        int[] columnStart = _pattern.ColumnStart;
        fixed (int* rows = _pattern.Rows)
        fixed (double* lower = _lower, z = _inverseLower, diagonal = _inverseDiagonal, sum = _column)
        {
            for (int j = _pattern.Count - 1; j >= 0; j--)
            {
                int start = columnStart[j], length = columnStart[j + 1] - start;
                int* row = rows + start;
                double* factor = lower + start;
                ReadOnlySpan<int> targets = _pattern.Targets(j, _scratch);
                new Span<double>(sum, length).Clear();
                int pair = 0;
                for (int a = 0; a < length; a++)
                {
                    double own = factor[a], total = sum[a] + (own * diagonal[row[a]]);
                    for (int b = a + 1; b < length; b++)
                    {
                        double entry = z[targets[pair++]];
                        total += factor[b] * entry;
                        sum[b] += own * entry;
                    }

                    sum[a] = total;
                }

                double itself = _inversePivot[j];
                for (int a = 0; a < length; a++)
                {
                    z[start + a] = sum[a];
                    itself += factor[a] * sum[a];
                }

                diagonal[j] = itself;
            }
        }
    }

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

        (int a, int b) = (_pattern.PlaceOf[first], _pattern.PlaceOf[second]);
        if (a == b)
        {
            return _inverseDiagonal[a];
        }

        int entry = _pattern.EntryAt(Math.Max(a, b), Math.Min(a, b));
        return entry >= 0 ? _inverseLower[entry] : throw new ArgumentException($"unknowns {first} and {second} are not in the pattern", nameof(second));
    }

    private const int NoEffect = int.MinValue;

    private int Slot(int from, int to)
    {
        if (from == to)
        {
            return NoEffect;
        }

        if (from == Reference || to == Reference)
        {
            return ~_pattern.PlaceOf[from == Reference ? to : from];
        }

        (int a, int b) = (_pattern.PlaceOf[from], _pattern.PlaceOf[to]);
        int entry = _pattern.EntryAt(Math.Max(a, b), Math.Min(a, b));
        return entry >= 0 ? entry : throw new ArgumentException($"unknowns {from} and {to} are not in the pattern", nameof(to));
    }

    private unsafe FactorOutcome Eliminate()
    {
        int[] columnStart = _pattern.ColumnStart;
        fixed (int* rows = _pattern.Rows)
        fixed (double* lower = _lower, toReference = _toReference)
        {
            for (int j = 0; j < _pattern.Count; j++)
            {
                int start = columnStart[j], length = columnStart[j + 1] - start;
                int* row = rows + start;
                double* star = lower + start;
                double pivot = toReference[j];
                for (int a = 0; a < length; a++)
                {
                    pivot += star[a];
                }

                double inverse = 1 / pivot;
                if (!(pivot > 0) || !double.IsFinite(inverse) || !double.IsFinite(pivot))
                {
                    return new FactorOutcome.NotDefinite(Array.IndexOf(_pattern.PlaceOf, j));
                }

                _inversePivot[j] = inverse;
                ReadOnlySpan<int> targets = _pattern.Targets(j, _scratch);
                int pair = 0;
                for (int a = 0; a < length; a++)
                {
                    double part = star[a] * inverse;
                    toReference[row[a]] += part * toReference[j];
                    for (int b = a + 1; b < length; b++)
                    {
                        lower[targets[pair++]] += part * star[b];
                    }

                    star[a] = part;
                }
            }
        }

        return FactorOutcome.Solved.Instance;
    }

    /// <summary>Davis 2006, chapter 3.2: forward with L, divide by D, back with Lᵀ.</summary>
    private unsafe void SolveOrdered()
    {
        int[] columnStart = _pattern.ColumnStart;
        fixed (int* rows = _pattern.Rows)
        fixed (double* lower = _lower, x = _work)
        {
            for (int j = 0; j < _pattern.Count; j++)
            {
                double value = x[j];
                for (int entry = columnStart[j]; entry < columnStart[j + 1]; entry++)
                {
                    x[rows[entry]] += lower[entry] * value;
                }
            }

            for (int j = _pattern.Count - 1; j >= 0; j--)
            {
                double value = x[j] * _inversePivot[j];
                for (int entry = columnStart[j]; entry < columnStart[j + 1]; entry++)
                {
                    value += lower[entry] * x[rows[entry]];
                }

                x[j] = value;
            }
        }
    }
}
