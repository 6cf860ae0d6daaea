using System.Collections.Immutable;
using System.Globalization;
using WireUp.Circuits.Sessions;

namespace WireUp.Documents;

/// <summary>
/// Operating sessions as a sheet: for every district, every booster and the whole railway the current over the first session, and
/// beside it, to the same scale, for how much of the time of all sessions how much flows.
/// </summary>
public static class SessionPlot
{
    private const double Width = 297, Margin = 12, Head = 24, RowHeight = 34, PanelHeight = 24, Gap = 10, ShareWidth = 70, Label = 12;
    private const double Small = 2.6, Medium = 3.2, Large = 4.6;
    private const string Layer = "plot";

    private static readonly ImmutableArray<double> Steps = [1, 2, 5];

    /// <summary>Draws the sheet; as long as it needs to be.</summary>
    /// <param name="report">The sessions.</param>
    /// <param name="loading">Their currents beside the rule.</param>
    public static Scene Draw(SessionReport report, LoadingComparison loading)
    {
        List<Shape> shapes =
        [
            Words(new(Margin, 12), $"{report.Railway.Name}: operating sessions", new(Large, SceneColours.Ink) { Bold = true }),
            Words(new(Margin, 18), string.Create(CultureInfo.InvariantCulture,
                $"Left: current over the first of {report.Sessions} sessions of {report.Options.Length.Hours:0.##} h (seed {report.Options.Seed}). Right: for how much of all time at least so much flows. Long dashes: the rule. Dots: 99 %."), new(Small, SceneColours.Quiet)),
        ];
        double top = Head;
        foreach (LoadingRow row in loading.Rows)
        {
            shapes.AddRange(Row(row, report.Options.Length.Hours, top));
            top += RowHeight;
        }

        return new(Width, top + Margin, [.. shapes]) { Title = $"{report.Railway.Name}: operating sessions" };
    }

    private static IEnumerable<Shape> Row(LoadingRow row, double hours, double top)
    {
        double step = Step(Math.Max(row.Operated.Largest.Amperes, row.Rule.Amperes)), most = step * Math.Ceiling(Math.Max(row.Operated.Largest.Amperes, row.Rule.Amperes) / step);
        most = Math.Max(most, step);
        SceneBox time = new(Margin + Label, top + 6, Width - Margin - ShareWidth - Gap, top + 6 + PanelHeight);
        SceneBox share = new(Width - Margin - ShareWidth, time.Top, Width - Margin, time.Bottom);
        yield return Words(new(Margin, top + 4), row.Operated.Name, new(Medium, SceneColours.Ink) { Bold = true });
        foreach (SceneBox panel in new[] { time, share })
        {
            foreach (Shape shape in Frame(panel, step, most))
            {
                yield return shape;
            }

            yield return Level(panel, row.Rule.Amperes / most, ShapeStyle.Outline(SceneColours.Vermilion, 0.35, DashKind.Long));
            yield return Level(panel, row.Operated.Percentile99.Current.Amperes / most, ShapeStyle.Outline(SceneColours.Ink, 0.35, DashKind.Dotted));
        }

        for (double amps = 0; amps <= most * 1.0001; amps += step)
        {
            yield return Words(new(time.Left - 1.5, Y(time, amps / most) + 0.9), $"{Number(amps)} A", new(Small, SceneColours.Quiet) { Align = TextAlign.Right });
        }

        for (int tick = 0; tick <= 4; tick++)
        {
            yield return Words(new(X(time, tick / 4.0), time.Bottom + 3.2), $"{Number(hours * tick / 4)} h", new(Small, SceneColours.Quiet) { Align = TextAlign.Middle });
            yield return Words(new(X(share, tick / 4.0), share.Bottom + 3.2), $"{Number(25 * tick)} %", new(Small, SceneColours.Quiet) { Align = TextAlign.Middle });
        }

        yield return Curve(row.Operated.Name, TimeLine(row.Operated, time, hours, most), 0.2);
        yield return Curve(row.Operated.Name, ShareLine(row.Operated, share, most), 0.4);
    }

    private static IEnumerable<Shape> Frame(SceneBox panel, double step, double most)
    {
        for (double amps = 0; amps <= most * 1.0001; amps += step)
        {
            yield return Level(panel, amps / most, ShapeStyle.Outline(SceneColours.Hair, amps == 0 ? 0.3 : 0.15));
        }
    }

    /// <summary>Current over time: level until the next step.</summary>
    private static ImmutableArray<ScenePoint> TimeLine(SessionCurrent current, SceneBox panel, double hours, double most)
    {
        ImmutableArray<ScenePoint>.Builder line = ImmutableArray.CreateBuilder<ScenePoint>();
        line.Add(new(panel.Left, panel.Bottom));
        foreach (CurrentStep step in current.FirstSession)
        {
            double x = X(panel, step.At.Hours / hours);
            line.Add(new(x, line[^1].Y));
            line.Add(new(x, Y(panel, step.Current.Amperes / most)));
        }

        line.Add(new(panel.Right, line[^1].Y));
        return line.ToImmutable();
    }

    /// <summary>From the largest current, which hardly ever flows, down to the smallest, which always does.</summary>
    private static ImmutableArray<ScenePoint> ShareLine(SessionCurrent current, SceneBox panel, double most)
    {
        ImmutableArray<ScenePoint>.Builder line = ImmutableArray.CreateBuilder<ScenePoint>();
        double exceeded = 0;
        for (int i = current.Shares.Length - 1; i >= 0; i--)
        {
            double y = Y(panel, current.Shares[i].Current.Amperes / most);
            line.Add(new(X(panel, exceeded), y));
            exceeded = i == 0 ? 1 : 1 - current.Shares[i - 1].UpTo.DecimalFractions;
            line.Add(new(X(panel, exceeded), y));
        }

        return line.ToImmutable();
    }

    /// <summary>The distance of lines so that there are two to five of them.</summary>
    private static double Step(double most)
    {
        double wanted = Math.Max(most, 0.01) / 4;
        double power = 0.001;
        while (power * 10 < wanted)
        {
            power *= 10;
        }

        return Steps.Append(10).First(step => step * power >= wanted) * power;
    }

    private static double X(SceneBox panel, double share) => panel.Left + (share * panel.Width);

    private static double Y(SceneBox panel, double share) => panel.Bottom - (share * panel.Height);

    private static Shape.Line Level(SceneBox panel, double share, ShapeStyle style) =>
        new(Layer, [new(panel.Left, Y(panel, share)), new(panel.Right, Y(panel, share))], false, style);

    private static Shape.Line Curve(string id, ImmutableArray<ScenePoint> points, double width) =>
        new(Layer, points, false, ShapeStyle.Outline(SceneColours.Blue, width)) { Id = id };

    private static Shape.Text Words(ScenePoint at, string text, TextStyle style) => new(Layer, at, text, style);

    private static string Number(double value) => value.ToString("0.##", CultureInfo.InvariantCulture);
}
