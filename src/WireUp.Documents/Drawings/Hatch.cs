using System.Collections.Immutable;

namespace WireUp.Documents.Drawings;

/// <summary>The strokes that fill a band along a line.</summary>
internal static class Hatch
{
    private const double Step = 1.7;

    /// <summary>Ends of strokes, two and two.</summary>
    /// <param name="line">The middle of the band.</param>
    /// <param name="half">Half its width in millimetres.</param>
    /// <param name="kind">The hatch.</param>
    public static IEnumerable<ScenePoint> Strokes(ImmutableArray<ScenePoint> line, double half, HatchKind kind) => kind switch
    {
        HatchKind.Forward => Across(line, half, Step, half),
        HatchKind.Back => Across(line, half, Step, -half),
        HatchKind.Pairs => Across(line, half, 1.8 * Step, 0).Concat(Across(line, half, 1.8 * Step, 0, 0.5)),
        HatchKind.Crosses => Across(line, half, 1.5 * Step, half).Concat(Across(line, half, 1.5 * Step, -half)),
        HatchKind.Ladder => Across(line, half, 1.4 * Step, 0),
        HatchKind.Edges => Edge(line, half).Concat(Edge(line, -half)),
        _ => throw new ArgumentOutOfRangeException(nameof(kind), kind, "no such hatch"),
    };

    private static IEnumerable<ScenePoint> Across(ImmutableArray<ScenePoint> line, double half, double step, double lean, double shift = 0)
    {
        double next = (step / 2) + shift, passed = 0;
        for (int i = 1; i < line.Length; i++)
        {
            double length = line[i - 1].DistanceTo(line[i]);
            if (length <= 0) continue;
            (double x, double y) = ((line[i].X - line[i - 1].X) / length, (line[i].Y - line[i - 1].Y) / length);
            for (; next <= passed + length; next += step)
            {
                ScenePoint at = line[i - 1].Towards(line[i], (next - passed) / length);
                yield return new(at.X - (y * half) + (x * lean), at.Y + (x * half) + (y * lean));
                yield return new(at.X + (y * half) - (x * lean), at.Y - (x * half) - (y * lean));
            }

            passed += length;
        }
    }

    private static IEnumerable<ScenePoint> Edge(ImmutableArray<ScenePoint> line, double side)
    {
        for (int i = 1; i < line.Length; i++)
        {
            double length = line[i - 1].DistanceTo(line[i]);
            if (length <= 0) continue;
            (double x, double y) = ((line[i].Y - line[i - 1].Y) / length * side, (line[i - 1].X - line[i].X) / length * side);
            yield return new(line[i - 1].X + x, line[i - 1].Y + y);
            yield return new(line[i].X + x, line[i].Y + y);
        }
    }
}
