using System.Collections.Immutable;
using WireUp.Documents.Geometry;
using WireUp.Layouts;
using WireUp.Layouts.Plans;
using WireUp.Web.Hosting;

namespace WireUp.Web.Drafting;

/// <summary>What the drawing board shows, in millimetres of the plan, y upward. The names are those that the script of the page reads.</summary>
/// <param name="Lines">The centre line of every way through every piece that lies on the plan.</param>
/// <param name="Ends">The ends of sections, where a line that is drawn can begin or end.</param>
/// <param name="Picture">The picture underneath, or null.</param>
/// <param name="Chosen">The piece that is chosen, or null.</param>
public sealed record BoardPlan(ImmutableArray<BoardLine> Lines, ImmutableArray<BoardEnd> Ends, BoardPicture? Picture, string? Chosen)
{
    private const double MillimetresPerMetre = 1000;

    /// <summary>The board of a layout. Trackwork lies between sections, so it is shown once all of these have a path.</summary>
    internal static BoardPlan Of(Layout layout, PictureLook? picture, double opacity, PieceId? chosen) => new(
        [.. LinesOf(layout)],
        [.. EndsOf(layout)],
        layout.Picture is { } there && picture?.FileName == there.File ? PictureOf(there, picture, opacity) : null,
        chosen?.Name);

    /// <summary>Points in metres as the script reads them.</summary>
    internal static ImmutableArray<double[]> Points(IEnumerable<PlanPoint> points) => [.. points.Select(at => new[] { Millimetres(at.X), Millimetres(at.Y) })];

    private static IEnumerable<BoardLine> LinesOf(Layout layout)
    {
        HashSet<PieceId> sections = [.. layout.Track.OfType<Piece.Section>().Select(section => section.Id)];
        return TrackPaths.Cover(layout)
            ? PlanGeometry.Of(layout).Lines.Select(line => new BoardLine(line.Piece.Name, sections.Contains(line.Piece) ? "section" : "trackwork", Points(line.Points)))
            : Drawn(layout).Select(section => new BoardLine(section.Id.Name, "section", Points(TrackPaths.Of(section))));
    }

    private static IEnumerable<Piece.Section> Drawn(Layout layout) => layout.Track.OfType<Piece.Section>().Where(section => section.Path.Distinct().Count() > 1);

    private static IEnumerable<BoardEnd> EndsOf(Layout layout)
    {
        LayoutIndex index = new(layout);
        foreach (Piece.Section section in Drawn(layout))
        {
            ImmutableArray<PlanPoint> path = TrackPaths.Of(section);
            yield return End(Polyline.At(path, 0).Reversed, index.Opposite(section.End("a")) is null);
            yield return End(Polyline.At(path, Polyline.Length(path)), index.Opposite(section.End("b")) is null);
        }
    }

    private static BoardEnd End(PlanPose pose, bool isOpen) => new(Millimetres(pose.At.X), Millimetres(pose.At.Y), pose.DirectionX, pose.DirectionY, isOpen);

    private static BoardPicture PictureOf(PlanPicture picture, PictureLook look, double opacity)
    {
        double width = Millimetres(picture.Width.Meters);
        return new(Addresses.Picture(look.FileName, look.Version), Millimetres(picture.At.X), Millimetres(picture.At.Y), width, width * look.Head.Ratio, picture.Turn.Degrees, opacity);
    }

    private static double Millimetres(double metres) => Math.Round(metres * MillimetresPerMetre, 3);
}

/// <summary>A line of the board.</summary>
/// <param name="Piece">The piece it belongs to.</param>
/// <param name="Kind"><c>section</c> or <c>trackwork</c>.</param>
/// <param name="Points">Its points, x and y.</param>
public sealed record BoardLine(string Piece, string Kind, ImmutableArray<double[]> Points);

/// <summary>An end of a section.</summary>
/// <param name="X">Its place, to the right.</param>
/// <param name="Y">Its place, upward.</param>
/// <param name="Dx">Horizontal part of the unit vector out of the section.</param>
/// <param name="Dy">Vertical part of it.</param>
/// <param name="Open">Whether nothing is joined to it.</param>
public sealed record BoardEnd(double X, double Y, double Dx, double Dy, bool Open);

/// <summary>The picture under the board.</summary>
/// <param name="Address">Where the browser finds it.</param>
/// <param name="X">Its lower left corner, to the right.</param>
/// <param name="Y">Its lower left corner, upward.</param>
/// <param name="Width">Its width.</param>
/// <param name="Height">Its height.</param>
/// <param name="Turn">How far it is turned counter-clockwise about that corner, in degrees.</param>
/// <param name="Opacity">How strong it is shown, from 0 to 1.</param>
public sealed record BoardPicture(string Address, double X, double Y, double Width, double Height, double Turn, double Opacity);
