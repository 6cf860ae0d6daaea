using System.Runtime.Intrinsics;

namespace WireUp.Circuits.Numerics;

/// <summary>
/// Solutions: forward with L, divide by D, back with Lᵀ, for one right-hand side or for eight side by side.
/// Source: T. A. Davis, Direct Methods for Sparse Linear Systems, SIAM 2006, chapter 3.2.
/// </summary>
internal static class Substitution
{
    /// <summary>Right-hand sides that go side by side.</summary>
    internal const int Width = 8;

    private const int Block = ConductanceWorkspace.Block;

    /// <summary>One right-hand side, by place, solved in place.</summary>
    internal static unsafe void Run(FactorPattern pattern, double[] lower, double[] within, double[] inversePivots, double[] values)
    {
        fixed (int* rows = pattern.Rows, columnStart = pattern.ColumnStart)
        fixed (double* entries = lower, x = values)
        {
            for (int j = 0; j < pattern.Count; j++)
            {
                double first = x[2 * j], second = x[(2 * j) + 1] + (within[j] * first);
                x[(2 * j) + 1] = second;
                Vector256<double> own = Vector256.Create(first, first, second, second);
                for (int entry = columnStart[j]; entry < columnStart[j + 1]; entry++)
                {
                    Vector256<double> part = Vector256.Load(entries + (Block * entry)) * own;
                    double* to = x + (2 * rows[entry]);
                    (Vector128.Load(to) + (part.GetLower() + part.GetUpper())).Store(to);
                }
            }

            for (int j = pattern.Count - 1; j >= 0; j--)
            {
                Vector256<double> sum = Vector256<double>.Zero;
                for (int entry = columnStart[j]; entry < columnStart[j + 1]; entry++)
                {
                    Vector128<double> other = Vector128.Load(x + (2 * rows[entry]));
                    sum += Vector256.Load(entries + (Block * entry)) * Vector256.Create(other, other);
                }

                x[(2 * j) + 1] = (x[(2 * j) + 1] * inversePivots[(2 * j) + 1]) + (sum[2] + sum[3]);
                x[2 * j] = (x[2 * j] * inversePivots[2 * j]) + (sum[0] + sum[1]) + (within[j] * x[(2 * j) + 1]);
            }
        }
    }

    /// <summary>Eight right-hand sides: the eight values of a place lie together.</summary>
    internal static unsafe void RunMany(FactorPattern pattern, ConductanceWorkspace factor, double[] values)
    {
        ReadOnlySpan<double> within = factor.Within, inversePivots = factor.InversePivots;
        fixed (int* rows = pattern.Rows, columnStart = pattern.ColumnStart)
        fixed (double* entries = factor.Lower, x = values)
        {
            for (int j = 0; j < pattern.Count; j++)
            {
                double* own = x + (2 * Width * (long)j);
                Vector512<double> first = Vector512.Load(own), second = Vector512.Load(own + Width) + (first * within[j]);
                second.Store(own + Width);
                for (int entry = columnStart[j]; entry < columnStart[j + 1]; entry++)
                {
                    double* block = entries + (Block * (long)entry), to = x + (2 * Width * (long)rows[entry]);
                    (Vector512.Load(to) + ((first * block[0]) + (second * block[2]))).Store(to);
                    (Vector512.Load(to + Width) + ((first * block[1]) + (second * block[3]))).Store(to + Width);
                }
            }

            for (int j = pattern.Count - 1; j >= 0; j--)
            {
                Vector512<double> first = Vector512<double>.Zero, second = Vector512<double>.Zero;
                for (int entry = columnStart[j]; entry < columnStart[j + 1]; entry++)
                {
                    double* block = entries + (Block * (long)entry), other = x + (2 * Width * (long)rows[entry]);
                    Vector512<double> top = Vector512.Load(other), bottom = Vector512.Load(other + Width);
                    first += (top * block[0]) + (bottom * block[1]);
                    second += (top * block[2]) + (bottom * block[3]);
                }

                double* own = x + (2 * Width * (long)j);
                second += Vector512.Load(own + Width) * inversePivots[(2 * j) + 1];
                second.Store(own + Width);
                ((Vector512.Load(own) * inversePivots[2 * j]) + first + (second * within[j])).Store(own);
            }
        }
    }
}
