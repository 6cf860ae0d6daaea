using System.Collections.Immutable;
using WireUp.Rails;

namespace WireUp.Planning.Districts;

/// <summary>How cells are to be divided into connected districts. Lengths are whole millimetres so that sums are exact.</summary>
/// <param name="CellMillimetres">Length of each cell.</param>
/// <param name="Edges">Cells that a boundary could part, with its cost.</param>
/// <param name="Wishes">Cells that must form a district of their own, a list for each; a district may hold more than was asked for.</param>
/// <param name="OrdinaryCount">How many further districts there are to be.</param>
internal sealed record PartitionProblem(
    ImmutableArray<int> CellMillimetres,
    ImmutableArray<(int From, int To, int Cost)> Edges,
    ImmutableArray<ImmutableArray<int>> Wishes,
    int OrdinaryCount)
{
    /// <summary>Longest ordinary district allowed; int.MaxValue for no limit.</summary>
    public int MostMillimetres { get; init; } = int.MaxValue;

    /// <summary>Most that a wish may hold beyond what was asked for; int.MaxValue for no limit.</summary>
    public int MostBeyondMillimetres { get; init; } = int.MaxValue;

    /// <summary>Two cells each that must not share a district.</summary>
    public ImmutableArray<(int One, int Other)> Apart { get; init; } = [];

    /// <summary>
    /// Whether a district costs the length of track that is parted from the rest while the district is dead; where the rest falls into
    /// several parts, all but the longest count.
    /// </summary>
    public bool WayRound { get; init; }

    /// <summary>Two cells each that track outside the problem joins; of use to ways round only.</summary>
    public ImmutableArray<(int From, int To)> Around { get; init; } = [];

    /// <summary>Most that a wish may hold beyond what was asked for: no more than an ordinary district in all, unless it asks for more by itself.</summary>
    public long MostBeyond(int wish)
    {
        long? built = BuiltMost(wish);
        return Math.Min(built is null ? MostBeyondMillimetres : long.MaxValue, Math.Max(0, (built ?? MostMillimetres) - Wishes[wish].Sum(cell => (long)CellMillimetres[cell])));
    }

    /// <summary>For each wish that is a district which is there what it may hold in all; null for others, and empty where there is none.</summary>
    public ImmutableArray<long?> MostOfBuilt { get; init; } = [];

    private long? BuiltMost(int wish) => MostOfBuilt.IsEmpty ? null : MostOfBuilt[wish];

    /// <summary>Number of districts; wishes come first.</summary>
    public int DistrictCount => Wishes.Length + OrdinaryCount;

    /// <summary>Length that each ordinary district would have if all were alike.</summary>
    public int MeanMillimetres => OrdinaryCount == 0
        ? 0
        : (CellMillimetres.Sum() - Wishes.Sum(wish => wish.Sum(cell => CellMillimetres[cell]))) / OrdinaryCount;

    /// <summary>Millimetres of imbalance that weigh as much as one point of boundary cost; even, so that halves are whole.</summary>
    public int MillimetresPerCost => Math.Max(2, CellMillimetres.Sum() / Math.Max(1, DistrictCount) / 200 * 2);

    /// <summary>
    /// What one district adds to the cost: half of each of its boundaries, and its distance from the mean length, or for a wish
    /// what it holds beyond what was asked for, if it is not there already; and what it cuts off while it is dead, where that matters.
    /// </summary>
    /// <param name="wish">Its wish, or null for an ordinary district.</param>
    /// <param name="holds">For each cell whether the district holds it.</param>
    public long CostOf(int? wish, Func<int, bool> holds)
    {
        long boundaries = Edges.Where(edge => holds(edge.From) != holds(edge.To)).Sum(edge => (long)edge.Cost);
        long length = Enumerable.Range(0, CellMillimetres.Length).Where(holds).Sum(cell => (long)CellMillimetres[cell]);
        long asked = wish switch
        {
            null => MeanMillimetres,
            { } number when BuiltMost(number) is not null => length,
            { } number => Wishes[number].Sum(cell => (long)CellMillimetres[cell]),
        };
        return (boundaries * MillimetresPerCost / 2) + Math.Abs(length - asked) + (WayRound ? CutOffBy(holds) : 0);
    }

    /// <summary>Millimetres of other track that are parted from the longest part of it while a district is dead.</summary>
    /// <param name="holds">For each cell whether the district holds it.</param>
    public long CutOffBy(Func<int, bool> holds)
    {
        DisjointSetsWorkspace parts = new(CellMillimetres.Length);
        foreach ((int from, int to) in Edges.Select(edge => (edge.From, edge.To)).Concat(Around).Where(pair => !holds(pair.Item1) && !holds(pair.Item2)))
        {
            parts.Join(from, to);
        }

        long[] lengths = [.. Enumerable.Range(0, CellMillimetres.Length)
            .Where(cell => !holds(cell))
            .GroupBy(parts.Find, cell => (long)CellMillimetres[cell])
            .Select(part => part.Sum())];
        return lengths.Sum() - lengths.DefaultIfEmpty(0).Max();
    }

    /// <summary>The cost of a whole division.</summary>
    public long CostOf(IReadOnlyList<int> districtOf) => Enumerable.Range(0, DistrictCount)
        .Sum(district => CostOf(district < Wishes.Length ? district : null, cell => districtOf[cell] == district));
}

/// <summary>A division and how good any other can be.</summary>
/// <param name="DistrictOf">For each cell its district; wishes first, the others in the order of their first cells.</param>
/// <param name="Cost">What it costs.</param>
/// <param name="Bound">No division costs less, as far as proved.</param>
internal sealed record PartitionResult(ImmutableArray<int> DistrictOf, long Cost, double Bound);
