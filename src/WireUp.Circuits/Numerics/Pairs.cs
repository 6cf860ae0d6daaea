using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;

namespace WireUp.Circuits.Numerics;

/// <summary>
/// Blocks of two by two numbers in one vector (a, b, c, d): down the first column (a, b), then down the second (c, d). Products are not
/// fused with sums, so that every machine gives the same digits.
/// </summary>
internal static class Pairs
{
    /// <summary>First column twice: (a, b, a, b).</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    internal static Vector256<double> FirstColumn(this Vector256<double> block) => Vector256.Shuffle(block, Vector256.Create(0L, 1, 0, 1));

    /// <summary>Second column twice: (c, d, c, d).</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    internal static Vector256<double> SecondColumn(this Vector256<double> block) => Vector256.Shuffle(block, Vector256.Create(2L, 3, 2, 3));

    /// <summary>First row twice: (a, c, a, c).</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    internal static Vector256<double> FirstRow(this Vector256<double> block) => Vector256.Shuffle(block, Vector256.Create(0L, 2, 0, 2));

    /// <summary>Second row twice: (b, d, b, d).</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    internal static Vector256<double> SecondRow(this Vector256<double> block) => Vector256.Shuffle(block, Vector256.Create(1L, 3, 1, 3));

    /// <summary>Each of the first row twice: (a, a, c, c).</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    internal static Vector256<double> FirstRowSpread(this Vector256<double> block) => Vector256.Shuffle(block, Vector256.Create(0L, 0, 2, 2));

    /// <summary>Each of the second row twice: (b, b, d, d).</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    internal static Vector256<double> SecondRowSpread(this Vector256<double> block) => Vector256.Shuffle(block, Vector256.Create(1L, 1, 3, 3));

    /// <summary>Each of the first column twice: (a, a, b, b).</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    internal static Vector256<double> FirstColumnSpread(this Vector256<double> block) => Vector256.Shuffle(block, Vector256.Create(0L, 0, 1, 1));

    /// <summary>Each of the second column twice: (c, c, d, d).</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    internal static Vector256<double> SecondColumnSpread(this Vector256<double> block) => Vector256.Shuffle(block, Vector256.Create(2L, 2, 3, 3));
}
