namespace WireUp.Circuits.Numerics;

/// <summary>
/// The factor L·Lᵀ of a small symmetric matrix that grows row by row (Cholesky): a row more costs one forward solution, and what is solved with the
/// rows so far stays valid.
/// </summary>
/// <param name="capacity">How many rows there will be at most.</param>
internal sealed class GrowingFactorWorkspace(int capacity)
{
    private const double LeastPivot = 1e-9;

    private readonly List<double[]> _rows = new(capacity);

    /// <summary>How many rows there are.</summary>
    internal int Count => _rows.Count;

    /// <summary>Adds a row; false, and nothing is added, where the matrix is not positive definite with it.</summary>
    /// <param name="row">Entries with the rows so far, and the one on the diagonal; overwritten and kept.</param>
    internal bool Add(double[] row)
    {
        int last = _rows.Count;
        double pivot = row[last];
        for (int k = 0; k < last; k++)
        {
            row[k] = Solved(row, k, row[k]);
            pivot -= row[k] * row[k];
        }

        if (!(pivot > LeastPivot))
        {
            return false;
        }

        row[last] = Math.Sqrt(pivot);
        _rows.Add(row);
        return true;
    }

    /// <summary>Entry k of L⁻¹·b from the entries before it.</summary>
    /// <param name="solved">The entries before it.</param>
    /// <param name="k">Which.</param>
    /// <param name="right">Entry k of b.</param>
    internal double Solved(double[] solved, int k, double right)
    {
        double[] row = _rows[k];
        for (int m = 0; m < k; m++)
        {
            right -= row[m] * solved[m];
        }

        return right / row[k];
    }

    /// <summary>Solves L·Lᵀ·x = b in place.</summary>
    internal void Solve(double[] values)
    {
        for (int k = 0; k < Count; k++)
        {
            values[k] = Solved(values, k, values[k]);
        }

        for (int k = Count - 1; k >= 0; k--)
        {
            double value = values[k] /= _rows[k][k];
            double[] row = _rows[k];
            for (int m = 0; m < k; m++)
            {
                values[m] -= row[m] * value;
            }
        }
    }
}
