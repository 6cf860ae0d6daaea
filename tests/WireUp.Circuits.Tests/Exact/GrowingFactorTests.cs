using MathNet.Numerics.LinearAlgebra;
using WireUp.Circuits.Numerics;

namespace WireUp.Circuits.Tests.Exact;

/// <summary>The factor that grows row by row, against MathNet's dense solution.</summary>
public sealed class GrowingFactorTests
{
    private const int Size = 9;

    [Fact]
    public void It_solves_as_the_dense_matrix_does_after_every_row()
    {
        Random chance = new(3);
        Matrix<double> half = Matrix<double>.Build.Dense(Size, Size, (_, _) => chance.NextDouble() - 0.5);
        Matrix<double> matrix = (half * half.Transpose()) + (0.1 * Matrix<double>.Build.DenseIdentity(Size));
        Vector<double> right = Vector<double>.Build.Dense(Size, _ => chance.NextDouble());
        GrowingFactorWorkspace factor = new(Size);
        double[] forward = new double[Size];
        for (int count = 1; count <= Size; count++)
        {
            Assert.True(factor.Add([.. Enumerable.Range(0, count).Select(k => matrix[count - 1, k])]));
            Assert.Equal(count, factor.Count);
            double[] solved = [.. right.Take(count)];
            factor.Solve(solved);
            Vector<double> dense = matrix.SubMatrix(0, count, 0, count).Solve(right.SubVector(0, count));
            forward[count - 1] = factor.Solved(forward, count - 1, right[count - 1]);
            Assert.Equal(dense * right.SubVector(0, count), forward.Sum(each => each * each), 1e-9);
            for (int k = 0; k < count; k++)
            {
                Assert.Equal(dense[k], solved[k], 1e-9);
            }
        }
    }

    [Fact]
    public void A_row_that_makes_the_matrix_singular_is_not_added()
    {
        GrowingFactorWorkspace factor = new(2);
        Assert.True(factor.Add([4]));
        Assert.False(factor.Add([2, 1]));
        Assert.Equal(1, factor.Count);
        Assert.True(factor.Add([2, 1.5]));
    }
}
