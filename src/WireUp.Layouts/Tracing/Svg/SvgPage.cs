using System.Collections.Immutable;

namespace WireUp.Layouts.Tracing.Svg;

/// <summary>The page of a drawing: where it lies in the units of the drawing, and how large a unit is.</summary>
/// <param name="Left">Its left edge.</param>
/// <param name="Bottom">Its bottom edge; y grows downward in a drawing.</param>
/// <param name="UnitMetres">A unit in metres of the plan.</param>
internal sealed record SvgPage(double Left, double Bottom, double UnitMetres)
{
    /// <summary>What was taken as said, for the person to check.</summary>
    public ImmutableArray<string> Notes { get; private init; } = [];

    /// <summary>A point of the drawing on the plan: y upward from the bottom of the page.</summary>
    public PlanPoint OnPlan(PlanPoint point) => new((point.X - Left) * UnitMetres, (Bottom - point.Y) * UnitMetres);

    /// <summary>The page of a drawing, or why its size is not known.</summary>
    public static (SvgPage? Page, string? Trouble) Of(SvgNode root, SvgImport import)
    {
        (double Units, bool OnPaper)? width = SvgLength.Parse(root["width"]);
        (double Units, bool OnPaper)? height = SvgLength.Parse(root["height"]);
        ImmutableArray<double> box = new SvgNumbers(root["viewBox"] ?? "").All();
        bool hasBox = box.Length == 4 && box[2] > 0 && box[3] > 0;
        double? wide = hasBox ? box[2] : width?.Units;
        (double left, double bottom) = hasBox ? (box[0], box[1] + box[3]) : (0, height?.Units ?? 0);
        if (import.Unit is { } unit)
        {
            return Sized(unit.Meters, []);
        }

        if (import.Width is { } real)
        {
            return wide is > 0 ? Sized(real.Meters / wide.Value, []) : (null, "the drawing does not say how wide its page is: give the length of one unit instead of the width");
        }

        if (width is not { OnPaper: true, Units: > 0 } paper)
        {
            return (null, "nothing says how large the drawing is: give the width of its page, or the length of one unit");
        }

        return Sized(paper.Units * SvgLength.PixelMetres / wide!.Value, [$"the drawing is taken as full size: its page is {paper.Units * SvgLength.PixelMetres:0.###} m wide"]);

        (SvgPage?, string?) Sized(double metres, ImmutableArray<string> notes) => metres is > 1e-9 and < 1e4
            ? (new(left, bottom, metres) { Notes = notes }, null)
            : (null, "a unit of the drawing would be smaller than a nanometre or longer than 10 km");
    }
}
