using System.Collections.Immutable;

namespace WireUp.Documents;

/// <summary>The lengths of dashes, one place for every kind of output.</summary>
internal static class DashPattern
{
    /// <summary>Dash, gap, dash, gap… in millimetres; empty for an unbroken line.</summary>
    public static ImmutableArray<double> Of(ShapeStyle style) => style.Dash switch
    {
        DashKind.Solid => [],
        DashKind.Long => [2.4, 0.8],
        DashKind.Dotted => [0.01, Math.Max(0.9, 2.2 * style.WidthMillimetres)],
        DashKind.Short => [1, 0.8],
        _ => throw new ArgumentOutOfRangeException(nameof(style), style.Dash, "no such dash"),
    };

    /// <summary>Whether dashes and ends are rounded: dots always are.</summary>
    public static bool RoundEnds(ShapeStyle style) => style.RoundEnds || style.Dash == DashKind.Dotted;

    /// <summary>
    /// The dashes of a line as lines of their own. Done here and not by the canvas, which would turn every dash into an outlined
    /// area and swell a PDF file tenfold.
    /// </summary>
    public static IEnumerable<ImmutableArray<ScenePoint>> Split(ImmutableArray<ScenePoint> line, ImmutableArray<double> pattern)
    {
        ImmutableArray<ScenePoint>.Builder dash = ImmutableArray.CreateBuilder<ScenePoint>();
        dash.Add(line[0]);
        (int part, double left) = (0, pattern[0]);
        for (int i = 1; i < line.Length; i++)
        {
            double length = line[i - 1].DistanceTo(line[i]), passed = 0;
            while (length - passed > left)
            {
                passed += left;
                ScenePoint at = line[i - 1].Towards(line[i], passed / length);
                if (part % 2 == 0) yield return Finish(dash, at);
                else dash.Add(at);
                part = (part + 1) % pattern.Length;
                left = pattern[part];
            }

            left -= length - passed;
            if (part % 2 == 0) dash.Add(line[i]);
        }

        if (part % 2 == 0 && dash.Count > 1) yield return dash.ToImmutable();
    }

    private static ImmutableArray<ScenePoint> Finish(ImmutableArray<ScenePoint>.Builder dash, ScenePoint end)
    {
        dash.Add(end);
        ImmutableArray<ScenePoint> finished = dash.ToImmutable();
        dash.Clear();
        return finished;
    }
}
