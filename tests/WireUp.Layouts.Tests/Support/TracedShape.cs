namespace WireUp.Layouts.Tests.Support;

/// <summary>A traced layout as what is joined to what, without names of pieces: turnouts and crossings by where they are.</summary>
internal static class TracedShape
{
    /// <summary>Every section as the two things at its ends, sorted.</summary>
    /// <param name="layout">The layout.</param>
    /// <param name="known">The points at which things may be; what is up to a centimetre off is taken as there.</param>
    public static IReadOnlyList<string> Of(Layout layout, IReadOnlyCollection<PlanPoint> known)
    {
        LayoutIndex index = new(layout);
        List<string> runs = [];
        foreach (Piece.Section section in layout.Track.OfType<Piece.Section>())
        {
            string[] ends = [.. section.Ends.Select(end => At(index, section, end, Near)).Order(StringComparer.Ordinal)];
            runs.Add(string.Join(" - ", ends));
        }

        return [.. runs.Order(StringComparer.Ordinal)];

        string Near(PlanPoint at) => known.MinBy(point => Polyline.Distance(point, at)) is var nearest && Polyline.Distance(nearest, at) < 0.01 ? Place(nearest) : $"nowhere {Place(at)}";
    }

    /// <summary>The point of a section's end.</summary>
    public static PlanPoint Point(Piece.Section section, string end) => end == "a" ? section.Path[0] : section.Path[^1];

    /// <summary>A point in full.</summary>
    public static string Place(PlanPoint at) => $"{at.X:R},{at.Y:R}";

    private static string At(LayoutIndex index, Piece.Section section, TrackEnd end, Func<PlanPoint, string> place)
    {
        if (index.Opposite(end) is not { } other)
        {
            return $"open {place(Point(section, end.Name))}";
        }

        return index.Piece(other.Piece) switch
        {
            Piece.Turnout turnout => $"{turnout.Hand} {turnout.Number} {place(PointsOf(index, turnout))} {other.Name}",
            Piece.Crossing crossing => $"crossing {Math.Round(crossing.Angle.Degrees)} {place(MiddleOf(index, crossing))}",
            { } piece => piece.GetType().Name,
        };
    }

    private static PlanPoint PointsOf(LayoutIndex index, Piece.Turnout turnout)
    {
        TrackEnd stem = index.Opposite(turnout.End("points"))!.Value;
        return Point((Piece.Section)index.Piece(stem.Piece), stem.Name);
    }

    /// <summary>The middle of a crossing, whose four arms are equally long.</summary>
    private static PlanPoint MiddleOf(LayoutIndex index, Piece.Crossing crossing)
    {
        PlanPoint[] ends = [.. crossing.Ends.Select(end => index.Opposite(end)!.Value).Select(end => Point((Piece.Section)index.Piece(end.Piece), end.Name))];
        return new(ends.Average(point => point.X), ends.Average(point => point.Y));
    }
}
