namespace WireUp.Documents.Geometry.Automatic;

/// <summary>Lays the parts of a layout that no track joins side by side on one sheet.</summary>
internal static class SidePacking
{
    /// <summary>Width of a sheet over its height, with room for a title.</summary>
    public const double Aspect = 1.45;

    private const double Apart = 3;

    /// <summary>All parts, each turned to be wider than high, in rows.</summary>
    public static PartLines Of(IEnumerable<PartLines> parts)
    {
        PartLines[] turned = [.. parts.Where(part => !part.Lines.IsEmpty).Select(Upright)];
        double area = turned.Select(Box).Sum(box => (box.Width + Apart) * (box.Height + Apart));
        double width = Math.Max(Math.Sqrt(area * Aspect), turned.Select(part => Box(part).Width).DefaultIfEmpty(0).Max());
        var placed = new List<PartLines>();
        double x = 0, top = 0, rowHeight = 0;
        foreach (PartLines part in turned)
        {
            PlanBox box = Box(part);
            if (x > 0 && x + box.Width > width) (x, top, rowHeight) = (0, top - rowHeight - Apart, 0);
            (double dx, double dy) = (x - box.MinX, top - box.MaxY);
            placed.Add(part.Moved(point => new(point.X + dx, point.Y + dy)));
            (x, rowHeight) = (x + box.Width + Apart, Math.Max(rowHeight, box.Height));
        }

        return new([.. placed.SelectMany(part => part.Lines)], [.. placed.SelectMany(part => part.Bridges)]);
    }

    private static PlanBox Box(PartLines part) => PlanBox.Around(part.Lines.SelectMany(line => line.Points));

    // Turned by quarters: wider than high, and the piece named first in the file to the left of the one named last.
    private static PartLines Upright(PartLines part)
    {
        PlanBox box = Box(part);
        PartLines wide = box.Height > box.Width ? part.Moved(point => new(point.Y, -point.X)) : part;
        return wide.Lines[0].At(0.5).At.X > wide.Lines[^1].At(0.5).At.X ? wide.Moved(point => new(-point.X, -point.Y)) : wide;
    }
}
