namespace WireUp.Circuits.Numerics;

/// <summary>
/// Solves along ways of the elimination tree: any entry of the inverse, in the time that the way to the root takes.
/// </summary>
/// <remarks>
/// The rows of column j of L are ancestors of j, so the right-hand side e_from − e_to reaches no column outside the two ways up.
/// What both have in common is subtracted before anything is squared: aᵀ·Z·a of two neighbouring unknowns keeps its digits where
/// Z_uu + Z_vv − 2·Z_uv would lose them.
/// Source: T. A. Davis, Direct Methods for Sparse Linear Systems, SIAM 2006, chapters 3.2 and 4.1.
/// </remarks>
internal sealed class HalfSolveWorkspace(ConductanceWorkspace factor)
{
    private readonly double[] _work = new double[2 * factor.Pattern.Count];

    /// <summary>Half solution for an ampere into one unknown and out of the other; either may be the reference.</summary>
    internal void Solve(int from, int to, HalfSolution into)
    {
        into.Clear();
        int end = factor.Pattern.Count, first = Start(from, 1), second = Start(to, -1);
        while (first < end || second < end)
        {
            int here = Math.Min(first, second);
            int next = Step(here, into);
            first = first == here ? next : first;
            second = second == here ? next : second;
        }
    }

    /// <summary>aᵀ·Z·b, ohm: volts across the pair of one for each ampere through the pair of the other.</summary>
    internal double Between(HalfSolution a, HalfSolution b)
    {
        ReadOnlySpan<double> inversePivots = factor.InversePivots;
        ReadOnlySpan<(double First, double Second)> aValues = a.Values, bValues = b.Values;
        ReadOnlySpan<int> aPlaces = a.Places, bPlaces = b.Places;
        double sum = 0;
        int i = 0, k = 0;
        while (i < aPlaces.Length && k < bPlaces.Length)
        {
            int place = aPlaces[i], difference = place - bPlaces[k];
            if (difference == 0)
            {
                sum += (aValues[i].First * bValues[k].First * inversePivots[2 * place])
                    + (aValues[i].Second * bValues[k].Second * inversePivots[(2 * place) + 1]);
            }

            i += difference <= 0 ? 1 : 0;
            k += difference >= 0 ? 1 : 0;
        }

        return sum;
    }

    private int Start(int unknown, double amps)
    {
        if (unknown == ConductanceWorkspace.Reference)
        {
            return factor.Pattern.Count;
        }

        int slot = factor.Pattern.SlotOf[unknown];
        _work[slot] += amps;
        return slot / 2;
    }

    /// <summary>One column; gives the next one on the way up, or the number of columns at a root.</summary>
    private int Step(int column, HalfSolution into)
    {
        double first = _work[2 * column], second = _work[(2 * column) + 1] + (factor.Within[column] * first);
        (_work[2 * column], _work[(2 * column) + 1]) = (0, 0);
        into.Add(column, first, second);
        int start = factor.Pattern.ColumnStart[column], end = factor.Pattern.ColumnStart[column + 1];
        ReadOnlySpan<int> rows = factor.Pattern.Rows.AsSpan(start, end - start);
        ReadOnlySpan<double> lower = factor.Lower[(ConductanceWorkspace.Block * start)..];
        for (int i = 0; i < rows.Length; i++)
        {
            ReadOnlySpan<double> block = lower.Slice(ConductanceWorkspace.Block * i, ConductanceWorkspace.Block);
            _work[2 * rows[i]] += (block[0] * first) + (block[2] * second);
            _work[(2 * rows[i]) + 1] += (block[1] * first) + (block[3] * second);
        }

        return rows.IsEmpty ? factor.Pattern.Count : rows[0];
    }
}
