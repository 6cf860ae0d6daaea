using System.Collections.Immutable;

namespace WireUp.Documents;

/// <summary>
/// Packs pieces onto coils of one length, on as few coils as can be. First fit with the longest piece first; where that takes more coils than
/// the bound, and the pieces are few, every way is searched that could take fewer. Sources: S. Martello and P. Toth, Knapsack Problems, Wiley,
/// 1990, chapter 8, for the bound L2; D. S. Johnson, Near-optimal bin packing algorithms, MIT thesis, 1973, for first fit. Both from memory.
/// </summary>
/// <param name="Coils">Indices of the pieces on each coil, longest first; pieces longer than a coil have a length of wire to themselves.</param>
/// <param name="AtLeast">No packing has fewer coils.</param>
internal sealed record CoilPacking(ImmutableArray<ImmutableArray<int>> Coils, int AtLeast)
{
    private const int FewPieces = 30;

    /// <summary>Packs.</summary>
    /// <param name="lengths">Lengths of the pieces, in any whole unit.</param>
    /// <param name="coil">Length of a coil in that unit.</param>
    public static CoilPacking Of(ImmutableArray<long> lengths, long coil)
    {
        ImmutableArray<int> order = [.. Enumerable.Range(0, lengths.Length).OrderByDescending(i => lengths[i])];
        ImmutableArray<int> tooLong = [.. order.Where(i => lengths[i] > coil)], fitting = [.. order.Where(i => lengths[i] <= coil)];
        List<List<int>> packed = FirstFit(lengths, fitting, coil);
        int least = Bound([.. fitting.Select(i => lengths[i])], coil);
        while (least < packed.Count && fitting.Length <= FewPieces)
        {
            CoilSearchWorkspace search = new(lengths, fitting, coil, least);
            if (search.Packing() is { } better) packed = better;
            else if (search.GaveUp) break;
            else least++;
        }

        return new([.. tooLong.Select(i => ImmutableArray.Create(i)), .. packed.Select(pieces => pieces.ToImmutableArray())], tooLong.Length + least);
    }

    /// <summary>The bound L2: pieces over half a coil need a coil each, and what room they leave is counted against pieces of a middle size.</summary>
    internal static int Bound(ImmutableArray<long> lengths, long coil)
    {
        int best = 0;
        foreach (long small in lengths.Where(length => 2 * length <= coil).Append(0).Distinct())
        {
            long[] nearlyAll = [.. lengths.Where(length => length > coil - small)];
            long[] large = [.. lengths.Where(length => length <= coil - small && 2 * length > coil)];
            long middle = lengths.Where(length => 2 * length <= coil && length >= small).Sum();
            long beyond = middle - ((large.Length * coil) - large.Sum());
            best = Math.Max(best, nearlyAll.Length + large.Length + (beyond > 0 ? (int)((beyond + coil - 1) / coil) : 0));
        }

        return best;
    }

    private static List<List<int>> FirstFit(ImmutableArray<long> lengths, ImmutableArray<int> order, long coil)
    {
        List<(long Left, List<int> Pieces)> coils = [];
        foreach (int piece in order)
        {
            int fit = coils.FindIndex(open => open.Left >= lengths[piece]);
            if (fit < 0)
            {
                coils.Add((coil, []));
                fit = coils.Count - 1;
            }

            coils[fit].Pieces.Add(piece);
            coils[fit] = (coils[fit].Left - lengths[piece], coils[fit].Pieces);
        }

        return [.. coils.Select(open => open.Pieces)];
    }
}

/// <summary>Searches for a packing on a given number of coils, longest piece first, coils with equal room taken as one.</summary>
internal sealed class CoilSearchWorkspace(ImmutableArray<long> lengths, ImmutableArray<int> order, long coil, int coils)
{
    private const int MostSteps = 200_000;
    private readonly long[] _left = [.. Enumerable.Repeat(coil, coils)];
    private readonly List<int>[] _pieces = [.. Enumerable.Range(0, coils).Select(_ => new List<int>())];
    private int _steps;

    /// <summary>Whether the search was given up, so that no packing found does not mean that there is none.</summary>
    public bool GaveUp => _steps > MostSteps;

    /// <summary>A packing, or null.</summary>
    public List<List<int>>? Packing() => Place(0) ? [.. _pieces.Where(pieces => pieces.Count > 0)] : null;

    private bool Place(int next)
    {
        if (next == order.Length) return true;
        if (++_steps > MostSteps) return false;
        HashSet<long> tried = [];
        for (int i = 0; i < _left.Length; i++)
        {
            if (_left[i] < lengths[order[next]] || !tried.Add(_left[i])) continue;
            _left[i] -= lengths[order[next]];
            _pieces[i].Add(order[next]);
            if (Place(next + 1)) return true;
            _pieces[i].RemoveAt(_pieces[i].Count - 1);
            _left[i] += lengths[order[next]];
        }

        return false;
    }
}
