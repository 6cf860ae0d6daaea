using System.Collections.Immutable;
using WireUp.Layouts;

namespace WireUp.Planning.Districts;

/// <summary>A zone divided into districts; those asked for come first.</summary>
/// <param name="Districts">The cells of each.</param>
/// <param name="Borders">Where two of them meet.</param>
/// <param name="Cost">Cost of the division in boundaries' worth: its boundaries, and unequal length.</param>
/// <param name="Bound">No division into as many districts costs less.</param>
internal sealed record DividedZone(
    ImmutableArray<ImmutableArray<TrackCell>> Districts, ImmutableArray<(GapPlace At, int One, int Other)> Borders, double Cost, double Bound)
{
    /// <summary>For each district the track that is parted from the rest while it is dead; empty where nobody asked.</summary>
    public ImmutableArray<double> CutOffMetres { get; init; } = [];

    /// <summary>No division within the boundaries considered has fewer districts besides those asked for.</summary>
    public int FewestOrdinary { get; init; }
}

/// <summary>
/// Divides one zone: into no more districts than needed, taking ever larger cells where there are too many ways to try them all.
/// </summary>
internal sealed class ZoneDivision(TrackMap map, Boundaries boundaries, int zone, double metres, DivisionWishes wishes)
{
    private const int SpareDistricts = 3;

    private static readonly double[] Grains = [8, 6, 4, 3, 2, 1, 0.5];

    private readonly ImmutableArray<NamedDistrict> _named = wishes.Named;
    private readonly ImmutableArray<ImmutableArray<ZoneEdge>> _around = wishes.WayRound ? WaysAround.Of(map, zone) : [];

    /// <summary>Divides; null where what is asked for cannot be had.</summary>
    /// <param name="mostMetres">Longest ordinary district; where no division keeps to it, the longest is as short as possible.</param>
    /// <param name="effort">Deterministic seconds for each choice.</param>
    public DividedZone? Solve(double mostMetres, double effort)
    {
        double unnamed = Math.Max(0, UnnamedMetres() - BuiltRoomMetres());
        int fewest = mostMetres > 0 ? Math.Max(BuiltRoomMetres() > 0 ? 0 : 1, (int)Math.Ceiling((unnamed / mostMetres) - 1e-9)) : 1;
        if (_named.Length > 0 && fewest == 1 && unnamed < metres / (_named.Length + 1) / 2)
        {
            // Little is left beside what is asked for: it can go with its neighbours.
            fewest = 0;
        }

        HashSet<PieceId> pieces = [.. map.SpotsIn(zone).Select(spot => spot.Piece)];
        fewest = Math.Max(fewest, wishes.FewestApart(pieces.Contains) - _named.Length);
        int proved = fewest;
        foreach ((double most, bool isTight) in new[] { (mostMetres, true), (double.PositiveInfinity, true), (double.PositiveInfinity, false) })
        {
            for (int count = fewest; count <= fewest + SpareDistricts; count++)
            {
                (DividedZone? divided, bool isRefuted) = Divide(count, most, isTight, effort);
                if (divided is not null)
                {
                    return divided with { FewestOrdinary = proved };
                }

                proved += isRefuted && count == proved && most == mostMetres ? 1 : 0;
            }
        }

        return null;
    }

    /// <summary>Track that districts which are there can still take in, whatever lies near the feeders that they have.</summary>
    private double BuiltRoomMetres() => _named.Sum(each => each.BuiltMetres ?? 0);

    private double UnnamedMetres() => Cells(Grains[1], 1).Cells.Where(cell => wishes.NameOfCell(cell) is null).Sum(cell => cell.LengthMetres);

