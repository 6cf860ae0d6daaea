using System.Runtime.Intrinsics;

namespace WireUp.Circuits.Numerics;

/// <summary>Entries of Z on the pattern of the factor.</summary>
/// <remarks>
/// From Z = D⁻¹L⁻¹ + (I − Lᵀ)Z, taken from the last column to the first: Z_aj = Σ_b ℓ_bj·Z_ab and Z_jj = 1/d_j + Σ_a ℓ_aj·Z_aj, with a and
/// b in S_j. Every Z_ab read serves twice, for row a and for row b. In a column of two unknowns the second comes first, then the
/// first, for which the second is one row more.
/// Source: K. Takahashi, J. Fagan, M.-S. Chen, Formation of a sparse bus impedance matrix and its application to short circuit
/// study, Power Industry Computer Applications Conference, 1973.
/// </remarks>
internal static class SelectedInverse
{
    private const int Block = ConductanceWorkspace.Block;

    /// <summary>Works it out.</summary>
    /// <param name="pattern">Where everything lies.</param>
    /// <param name="factor">The factor.</param>
    /// <param name="inverse">On return Z: a block an entry, and a block a column on the diagonal.</param>
    /// <param name="column">Room for three blocks for each entry of the longest column.</param>
    /// <param name="scratch">Room for the targets of a column where they are not remembered.</param>
    internal static unsafe void Run(
        FactorPattern pattern,
        (double[] Lower, double[] Within, double[] InversePivots) factor,
        (double[] Lower, double[] Diagonal) inverse,
        double[] column,
        int[] scratch)
    {
        fixed (int* rows = pattern.Rows, columnStart = pattern.ColumnStart)
        fixed (double* lower = factor.Lower, within = factor.Within, inversePivots = factor.InversePivots)
        fixed (double* z = inverse.Lower, diagonal = inverse.Diagonal, sums = column)
        {
            for (int j = pattern.Count - 1; j >= 0; j--)
            {
                int start = columnStart[j], length = columnStart[j + 1] - start;
                double* own = lower + (Block * start), spread = sums + (Block * length);
                Begin(rows + start, length, own, diagonal, sums, spread);
                fixed (int* targets = pattern.Targets(j, scratch))
                {
                    Multiply(length, z, targets, sums, spread);
                }

                Finish(length, own, within[j], inversePivots + (2 * j), sums, z + (Block * start)).Store(diagonal + (Block * j));
            }
        }
    }

    /// <summary>The sums begin with the diagonal, Z_aa·ℓ_a; rows of every ℓ are spread out once for what follows.</summary>
    private static unsafe void Begin(int* rows, int length, double* own, double* diagonal, double* sums, double* spread)
    {
        for (int a = 0; a < length; a++)
        {
            Vector256<double> part = Vector256.Load(own + (Block * a)), itself = Vector256.Load(diagonal + (Block * rows[a]));
            Vector256<double> first = part.FirstRowSpread(), second = part.SecondRowSpread();
            first.Store(spread + (2 * Block * a));
            second.Store(spread + (2 * Block * a) + Block);
            ((itself.FirstColumn() * first) + (itself.SecondColumn() * second)).Store(sums + (Block * a));
        }
    }

    /// <summary>Z_ab·ℓ_b for row a and Z_ba·ℓ_a for row b.</summary>
    private static unsafe void Multiply(int length, double* z, int* targets, double* sums, double* spread)
    {
        for (int a = 0; a < length; a++)
        {
            Vector256<double> sum = Vector256.Load(sums + (Block * a));
            Vector256<double> first = Vector256.Load(spread + (2 * Block * a)), second = Vector256.Load(spread + (2 * Block * a) + Block);
            for (int b = a + 1; b < length; b++)
            {
                Vector256<double> entry = Vector256.Load(z + (Block * (long)*targets++));
                double* other = spread + (2 * Block * b);
                sum += (entry.FirstRow() * Vector256.Load(other)) + (entry.SecondRow() * Vector256.Load(other + Block));
                (Vector256.Load(sums + (Block * b)) + (entry.FirstColumn() * first) + (entry.SecondColumn() * second)).Store(sums + (Block * b));
            }

            sum.Store(sums + (Block * a));
        }
    }

    private static unsafe Vector256<double> Finish(int length, double* own, double within, double* inversePivots, double* sums, double* into)
    {
        Vector256<double> carry = Vector256.Create(within, within, 0, 0), squares = Vector256<double>.Zero;
        Vector128<double> mixed = Vector128<double>.Zero;
        for (int a = 0; a < length; a++)
        {
            Vector256<double> part = Vector256.Load(own + (Block * a)), entry = Vector256.Load(sums + (Block * a));
            entry += carry * entry.SecondColumn();
            entry.Store(into + (Block * a));
            squares += part * entry;
            mixed += part.GetLower() * entry.GetUpper();
        }

        double second = inversePivots[1] + (squares[2] + squares[3]);
        double across = (within * second) + (mixed[0] + mixed[1]);
        double first = inversePivots[0] + (within * across) + (squares[0] + squares[1]);
        return Vector256.Create(first, across, across, second);
    }
}
