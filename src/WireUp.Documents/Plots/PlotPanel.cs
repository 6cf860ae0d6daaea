using System.Collections.Immutable;
using System.Globalization;
using WireUp.Documents.Drawings;

namespace WireUp.Documents.Plots;

/// <summary>The values an axis of a plot covers and where its marks stand.</summary>
/// <param name="From">Lowest value.</param>
/// <param name="To">Highest value, more than <paramref name="From"/>.</param>
/// <param name="Step">From one mark to the next: 1, 2 or 5 times a power of ten.</param>
internal sealed record PlotAxis(double From, double To, double Step)
{
    private static readonly int[] Digits = [1, 2, 5];

    /// <summary>Whether equal ratios lie equally far apart.</summary>
    public bool IsLogarithmic { get; init; }

    /// <summary>How much of the values makes one of what stands at the marks: 0.3048 for feet of a length in metres.</summary>
    public double Unit { get; init; } = 1;

    /// <summary>The values at marks; of a logarithmic axis 1, 2 and 5 times every power of ten.</summary>
    public IEnumerable<double> Marks
    {
        get
        {
            if (IsLogarithmic)
            {
                for (int power = (int)Math.Floor(Math.Log10(From)); Math.Pow(10, power) <= To; power++)
                {
                    foreach (double mark in Digits.Select(digit => digit * Math.Pow(10, power)).Where(mark => mark >= From * 0.999 && mark <= To * 1.001)) yield return mark;
                }

                yield break;
            }

            for (int i = (int)Math.Ceiling((From / Step) - 1e-9); i * Step <= To + (1e-9 * Step); i++) yield return i * Step;
        }
    }

    /// <summary>An axis that holds values, widened to whole marks.</summary>
    /// <param name="lowest">Lowest value to be shown.</param>
    /// <param name="highest">Highest value to be shown.</param>
    /// <param name="marks">About how many marks are wanted.</param>
    public static PlotAxis Holding(double lowest, double highest, int marks)
    {
        double step = StepFor(Math.Max(highest - lowest, 1e-6) / marks);
        return new(Math.Floor((lowest / step) + 1e-9) * step, Math.Ceiling((highest / step) - 1e-9) * step, step);
    }

    /// <summary>An axis that begins and ends exactly there.</summary>
    public static PlotAxis Exactly(double from, double to, int marks, double unit = 1) => new(from, to, unit * StepFor((to - from) / unit / marks)) { Unit = unit };

    /// <summary>A logarithmic axis that begins and ends at 1, 2 or 5 times a power of ten.</summary>
    /// <param name="lowest">Lowest value to be shown, above 0.</param>
    /// <param name="highest">Highest value to be shown, above <paramref name="lowest"/>.</param>
    public static PlotAxis Decades(double lowest, double highest)
    {
        double from = Math.Pow(10, Math.Floor(Math.Log10(lowest))), to = Math.Pow(10, Math.Ceiling(Math.Log10(highest)));
        double[] starts = [from, 2 * from, 5 * from], ends = [to / 5, to / 2, to];
        return new(starts.Last(start => start <= lowest * 1.000001), ends.First(end => end >= highest * 0.999999), 1) { IsLogarithmic = true };
    }

    /// <summary>How far along the axis a value lies, 0 at its beginning and 1 at its end.</summary>
    public double Share(double value) => IsLogarithmic ? Math.Log(value / From) / Math.Log(To / From) : (value - From) / (To - From);

    /// <summary>A value as it is written at its mark.</summary>
    public string Words(double value) => IsLogarithmic
        ? value.ToString("0.######", CultureInfo.InvariantCulture)
        : (Math.Round(value / Unit, 9) + 0.0).ToString("F" + Math.Max(0, -(int)Math.Floor(Math.Log10(Step / Unit) + 1e-9)).ToString(CultureInfo.InvariantCulture), CultureInfo.InvariantCulture);

    private static double StepFor(double least)
    {
        double power = Math.Pow(10, Math.Floor(Math.Log10(least)));
        return power * (least / power <= 1.0000001 ? 1 : least / power <= 2 ? 2 : least / power <= 5 ? 5 : 10);
    }
}

/// <summary>A box of a sheet in which curves are drawn over two axes.</summary>
internal sealed class PlotPanel(SheetBuilder canvas, SceneBox box, PlotAxis x, PlotAxis y)
{
    private const double WordSize = 2.5;

    /// <summary>The box.</summary>
    public SceneBox Box => box;

    /// <summary>Where a pair of values lies on the sheet.</summary>
    public ScenePoint At(double atX, double atY) => new(X(atX), box.Bottom - (y.Share(atY) * box.Height));

    /// <summary>Where a value of the horizontal axis lies, millimetres from the left edge of the sheet.</summary>
    public double X(double value) => box.Left + (x.Share(value) * box.Width);

    /// <summary>Frame, marks and words of both axes.</summary>
    public void PaintAxes(string vertical, string? horizontal)
    {
        foreach (double mark in y.Marks)
        {
            double at = At(x.From, mark).Y;
            canvas.Add(new Shape.Line("axes", [new(box.Left, at), new(box.Right, at)], false, ShapeStyle.Outline(SceneColours.Hair, 0.12)));
            canvas.Add(Words(new(box.Left - 1.5, at + 0.9), y.Words(mark), TextAlign.Right));
        }

        foreach (double mark in x.Marks)
        {
            canvas.Add(new Shape.Line("axes", [new(X(mark), box.Bottom), new(X(mark), box.Bottom + 1.2)], false, ShapeStyle.Outline(SceneColours.Ink, 0.2)));
            if (horizontal is not null) canvas.Add(Words(new(X(mark), box.Bottom + 4), x.Words(mark), TextAlign.Middle));
        }

        ImmutableArray<ScenePoint> frame = [new(box.Left, box.Top), new(box.Right, box.Top), new(box.Right, box.Bottom), new(box.Left, box.Bottom)];
        canvas.Add(new Shape.Line("axes", frame, true, ShapeStyle.Outline(SceneColours.Ink, 0.25)));
        canvas.Add(Words(new(box.Left, box.Top - 4.6), vertical, TextAlign.Left, bold: true));
        if (horizontal is not null) canvas.Add(Words(new(box.Right, box.Bottom + 8), horizontal, TextAlign.Right));
    }

    /// <summary>Curves, cut off at the edges of the box.</summary>
    public void Paint(string layer, IEnumerable<ImmutableArray<(double X, double Y)>> curves, ShapeStyle style)
    {
        foreach (ImmutableArray<(double X, double Y)> curve in curves)
        {
            canvas.AddWithin(box, new Shape.Line(layer, [.. curve.Select(point => At(point.X, point.Y))], false, style));
        }
    }

    private static Shape.Text Words(ScenePoint at, string words, TextAlign align, bool bold = false) =>
        new("axes", at, words, new(WordSize, SceneColours.Ink) { Align = align, Bold = bold });
}
