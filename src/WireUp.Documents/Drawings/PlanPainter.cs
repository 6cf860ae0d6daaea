using WireUp.Layouts;

namespace WireUp.Documents.Drawings;

/// <summary>How much is written on a plan.</summary>
internal enum PlanDetail
{
    /// <summary>Everything that the layers ask for.</summary>
    Full,

    /// <summary>Only letters of districts and names of turnouts: a map to the other sheets.</summary>
    Overview,

    /// <summary>Nothing: a picture.</summary>
    Bare,
}

/// <summary>How the labels of a drawing found their places.</summary>
/// <param name="Labels">How many there are.</param>
/// <param name="Covering">How many cover track or another label.</param>
/// <param name="FarAway">How many lie far from what they name.</param>
internal readonly record struct Crowding(int Labels, int Covering, int FarAway)
{
    /// <summary>Whether it reads well: nothing covered, and no more than one label in twelve, or two in all, far away.</summary>
    public bool ReadsWell => Covering == 0 && FarAway <= Math.Max(2, Labels / 12);

    /// <summary>Whether it can be read: nothing covered, and no more than one label in eight far away.</summary>
    public bool ReadsFairly => Covering == 0 && FarAway * 8 <= Labels;

    /// <summary>Two drawings taken together.</summary>
    public static Crowding operator +(Crowding one, Crowding other) =>
        new(one.Labels + other.Labels, one.Covering + other.Covering, one.FarAway + other.FarAway);
}

/// <summary>What goes on a plan besides the plan.</summary>
internal interface IUnderlay
{
    /// <summary>How near the edge nothing is named, in millimetres, because another sheet shows it better.</summary>
    double Margin => 0;

    /// <summary>Draws what lies under the plan.</summary>
    void Paint(SheetBuilder canvas);

    /// <summary>Writes its labels, before those of the plan.</summary>
    void Label(LabelWriter writer);
}

/// <summary>Draws a part of a plan into a window of a sheet.</summary>
internal sealed class PlanPainter(PlanFacts facts, DrawingOptions options)
{
    /// <summary>Whether a drawing that turns out too crowded is given up half way; its shapes are of no use then.</summary>
    public bool IsTrial { get; init; }

    /// <summary>Whether the rails are only the ground of what is drawn over them.</summary>
    public bool QuietRails { get; init; }

    /// <summary>Whether boards go without their names, as where the sheet is one board's.</summary>
    public bool HidesBoardNames { get; init; }

    /// <summary>The pieces that must be named; others only where there is room. Null for all.</summary>
    public IReadOnlySet<PieceId>? Named { get; init; }

    /// <summary>Draws, and says how the labels found their places.</summary>
    public Crowding Paint(
        SheetBuilder canvas, PlanSheet sheet, PlanDetail detail, CancellationToken cancellation, IUnderlay? underlay = null)
    {
        LabelPlacer placer = new(sheet.Window) { IsTrial = IsTrial };
        LabelWriter writer = new(sheet, canvas, placer);
        underlay?.Paint(canvas);
        BenchworkPainter benchwork = new(facts, sheet, canvas);
        if (ShowsBenchwork(detail)) benchwork.Paint();
        BandPainter bands = new(facts, sheet, canvas);
        BusPainter bus = new(facts, sheet, canvas, placer);
        GapPainter gaps = new(facts, sheet, canvas, placer);
        if (facts.Figure is var (scale, map)) new FigurePainter(facts, sheet, canvas, scale).Paint(map, bands.HalfWidth);
        else if (Shows(DrawingLayers.Districts)) bands.Paint();
        if (Shows(DrawingLayers.Bus) && detail == PlanDetail.Full) bus.Paint();
        new RailPainter(facts, sheet, canvas, placer) { Quiet = QuietRails }.Paint();
        if (Shows(DrawingLayers.Gaps)) gaps.Paint();
        underlay?.Label(writer);
        cancellation.ThrowIfCancellationRequested();
        NamePainter names = new(facts, sheet, writer) { Margin = underlay?.Margin ?? 0, Named = Named };
        if (detail == PlanDetail.Overview) PaintOverviewNames(names, bands);
        if (detail != PlanDetail.Full) return new(placer.Placed, placer.Covering, placer.FarAway);
        if (Shows(DrawingLayers.Findings)) names.Findings(options.Findings);
        names.Marks(options.Marks);
        if (Shows(DrawingLayers.Districts)) names.Districts(bands);
        if (Shows(DrawingLayers.Gaps)) gaps.Label(writer);
        cancellation.ThrowIfCancellationRequested();
        if (Shows(DrawingLayers.Feeders)) new FeederPainter(facts, sheet, canvas, placer).Paint(writer);
        cancellation.ThrowIfCancellationRequested();
        if (Shows(DrawingLayers.Bus)) bus.Label(writer);
        if (Shows(DrawingLayers.Names))
        {
            names.Pieces();
            names.Ends();
            if (ShowsBenchwork(detail)) benchwork.Label(writer, boards: !HidesBoardNames);
        }

        return new(placer.Placed, placer.Covering, placer.FarAway);
    }

    private void PaintOverviewNames(NamePainter names, BandPainter bands)
    {
        if (Shows(DrawingLayers.Districts)) names.Districts(bands);
        if (Shows(DrawingLayers.Names)) names.Turnouts();
    }

    // Without paths there is no plan that the benchwork could lie on; the reader sees to that, not every program that uses the library.
    private bool ShowsBenchwork(PlanDetail detail) => Shows(DrawingLayers.Benchwork) && detail != PlanDetail.Bare && !facts.Geometry.Automatic;

    private bool Shows(DrawingLayers layer) => options.Layers.HasFlag(layer);
}
