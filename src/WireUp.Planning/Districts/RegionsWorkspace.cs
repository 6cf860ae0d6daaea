using System.Collections.Immutable;

namespace WireUp.Planning.Districts;

/// <summary>A connected set of cells that could be a district.</summary>
/// <param name="Cells">Its cells, a bit each.</param>
/// <param name="Wish">The wish it fulfils, or null.</param>
internal readonly record struct Region(UInt128 Cells, int? Wish)
{
    public bool Holds(int cell) => (Cells >> cell & 1) != 0;

    /// <summary>Its first cell.</summary>
    public int FirstCell => (int)UInt128.TrailingZeroCount(Cells);
}

/// <summary>
/// Lists every connected set of cells that could be a district, each once: a set is grown from its first cell, and a cell passed
/// over once is not taken up again. Track is nearly a tree, so the sets of one district's length are few.
/// </summary>
internal sealed class RegionsWorkspace
{
    /// <summary>More cells than this are too many.</summary>
    public const int MostCells = 128;

    private readonly PartitionProblem _problem;
    private readonly int _limit;
    private readonly UInt128[] _next, _apart;
    private readonly ImmutableArray<UInt128> _wishes;
    private readonly ImmutableArray<long> _room;
    private readonly UInt128 _named;
    private readonly long _reasonable;
    private readonly List<Region> _found = [];
    private int _visited;

    private RegionsWorkspace(PartitionProblem problem, int limit)
    {
        (_problem, _limit) = (problem, limit);
        _next = new UInt128[problem.CellMillimetres.Length];
        foreach ((int from, int to, _) in problem.Edges)
        {
            _next[from] |= UInt128.One << to;
            _next[to] |= UInt128.One << from;
        }

        _apart = new UInt128[_next.Length];
        foreach ((int one, int other) in problem.Apart)
        {
            _apart[one] |= UInt128.One << other;
            _apart[other] |= UInt128.One << one;
        }

        _wishes = [.. problem.Wishes.Select(wish => wish.Aggregate(UInt128.Zero, (set, cell) => set | UInt128.One << cell))];
        _room = [.. Enumerable.Range(0, problem.Wishes.Length).Select(problem.MostBeyond)];
        _named = _wishes.Aggregate(UInt128.Zero, (all, wish) => all | wish);
        _reasonable = ReasonableMillimetres();
    }

    /// <summary>Every region, or null where there are more cells or sets of them than can be looked at.</summary>
    /// <param name="problem">The problem.</param>
    /// <param name="limit">How many sets to look at.</param>
    public static ImmutableArray<Region>? Of(PartitionProblem problem, int limit)
    {
        int cells = problem.CellMillimetres.Length;
        if (cells > MostCells)
        {
            return null;
        }

        RegionsWorkspace regions = new(problem, limit);
        bool complete = Enumerable.Range(0, cells).All(cell => regions.Grow(
            UInt128.One << cell, 0, UInt128.One << cell | ((UInt128.One << cell) - 1), cell));
        return complete ? [.. regions._found.Where(regions.IsWhole)] : null;
    }

    /// <summary>Twice the mean and one cell is more than a sensible division needs; it keeps the list short.</summary>
    private long ReasonableMillimetres()
    {
        long longestCell = _problem.CellMillimetres.Where((_, cell) => (_named >> cell & 1) == 0).DefaultIfEmpty(0).Max();
        return _problem.OrdinaryCount == 0 ? long.MaxValue : (2L * _problem.MeanMillimetres) + longestCell;
    }

    /// <summary>Takes a set and every larger one that holds no barred cell; false when there are too many.</summary>
    private bool Grow(UInt128 cells, long unnamedMillimetres, UInt128 barred, int added)
    {
        if ((cells & _apart[added]) != 0)
        {
            return true;
        }

        unnamedMillimetres += (_named >> added & 1) == 0 ? _problem.CellMillimetres[added] : 0;
        int? wish = null;
        for (int i = 0; i < _wishes.Length; i++)
        {
            if ((cells & _wishes[i]) != 0)
            {
                if (wish is not null)
                {
                    return true;
                }

                wish = i;
            }
        }

        // A set too long for an ordinary district can still grow to hold what somebody asked for, which may be longer.
        if (unnamedMillimetres > (_named == 0 ? Math.Min(_problem.MostMillimetres, _reasonable) : _reasonable))
        {
            return true;
        }

        if (unnamedMillimetres <= (wish is null ? _problem.MostMillimetres : _room[wish.Value]))
        {
            _found.Add(new(cells, wish));
        }

        return ++_visited <= _limit && GrowFurther(cells, unnamedMillimetres, barred);
    }

    private bool GrowFurther(UInt128 cells, long unnamedMillimetres, UInt128 barred)
    {
        UInt128 beside = 0;
        for (UInt128 left = cells; left != 0; left &= left - 1)
        {
            beside |= _next[(int)UInt128.TrailingZeroCount(left)];
        }

        for (UInt128 left = beside & ~cells & ~barred; left != 0; left &= left - 1)
        {
            int cell = (int)UInt128.TrailingZeroCount(left);
            barred |= UInt128.One << cell;
            if (!Grow(cells | UInt128.One << cell, unnamedMillimetres, barred, cell))
            {
                return false;
            }
        }

        return true;
    }

    /// <summary>Whether a region with a wish holds all that was asked for.</summary>
    private bool IsWhole(Region region) => region.Wish is not { } wish || (region.Cells & _wishes[wish]) == _wishes[wish];
}
