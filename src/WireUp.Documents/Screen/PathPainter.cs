using System.Collections.Immutable;
using System.Globalization;
using WireUp.Documents.Geometry;
using WireUp.Layouts;

namespace WireUp.Documents.Drawings;

/// <summary>Draws the path that closes a short: along the rails it runs in, with a ring where a feeder's wire meets them.</summary>
internal sealed class PathPainter(PlanFacts facts, PlanSheet sheet)
{
    private const string Layer = "path";
    private static readonly ShapeStyle Lit = ShapeStyle.Outline(SceneColours.Purple, 1.5) with { RoundEnds = true };

    /// <summary>Draws a path; points that are not on the plan, such as frogs, are passed over.</summary>
    public ImmutableArray<Shape> Paint(ImmutableArray<string> path)
    {
        ImmutableArray<Shape>.Builder shapes = ImmutableArray.CreateBuilder<Shape>();
        Spot? before = null;
        foreach (string words in path)
        {
            if (Locate(words) is not { } spot) continue;
            if (spot.IsWire) shapes.Add(new Shape.Circle(Layer, sheet.Point(spot.At), 1.9, Lit with { WidthMillimetres = 0.7 }) { Id = words });
            else if (before is { IsWire: false } last) shapes.Add(new Shape.Line(Layer, Between(last, spot), false, Lit) { Id = words });
            before = spot;
        }

        return shapes.ToImmutable();
    }

    /// <summary>A point of a rail.</summary>
    /// <param name="Piece">The piece.</param>
    /// <param name="End">The end it is at; empty within a section.</param>
    /// <param name="Share">How far along the section it is, from end a; 0 for other pieces.</param>
    /// <param name="MetresLeft">How far to the left of the centre line, seen along a section or out of an end.</param>
    /// <param name="At">Where.</param>
    /// <param name="IsWire">Whether it is the wire of a feeder.</param>
    private readonly record struct Spot(PieceId Piece, string End, double Share, double MetresLeft, PlanPoint At, bool IsWire);

    private Spot? Locate(string words)
    {
        string[] parts = words.Split('/');
        if (facts.Places.Find(words) is not { } pose || parts.Length < 2) return null;
        double left = parts[1].TrimEnd('+', '-') switch { "left" or "running" => sheet.HalfGaugeMetres, "right" => -sheet.HalfGaugeMetres, _ => 0 };
        if (facts.Layout.Wiring.Feeders.FirstOrDefault(feeder => feeder.Name == parts[0]) is { } feeder)
        {
            return new(feeder.At.Section, "", 0, 0, pose.At, true);
        }

        int at = parts[0].LastIndexOf('@'), dot = parts[0].LastIndexOf('.');
        if (at >= 0) return OnSection(parts[0][..at], parts[0][(at + 1)..], pose, left);
        return dot >= 0 ? new(new(parts[0][..dot]), parts[0][(dot + 1)..], 0, left, pose.Beside(left), false) : null;
    }

    private Spot? OnSection(string piece, string place, PlanPose pose, double left)
    {
        bool isRead = double.TryParse(place.TrimEnd('m', ' '), NumberStyles.Float, CultureInfo.InvariantCulture, out double metres);
        return isRead && facts.Index.FindPiece(new(piece))?.PlacesMetres is > 0 and { } length
            ? new(new(piece), "", metres / length, left, pose.Beside(left), false)
            : null;
    }

    private ImmutableArray<ScenePoint> Between(Spot one, Spot other)
    {
        ImmutableArray<ScenePoint> straight = [sheet.Point(one.At), sheet.Point(other.At)];
        if (one.Piece != other.Piece) return straight;
        foreach (PieceLine line in facts.Geometry.LinesOf(one.Piece))
        {
            if (Along(line, one) is not var (from, fromLeft) || Along(line, other) is not var (to, toLeft)) continue;
            if (Math.Abs(fromLeft - toLeft) > 1e-9 || Math.Abs(from - to) < 1e-9) return straight;
            return sheet.Line(OffsetLine.Of(line.Part(Math.Min(from, to), Math.Max(from, to)), fromLeft));
        }

        return straight;
    }

    /// <summary>A spot seen along a line: how far along, and how far to the left; null where it is not on it.</summary>
    private static (double Share, double MetresLeft)? Along(PieceLine line, Spot spot) =>
        spot.End.Length == 0 ? (spot.Share, spot.MetresLeft)
        : spot.End == line.To ? (1, spot.MetresLeft)
        : spot.End == line.From ? (0, -spot.MetresLeft)
        : null;
}
