namespace WireUp.Circuits.Numerics;

/// <summary>Solves for many right-hand sides, eight at a time: the factor is read once for all eight.</summary>
internal sealed class ManySolveWorkspace(ConductanceWorkspace factor)
{
    private const int Width = Substitution.Width;

    /// <summary>Of fewer, one after the other is quicker.</summary>
    private const int LeastTogether = 3;

    private double[] _work = [];

    /// <summary>Solves Y·x = b for every one in place.</summary>
    /// <param name="sides">Each on entry currents into the unknowns in ampere, on return their potentials in volt.</param>
    internal void Solve(ReadOnlySpan<double[]> sides)
    {
        for (int from = 0; from < sides.Length; from += Width)
        {
            ReadOnlySpan<double[]> some = sides[from..Math.Min(from + Width, sides.Length)];
            if (some.Length >= LeastTogether)
            {
                SolveTogether(some);
                continue;
            }

            foreach (double[] side in some)
            {
                factor.Solve(side);
            }
        }
    }

    private void SolveTogether(ReadOnlySpan<double[]> sides)
    {
        int[] slotOf = factor.Pattern.SlotOf;
        _work = _work.Length == 0 ? new double[2 * Width * factor.Pattern.Count] : _work;
        Array.Clear(_work);
        for (int i = 0; i < slotOf.Length; i++)
        {
            Span<double> here = _work.AsSpan(Width * slotOf[i], Width);
            for (int k = 0; k < sides.Length; k++)
            {
                here[k] = sides[k][i];
            }
        }

        Substitution.RunMany(factor.Pattern, factor, _work);
        for (int i = 0; i < slotOf.Length; i++)
        {
            ReadOnlySpan<double> here = _work.AsSpan(Width * slotOf[i], Width);
            for (int k = 0; k < sides.Length; k++)
            {
                sides[k][i] = here[k];
            }
        }
    }
}
