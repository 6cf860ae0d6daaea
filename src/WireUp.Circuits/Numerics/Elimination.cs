using System.Runtime.Intrinsics;

namespace WireUp.Circuits.Numerics;

/// <summary>The factorisation.</summary>
/// <remarks>
/// <para>
/// Elimination of unknown j is the star–mesh transformation: d_j = e_j + Σ g_aj, then g_ab += ℓ_aj·g_bj and e_a += ℓ_aj·e_j. Because
/// e is carried along instead of the diagonal, nothing is ever subtracted: pivots, solutions for currents of one sign and all entries
/// of Z keep nearly full relative precision however far the conductances lie apart.
/// Source: W. K. Grassmann, M. I. Taksar, D. P. Heyman, Regenerative analysis and steady state distributions for Markov chains,
/// Operations Research 33 (1985), for the elimination without subtraction; T. A. Davis, Direct Methods for Sparse Linear Systems,
/// SIAM 2006, chapter 4, for the sparse factor.
/// </para>
/// <para>
/// The two unknowns of a column go one after the other, but their pivots are divided at once. With s_1, s_2 all that ties each to
/// what is left and g what ties them to each other, d_1 = s_1 + g and d_2 = s_2 + g·s_1/d_1 = (d_1·s_2 + g·s_1)/d_1.
/// </para>
/// </remarks>
internal static class Elimination
{
    private const int Block = ConductanceWorkspace.Block;

    /// <summary>Turns conductances into the factor, in place.</summary>
    /// <param name="pattern">Where everything lies.</param>
    /// <param name="lower">On entry g of every entry, on return ℓ.</param>
    /// <param name="within">On entry g between the two unknowns of each column, on return ℓ.</param>
    /// <param name="toReference">On entry e of every unknown; on return of no use.</param>
    /// <param name="inversePivots">On return 1/d of every unknown.</param>
    /// <param name="scratch">Room for the targets of a column where they are not remembered.</param>
    /// <returns>−1, or the unknown, by place, whose pivot is zero or no number.</returns>
    internal static unsafe int Run(FactorPattern pattern, double[] lower, double[] within, double[] toReference, double[] inversePivots, int[] scratch)
    {
        fixed (int* rows = pattern.Rows, columnStart = pattern.ColumnStart)
        fixed (double* entries = lower, inner = within, grounds = toReference, pivots = inversePivots)
        {
            for (int j = 0; j < pattern.Count; j++)
            {
                int start = columnStart[j], length = columnStart[j + 1] - start;
                double* star = entries + (Block * start);
                int failed = Pivots(star, length, inner + j, grounds + (2 * j), pivots + (2 * j));
                if (failed >= 0)
                {
                    return (2 * j) + failed;
                }

                fixed (int* targets = pattern.Targets(j, scratch))
                {
                    double* own = grounds + (2 * j);
                    Vector256<double> inverses = Vector256.Create(pivots[2 * j], pivots[2 * j], pivots[(2 * j) + 1], pivots[(2 * j) + 1]);
                    int* target = targets;
                    for (int a = 0; a < length; a++)
                    {
                        Vector256<double> g = Vector256.Load(star + (Block * a)), part = g * inverses;
                        part.Store(star + (Block * a));
                        int at = rows[start + a];
                        grounds[2 * at] += (part[0] * own[0]) + (part[2] * own[1]);
                        grounds[(2 * at) + 1] += (part[1] * own[0]) + (part[3] * own[1]);
                        inner[at] += (part[0] * g[1]) + (part[2] * g[3]);
                        Mesh(entries, star, a, length, part, target);
                        target += length - 1 - a;
                    }
                }
            }
        }

        return -1;
    }

    /// <summary>Pivots of a column; the first unknown is taken out of the second.</summary>
    private static unsafe int Pivots(double* star, int length, double* within, double* own, double* inverses)
    {
        Vector256<double> sum = Vector256<double>.Zero;
        for (int a = 0; a < length; a++)
        {
            sum += Vector256.Load(star + (Block * a));
        }

        double between = *within, restFirst = own[0] + (sum[0] + sum[1]), restSecond = own[1] + (sum[2] + sum[3]);
        double first = restFirst + between, product = (first * restSecond) + (between * restFirst);
        (inverses[0], inverses[1]) = (1 / first, first / product);
        if (!(first > 0) || !double.IsFinite(inverses[0]) || !double.IsFinite(first))
        {
            return 0;
        }

        if (!(product > 0) || !double.IsFinite(inverses[1]) || !double.IsFinite(product))
        {
            return 1;
        }

        double part = between * inverses[0];
        *within = part;
        own[1] += part * own[0];
        Vector256<double> carry = Vector256.Create(0, 0, part, part);
        for (int a = 0; a < length; a++)
        {
            Vector256<double> g = Vector256.Load(star + (Block * a));
            (g + (carry * g.FirstColumn())).Store(star + (Block * a));
        }

        return -1;
    }

    /// <summary>g_ab += ℓ_a·g_bᵀ for every b after a.</summary>
    private static unsafe void Mesh(double* entries, double* star, int a, int length, Vector256<double> part, int* targets)
    {
        Vector256<double> first = part.FirstColumnSpread(), second = part.SecondColumnSpread();
        for (int b = a + 1; b < length; b++)
        {
            Vector256<double> g = Vector256.Load(star + (Block * b));
            double* target = entries + (Block * (long)*targets++);
            (Vector256.Load(target) + (first * g.FirstColumn()) + (second * g.SecondColumn())).Store(target);
        }
    }
}
