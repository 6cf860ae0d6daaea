using System.Numerics;

namespace WireUp.Circuits.Sessions;

/// <summary>
/// Random numbers of one session: the same on every machine and in every release, whatever runs beside it.
/// </summary>
/// <remarks>
/// Source: D. Blackman, S. Vigna, "Scrambled linear pseudorandom number generators", ACM Transactions on Mathematical Software 47, 2021
/// (xoshiro256**, its state filled by SplitMix64 as the authors advise). From memory; checked in the tests for evenness only.
/// </remarks>
internal sealed class SeededStreamWorkspace
{
    private ulong _s0, _s1, _s2, _s3;

    /// <param name="seed">The person's seed.</param>
    /// <param name="session">Number of the session, 0 or more.</param>
    internal SeededStreamWorkspace(ulong seed, int session)
    {
        ulong state = seed;
        state = Mix(ref state) ^ ((ulong)session * 0xD1342543DE82EF95UL);
        (_s0, _s1, _s2, _s3) = (Mix(ref state), Mix(ref state), Mix(ref state), Mix(ref state));
    }

    /// <summary>Evenly in [0, 1).</summary>
    internal double Next() => (Bits() >> 11) * (1.0 / (1UL << 53));

    /// <summary>Evenly among 0 … <paramref name="count"/> − 1, count above 0.</summary>
    internal int Below(int count) => (int)(Next() * count);

    /// <summary>Evenly between two ends.</summary>
    internal double Between((double Least, double Most) ends) => ends.Least + (Next() * (ends.Most - ends.Least));

    private ulong Bits()
    {
        ulong result = BitOperations.RotateLeft(_s1 * 5, 7) * 9, t = _s1 << 17;
        _s2 ^= _s0;
        _s3 ^= _s1;
        _s1 ^= _s2;
        _s0 ^= _s3;
        _s2 ^= t;
        _s3 = BitOperations.RotateLeft(_s3, 45);
        return result;
    }

    private static ulong Mix(ref ulong state)
    {
        ulong z = state += 0x9E3779B97F4A7C15UL;
        z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9UL;
        z = (z ^ (z >> 27)) * 0x94D049BB133111EBUL;
        return z ^ (z >> 31);
    }
}
