using WireUp.Documents.Drawings;
using WireUp.Documents.Geometry;
using WireUp.Layouts;

namespace WireUp.Documents.Book;

/// <summary>The plan of one district on its sheet: its rails with their letters, its gaps, feeders and bus; what lies around it is only ground.</summary>
internal sealed class DistrictPlan
{
    private const double Margin = 11, Least = 52, Enough = 70, HeadingRoom = 14, WordsHeight = 5;
    private const string Words = "From above, with the signs of the plans. Rails of other districts are grey and short-dashed.";
    private readonly PlanFacts _drawn;
    private readonly DrawingOptions _options;
    private readonly PlanBox _bounds;
    private readonly HashSet<PieceId> _named;

    private DistrictPlan(PlanFacts drawn, DrawingOptions options, PlanBox bounds, HashSet<PieceId> named) => (_drawn, _options, _bounds, _named) = (drawn, options, bounds, named);

    /// <summary>Draws it into the room that is left on the page where it can be read there, else on a page of its own.</summary>
    public static void Write(BookFacts facts, District district, BookFlow flow, CancellationToken cancellation)
    {
        if (!facts.Wiring.Feeders.Any(feeder => feeder.District == district.Name)) return;
        HashSet<Gap> gaps = [.. facts.Wiring.Gaps.Where(gap => GapDistricts.Of(facts, gap).Contains(district.Name))];
        PlanFacts drawn = facts.Drawn.Only(district, gaps, takesTurns: false);
        (PieceId Piece, PlanPoint[] Line)[] lines = LinesOf(drawn);
        if (lines.Length == 0)
        {
            drawn = facts.Drawn.Only(district, facts.Wiring.Gaps.ToHashSet(), takesTurns: true);
            lines = LinesOf(drawn);
        }

        if (lines.Length == 0) return;
        DistrictPlan plan = new(drawn, facts.Drawing with { Findings = [] }, PlanBox.Around(lines.SelectMany(line => line.Line).Concat(drawn.Layout.Wiring.Feeders.Select(feeder => drawn.Geometry.PointAt(feeder.At).At))), [.. lines.Select(line => line.Piece)]);
        if (!plan.WriteHere(flow, cancellation)) plan.WriteOnPage(facts, district, flow, cancellation);
    }

    private static (PieceId Piece, PlanPoint[] Line)[] LinesOf(PlanFacts drawn) =>
        [.. drawn.Layout.Track.SelectMany(piece => BandPainter.Lines(drawn, piece), (piece, line) => (piece.Id, line.Line.ToArray()))];

    private bool WriteHere(BookFlow flow, CancellationToken cancellation)
    {
        SceneBox content = flow.Page.Content;
        double wanted = HeightFor(content.Width), room = flow.Room - HeadingRoom, height = Math.Max(Least, Math.Min(wanted, room));
        SceneBox trial = content with { Bottom = content.Top + height - WordsHeight };
        if (room < Math.Min(Math.Max(wanted, Least), Enough) || !Paint(new(), trial, _options, true, cancellation).ReadsFairly) return false;
        flow.Subheading("Where it lies");
        flow.Draw(height, (page, box) =>
        {
            SheetBuilder canvas = new();
            Paint(canvas, box with { Bottom = box.Bottom - WordsHeight }, _options, false, cancellation);
            page.Add(canvas.Shapes);
            page.Write(Words, box.Left, box.Bottom - 1, BookStyle.Small);
        });
        return true;
    }

    /// <summary>Names of track are left out where labels would cover each other or track even so.</summary>
    private void WriteOnPage(BookFacts facts, District district, BookFlow flow, CancellationToken cancellation)
    {
        BookPage page = new(Sheet.Of(facts.Options.Paper).For(_bounds), $"District {facts.District(district.Name)}, plan");
        SceneBox window = page.Content with { Top = page.Content.Top - 4, Bottom = page.Content.Bottom - WordsHeight };
        SheetBuilder canvas = new();
        if (Paint(canvas, window, _options, false, cancellation).Covering > 0)
        {
            canvas = new();
            Paint(canvas, window, _options with { Layers = _options.Layers & ~DrawingLayers.Names }, false, cancellation);
        }

        page.Add(canvas.Shapes);
        page.Write(Words, page.Content.Left, page.Content.Bottom - 1, BookStyle.Small);
        flow.AddDrawn(page, inContents: false);
    }

    private Crowding Paint(SheetBuilder canvas, SceneBox window, DrawingOptions options, bool isTrial, CancellationToken cancellation) =>
        new PlanPainter(_drawn, options) { Named = _named, IsTrial = isTrial }.Paint(canvas, SheetIn(window), PlanDetail.Full, cancellation);

    private PlanSheet SheetIn(SceneBox window) => new(_drawn.Geometry, LayoutDrawing.Around(_bounds, window, Margin), window, DrawingView.Above);

    /// <summary>The height that it fills at a width.</summary>
    private double HeightFor(double width) => (_bounds.Height * SheetIn(new(0, 0, width, 10 * width)).MillimetresPerMetre) + (2 * Margin) + WordsHeight;
}
