using System.Collections.Immutable;

namespace WireUp.Circuits.Sessions;

/// <summary>For how long which current flowed in one session.</summary>
/// <param name="Microamperes">The currents that occurred, ascending.</param>
/// <param name="UpTo">For each of them the share of the time in which no more than that flowed; the last is 1.</param>
/// <param name="MeanMicroamperes">Mean over the time.</param>
internal sealed record TimeShares(ImmutableArray<long> Microamperes, ImmutableArray<double> UpTo, double MeanMicroamperes)
{
    internal static TimeShares Of(IReadOnlyDictionary<long, double> seconds)
    {
        ImmutableArray<long> currents = [.. seconds.Keys.Order()];
        double all = 0, charge = 0;
        double[] upTo = new double[currents.Length];
        for (int i = 0; i < upTo.Length; i++)
        {
            double here = seconds[currents[i]];
            upTo[i] = all += here;
            charge += here * currents[i];
        }

        return new(currents, [.. upTo.Select(time => time / all)], charge / all);
    }

    /// <summary>Share of the time in which no more than this flowed.</summary>
    internal double At(long microamperes)
    {
        int found = Microamperes.AsSpan().BinarySearch(microamperes);
        int last = found >= 0 ? found : ~found - 1;
        return last < 0 ? 0 : UpTo[last];
    }
}
