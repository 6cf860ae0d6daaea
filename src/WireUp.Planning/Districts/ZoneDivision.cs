using System.Collections.Immutable;
using WireUp.Layouts;

namespace WireUp.Planning.Districts;

/// <summary>A zone divided into districts; those asked for come first.</summary>
/// <param name="Districts">The cells of each.</param>
/// <param name="Borders">Where two of them meet.</param>
/// <param name="Cost">Cost of the division in boundaries' worth: its boundaries, and unequal length.</param>
/// <param name="Bound">No division into as many districts costs less.</param>
internal sealed record DividedZone(
    ImmutableArray<ImmutableArray<TrackCell>> Districts, ImmutableArray<(GapPlace At, int One, int Other)> Borders, double Cost, double Bound);

/// <summary>
/// Divides one zone: into no more districts than needed, taking ever larger cells where there are too many ways to try them all.
/// </summary>
internal sealed class ZoneDivision(
    TrackMap map, Boundaries boundaries, int zone, double metres, ImmutableArray<(string Name, Func<TrackCell, bool> Holds)> named, Func<PieceId, string?> nameOfPiece)
{
    private const int SpareDistricts = 3;

    private static readonly double[] Grains = [6, 3, 2, 1, 0.5];

    /// <summary>Divides; null where what is asked for cannot be had.</summary>
    /// <param name="mostMetres">Longest ordinary district; where no division keeps to it, the longest is as short as possible.</param>
    /// <param name="effort">Deterministic seconds for each choice.</param>
    public DividedZone? Solve(double mostMetres, double effort)
    {
        double unnamed = UnnamedMetres();
        int fewest = mostMetres > 0 ? Math.Max(1, (int)Math.Ceiling((unnamed / mostMetres) - 1e-9)) : 1;
        if (named.Length > 0 && fewest == 1 && unnamed < metres / (named.Length + 1) / 2)
        {
            // Little is left beside what is asked for: it can go with its neighbours.
            fewest = 0;
        }

        foreach ((double most, bool isTight) in new[] { (mostMetres, true), (double.PositiveInfinity, true), (double.PositiveInfinity, false) })
        {
            for (int count = fewest; count <= fewest + SpareDistricts; count++)
            {
                if (Divide(count, most, isTight, effort) is { } divided)
                {
                    return divided;
                }
            }
        }

        return null;
    }

    private double UnnamedMetres() => Cells(Grains[1], 1).Cells.Where(cell => NameOf(cell) is null).Sum(cell => cell.LengthMetres);

    private DividedZone? Divide(int count, double most, bool isTight, double effort)
    {
        foreach (double grain in Grains)
        {
            CellGraph cells = Cells(grain, count);
            if (cells.Cells.Any(cell => named.Count(each => each.Holds(cell)) > 1))
            {
                return null;
            }

            PartitionProblem problem = new(
                [.. cells.Cells.Select(cell => (int)Math.Round(cell.LengthMetres * 1000))],
                [.. cells.Edges.Select(edge => (edge.From, edge.To, edge.Boundary.Cost))],
                [.. named.Select(each => cells.Cells.Where(each.Holds).Select(cell => cell.Index).ToImmutableArray())],
                count)
            {
                MostMillimetres = double.IsInfinity(most) ? int.MaxValue : (int)Math.Round(most * 1000),

                // What is asked for stays near what was asked for, unless nothing but that is left to take up the rest.
                MostBeyondMillimetres = isTight && count > 0 ? (int)(metres / (count + named.Length) / 2 * 1000) : int.MaxValue,
            };
            switch (PartitionSolver.Solve(problem, effort))
            {
                case PartitionOutcome.Divided { Result: var result }:
                    return Divided(cells, problem, result);
                case PartitionOutcome.Impossible:
                    return null;
            }
        }

        return null;
    }

    /// <summary>Cells of the zone, the smaller the finer the grain: parts of the length that a district will have on average.</summary>
    private CellGraph Cells(double grain, int districts)
    {
        double mean = metres / Math.Max(1, districts + named.Length), small = mean / grain;
        return CellGraph
            .Of(map, run => run.Parts.IsEmpty || map.ZoneOf(run.Parts[0].Spot.Index) != zone
                ? []
                : boundaries.Of(run, Math.Max(1, (int)Math.Ceiling(run.LengthMetres / small)), nameOfPiece))
            .Only(cell => cell.Zone == zone)
            .Simplified(small, mean / 2, NameOf);
    }

    private string? NameOf(TrackCell cell) =>
        named.Where(each => each.Holds(cell)).Select(each => each.Name).FirstOrDefault();

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
            result.Bound / unit);
    }
}
