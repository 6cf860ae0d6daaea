namespace WireUp.Documents.Drawings;

/// <summary>The fine line from a label to what it names.</summary>
internal static class LeaderLine
{
    /// <summary>Nearer than this, in millimetres, a label needs none.</summary>
    public const double Shortest = 1.6;

    /// <summary>Adds the line where a placed label needs one.</summary>
    public static void Add(SheetBuilder canvas, string layer, string id, LabelPlace place)
    {
        if (place.Distance <= Shortest) return;
        canvas.Add(new Shape.Line(layer, [place.Anchor.At, place.Tip], false, ShapeStyle.Outline(SceneColours.Quiet, 0.12)) { Id = id });
    }
}
