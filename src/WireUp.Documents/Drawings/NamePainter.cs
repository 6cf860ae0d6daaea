using System.Collections.Immutable;
using System.Globalization;
using WireUp.Checking;
using WireUp.Documents.Geometry;
using WireUp.Layouts;

namespace WireUp.Documents.Drawings;

/// <summary>Writes the letters of districts, the numbers of findings and the names of pieces.</summary>
internal sealed class NamePainter(PlanFacts facts, PlanSheet sheet, LabelWriter writer)
{
    private static readonly LabelLook Turnout = new("names", 2.2, SceneColours.Ink) { Bold = true };
    private static readonly LabelLook Section = new("names", 1.7, SceneColours.Quiet);
    private static readonly LabelLook End = new("names", 1.4, SceneColours.Quiet) { Optional = true };
    private static readonly LabelLook District = new("districts", 3, SceneColours.Ink) { Bold = true, Framed = true };
    private static readonly LabelLook Finding = new("findings", 2.1, SceneColours.Ink) { Bold = true, Framed = true, Reversed = true };
    private static readonly LabelLook Mark = new("marks", 3.2, SceneColours.Ink) { Bold = true, Framed = true, Reversed = true };
    private static readonly double[] Shares = [0.5, 0.3, 0.7, 0.1, 0.9];

    /// <summary>How near the edge of the window no piece is named and no district gets its letter, in millimetres.</summary>
    public double Margin { get; init; }

    /// <summary>The pieces that must be named; others only where there is room. Null for all.</summary>
    public IReadOnlySet<PieceId>? Named { get; init; }

    /// <summary>The letters of districts beside their bands.</summary>
    public void Districts(BandPainter bands)
    {
        foreach ((string district, PlanPose pose) in bands.LetterPlaces())
        {
            writer.Write(facts.Letters.Of(district), district, District, [.. writer.BothSides(pose, bands.HalfWidth + 0.3).Where(IsWithin)]);
        }
    }

    /// <summary>The numbers of findings at the first place of each that lies on the plan.</summary>
    public void Findings(ImmutableArray<Finding> findings)
    {
        foreach ((int index, Finding finding) in findings.Index())
        {
            if (finding.Places.Concat(finding.Path).Select(facts.Places.Find).OfType<PlanPose?>().FirstOrDefault() is not { } pose) continue;
            string number = (index + 1).ToString(CultureInfo.InvariantCulture);
            writer.Write(number, finding.Code, Finding, [.. writer.BothSides(pose, sheet.HalfGauge + 0.6)]);
        }
    }

    /// <summary>Letters at the places they mark; letters of one place together.</summary>
    public void Marks(ImmutableArray<PlanMark> marks)
    {
        foreach (IGrouping<string, PlanMark> place in marks.GroupBy(mark => mark.Place))
        {
            if (facts.Places.Find(place.Key) is not { } pose) continue;
            string letters = string.Join(' ', place.Select(mark => mark.Letter));
            writer.Write(letters, $"mark-{letters}", Mark, [.. writer.BothSides(pose, sheet.HalfGauge + 0.6)]);
        }
    }

    /// <summary>The names of trackwork, then those of sections.</summary>
    public void Pieces()
    {
        foreach (bool isNamed in (bool[])[true, false])
        {
            Piece[] pieces = [.. facts.Layout.Track.Where(piece => piece is not Piece.Stop && (Named is null || Named.Contains(piece.Id)) == isNamed)];
            foreach (Piece piece in pieces.Where(piece => piece is not Piece.Section)) Write(piece, Turnout with { Optional = !isNamed }, [0.45, 0.6]);
            foreach (Piece piece in pieces.Where(piece => piece is Piece.Section)) Write(piece, Section with { Optional = !isNamed }, Shares);
        }
    }

    /// <summary>The names of trackwork only.</summary>
    public void Turnouts()
    {
        foreach (Piece piece in facts.Layout.Track.Where(piece => piece is not (Piece.Section or Piece.Stop))) Write(piece, Turnout, [0.45, 0.6]);
    }

    /// <summary>The names of the ends of trackwork whose tables of contacts speak of them, where there is room.</summary>
    public void Ends()
    {
        foreach (Piece piece in facts.Layout.Track.Where(piece => piece is not (Piece.Section or Piece.Stop or Piece.Turnout)))
        {
            foreach (TrackEnd end in piece.Ends.Where(end => facts.Index.JointAt(end) is not null))
            {
                if (facts.Places.OfEnd(end) is { } pose) writer.Write(end.Name, end.ToString(), End, [.. Beside(piece, pose)]);
            }
        }
    }

    // Within the pit of a bridge, beside the track of other trackwork.
    private IEnumerable<LabelAnchor> Beside(Piece piece, PlanPose pose)
    {
        if (piece.PlacesMetres is null) return writer.BothSides(pose with { At = pose.Ahead(-1 / sheet.MillimetresPerMetre) }, sheet.HalfGauge + 0.3);
        ScenePoint edge = sheet.Point(pose.At), inner = sheet.Point(pose.Ahead(-1 / sheet.MillimetresPerMetre));
        double distance = edge.DistanceTo(inner);
        return [new(edge, (inner.X - edge.X) / distance, (inner.Y - edge.Y) / distance)];
    }

    private void Write(Piece piece, LabelLook look, double[] shares)
    {
        ImmutableArray<PieceLine> lines = facts.Geometry.LinesOf(piece.Id);
        double reach = sheet.HalfGauge + 0.8;
        writer.Write(
            piece.Id.Name,
            piece.Id.Name,
            look,
            [.. shares.SelectMany(share => lines.SelectMany(line => writer.BothSides(line.At(share), reach))).Where(IsWithin)]);
    }

    private bool IsWithin(LabelAnchor anchor) => sheet.Window.Grow(-Margin).Holds(anchor.At);
}
