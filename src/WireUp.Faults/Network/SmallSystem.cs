namespace WireUp.Faults.Network;

/// <summary>Linear equations of a handful of unknowns.</summary>
internal static class SmallSystem
{
    /// <summary>Solves by elimination with the largest pivot of each column.</summary>
    /// <param name="matrix">A row an equation, the right-hand side last; changed on return.</param>
    internal static double[] Solve(double[,] matrix)
    {
        int n = matrix.GetLength(0);
        for (int column = 0; column < n; column++)
        {
            int best = Enumerable.Range(column, n - column).MaxBy(row => Math.Abs(matrix[row, column]));
            for (int k = column; k <= n; k++)
            {
                (matrix[column, k], matrix[best, k]) = (matrix[best, k], matrix[column, k]);
            }

            for (int row = column + 1; row < n; row++)
            {
                Subtract(matrix, row, column, matrix[row, column] / matrix[column, column]);
            }
        }

        double[] answers = new double[n];
        for (int row = n - 1; row >= 0; row--)
        {
            double sum = matrix[row, n];
            for (int k = row + 1; k < n; k++)
            {
                sum -= matrix[row, k] * answers[k];
            }

            answers[row] = sum / matrix[row, row];
        }

        return answers;
    }

    private static void Subtract(double[,] matrix, int row, int pivotRow, double factor)
    {
        for (int k = pivotRow; k < matrix.GetLength(1); k++)
        {
            matrix[row, k] -= factor * matrix[pivotRow, k];
        }
    }
}
