namespace WireUp.Circuits.Numerics;

/// <summary>
/// A small dense system of equations, eliminated without exchanging rows. Of a matrix with no positive entry off its diagonal that
/// succeeds with pivots above zero exactly when it is a nonsingular M-matrix.
/// Source: A. Berman, R. J. Plemmons, Nonnegative Matrices in the Mathematical Sciences, SIAM 1994, chapter 6, theorem 2.3 (from memory).
/// </summary>
/// <param name="size">Number of equations.</param>
internal sealed class DenseWorkspace(int size)
{
    private readonly double[] _entries = new double[size * size];

    internal double this[int row, int column]
    {
        get => _entries[(row * size) + column];
        set => _entries[(row * size) + column] = value;
    }

    /// <summary>Puts the factors L·U in place of the matrix; false, and no use any more, where a pivot is not above zero.</summary>
    internal bool Factor()
    {
        for (int k = 0; k < size; k++)
        {
            double pivot = this[k, k];
            if (!(pivot > 0) || !double.IsFinite(pivot))
            {
                return false;
            }

            for (int row = k + 1; row < size; row++)
            {
                double share = this[row, k] /= pivot;
                for (int column = k + 1; share != 0 && column < size; column++)
                {
                    this[row, column] -= share * this[k, column];
                }
            }
        }

        return true;
    }

    /// <summary>Solves for a right-hand side in place; the matrix must have been factorised.</summary>
    internal void Solve(Span<double> values)
    {
        for (int row = 1; row < size; row++)
        {
            for (int column = 0; column < row; column++)
            {
                values[row] -= this[row, column] * values[column];
            }
        }

        for (int row = size - 1; row >= 0; row--)
        {
            for (int column = row + 1; column < size; column++)
            {
                values[row] -= this[row, column] * values[column];
            }

            values[row] /= this[row, row];
        }
    }
}
