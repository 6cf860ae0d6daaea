using System.Collections.Immutable;
using WireUp.Documents.Geometry;
using WireUp.Layouts;

namespace WireUp.Documents.Drawings;

/// <summary>
/// Where the plan lies on a sheet. From below the picture is turned left for right about an upright axis, as the plan looks to
/// somebody who lies under it with his feet where the reader's are; only places are mirrored, words never.
/// </summary>
internal sealed class PlanSheet
{
    private readonly double _left;
    private readonly double _top;
    private readonly PlanBox _part;

    /// <summary>Lays a part of a plan into a window, as large as it goes and in its middle.</summary>
    /// <param name="geometry">The plan.</param>
    /// <param name="part">The part of it.</param>
    /// <param name="window">The window on the sheet.</param>
    /// <param name="view">From where it is seen.</param>
    /// <param name="gaugeMetres">The gauge, to draw it true to scale and as large as asked; null to draw rails as they read well.</param>
    public PlanSheet(PlanGeometry geometry, PlanBox part, SceneBox window, DrawingView view, double? gaugeMetres = null)
    {
        const double LeastHalfGauge = 0.3, LargestSpacing = 18;
        (Geometry, Window, View, _part) = (geometry, window, view, part);
        MillimetresPerMetre = Scale(part, window);
        if (gaugeMetres is null) MillimetresPerMetre = Math.Min(MillimetresPerMetre, LargestSpacing / Math.Max(geometry.SpacingMetres, 1e-6));
        HalfGauge = gaugeMetres is { } gauge ? Math.Max(LeastHalfGauge, gauge / 2 * MillimetresPerMetre) : Math.Clamp(Spacing / 6, LeastHalfGauge, 1.1);
        _left = window.Left + ((window.Width - (part.Width * MillimetresPerMetre)) / 2);
        _top = window.Top + ((window.Height - (part.Height * MillimetresPerMetre)) / 2);
    }

    /// <summary>The plan.</summary>
    public PlanGeometry Geometry { get; }

    /// <summary>The window on the sheet; nothing of the plan is drawn outside it.</summary>
    public SceneBox Window { get; }

    /// <summary>From where it is seen.</summary>
    public DrawingView View { get; }

    /// <summary>Millimetres on paper for a metre of the plan.</summary>
    public double MillimetresPerMetre { get; }

    /// <summary>Distance between neighbouring tracks on paper, in millimetres.</summary>
    public double Spacing => Geometry.SpacingMetres * MillimetresPerMetre;

    /// <summary>Distance from the centre line to each rail on paper, in millimetres.</summary>
    public double HalfGauge { get; }

    /// <summary>Distance from the centre line to each rail, in metres of the plan.</summary>
    public double HalfGaugeMetres => HalfGauge / MillimetresPerMetre;

    /// <summary>A point of the plan on the sheet.</summary>
    public ScenePoint Point(PlanPoint point)
    {
        double x = View == DrawingView.Above ? point.X - _part.MinX : _part.MaxX - point.X;
        return new(_left + (x * MillimetresPerMetre), _top + ((_part.MaxY - point.Y) * MillimetresPerMetre));
    }

    /// <summary>A line of the plan on the sheet.</summary>
    public ImmutableArray<ScenePoint> Line(ImmutableArray<PlanPoint> points) => [.. points.Select(Point)];

    /// <summary>A point beside a place of the track, in millimetres on paper to the left of its direction.</summary>
    public ScenePoint Beside(PlanPose pose, double millimetresLeft) => Point(pose.Beside(millimetresLeft / MillimetresPerMetre));

    /// <summary>A unit step on the sheet to the left of the track's direction.</summary>
    public (double X, double Y) LeftOf(PlanPose pose)
    {
        double x = View == DrawingView.Above ? -pose.DirectionY : pose.DirectionY;
        return (x, -pose.DirectionX);
    }

    /// <summary>The scale at which a part fits a window.</summary>
    private static double Scale(PlanBox part, SceneBox window) =>
        Math.Min(window.Width / Math.Max(part.Width, 1e-6), window.Height / Math.Max(part.Height, 1e-6));
}