    /// <summary>
    /// The better of two divisions: one in cells as small as can be, and one in larger cells drawn together from still smaller ones.
    /// Refuted: the cells were few enough to tell that there is none.
    /// </summary>
    private (DividedZone? Divided, bool IsRefuted) Divide(int count, double most, bool isTight, double effort)
    {
        (DividedZone? Divided, bool IsRefuted)[] tries =
        [
            First(grain => Cells(grain, count)),
            First(grain => CellMerging.Merged(Cells(grain, count), MeanMetres(count) / grain, wishes.LabelOf)),
        ];
        DividedZone[] found = [.. tries.Select(each => each.Divided).OfType<DividedZone>().OrderBy(each => each.Cost)];
        return found.Length == 0
            ? (null, tries.Any(each => each.IsRefuted))
            : (found[0] with { Bound = found.Min(each => each.Bound) }, false);

        (DividedZone? Divided, bool IsRefuted) First(Func<double, CellGraph> cellsOf) => Grains
            .Select(grain => Divide(cellsOf(grain), count, most, isTight, effort))
            .FirstOrDefault(each => each.Divided is not null || each.IsRefuted);
    }

    /// <summary>Neither divided nor refuted: there are too many cells.</summary>
    private (DividedZone? Divided, bool IsRefuted) Divide(CellGraph cells, int count, double most, bool isTight, double effort)
    {
        if (cells.Cells.Any(cell => _named.Count(each => each.Holds(cell)) > 1))
        {
            return (null, true);
        }

        ImmutableArray<(int, int)> around = [.. _around.SelectMany(edges =>
        {
            int[] touched = [.. cells.Cells.Where(cell => edges.Any(edge => edge.Touches(cell))).Select(cell => cell.Index)];
            return touched.Skip(1).Select(cell => (touched[0], cell));
        })];
        PartitionProblem problem = new(
            [.. cells.Cells.Select(cell => (int)Math.Round(cell.LengthMetres * 1000))],
            [.. cells.Edges.Select(edge => (edge.From, edge.To, edge.Boundary.Cost))],
            [.. _named.Select(each => cells.Cells.Where(each.Holds).Select(cell => cell.Index).ToImmutableArray())],
            count)
        {
            Apart = [.. wishes.ApartCells(cells)],
            WayRound = wishes.WayRound,
            Around = around,
            MostMillimetres = double.IsInfinity(most) ? int.MaxValue : (int)Math.Round(most * 1000),

            MostOfBuilt = [.. _named.Select(each => each.BuiltMetres is { } carried ? (long)(carried * 1000) : (long?)null)],

            // What is asked for stays near what was asked for, unless nothing but that is left to take up the rest.
            MostBeyondMillimetres = isTight && count > 0 ? (int)(MeanMetres(count) / 2 * 1000) : int.MaxValue,
        };
        return PartitionSolver.Solve(problem, effort) switch
        {
            PartitionOutcome.Divided { Result: var result } => (Divided(cells, problem, result), false),
            PartitionOutcome.Impossible => (null, true),
            _ => (null, false),
        };
    }

    /// <summary>Cells of the zone, the smaller the finer the grain: parts of the length that a district will have on average.</summary>
    private CellGraph Cells(double grain, int districts)
    {
        double mean = MeanMetres(districts), small = mean / grain;
        return CellGraph
            .Of(map, run => run.Parts.IsEmpty || map.ZoneOf(run.Parts[0].Spot.Index) != zone
                ? []
                : boundaries.Of(run, Math.Max(1, (int)Math.Ceiling(run.LengthMetres / small)), wishes.LabelOf))
            .Only(cell => cell.Zone == zone)
            .Simplified(small, mean / 2, wishes.LabelOf);
    }

    private double MeanMetres(int districts) => metres / Math.Max(1, districts + _named.Length);

    private static DividedZone Divided(CellGraph cells, PartitionProblem problem, PartitionResult result)
    {
        double unit = 100.0 * problem.MillimetresPerCost;
        return new(
            [.. Enumerable.Range(0, problem.DistrictCount).Select(district =>
                cells.Cells.Where(cell => result.DistrictOf[cell.Index] == district).ToImmutableArray())],
            [.. cells.Edges
                .Where(edge => result.DistrictOf[edge.From] != result.DistrictOf[edge.To])
                .Select(edge => (edge.Boundary.Place, result.DistrictOf[edge.From], result.DistrictOf[edge.To]))],
            result.Cost / unit,
            result.Bound / unit)
        {
            CutOffMetres = problem.WayRound
                ? [.. Enumerable.Range(0, problem.DistrictCount).Select(district => problem.CutOffBy(cell => result.DistrictOf[cell] == district) / 1000.0)]
                : [],
        };
    }
}
