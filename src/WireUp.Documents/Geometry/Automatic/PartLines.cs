using System.Collections.Immutable;
using WireUp.Layouts;

namespace WireUp.Documents.Geometry.Automatic;

/// <summary>The finished lines of one connected part of a layout, in units of track spacing.</summary>
/// <param name="Lines">A line for every way through every piece.</param>
/// <param name="Bridges">Where tracks cross that do not meet.</param>
internal sealed record PartLines(ImmutableArray<PieceLine> Lines, ImmutableArray<PlanPoint> Bridges)
{
    /// <summary>The same with every point moved.</summary>
    public PartLines Moved(Func<PlanPoint, PlanPoint> move) => new(
        [.. Lines.Select(line => line with { Points = [.. line.Points.Select(move)] })],
        [.. Bridges.Select(move)]);
}
