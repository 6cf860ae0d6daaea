using System.Collections.Immutable;
using WireUp.Layouts;

namespace WireUp.Documents.Drawings;

/// <summary>How a label looks.</summary>
/// <param name="Layer">Its layer.</param>
/// <param name="Size">Size of its font in millimetres.</param>
/// <param name="Colour">Colour of its words.</param>
internal sealed record LabelLook(string Layer, double Size, SceneColour Colour)
{
    /// <summary>Bold words.</summary>
    public bool Bold { get; init; }

    /// <summary>Whether a frame goes round it.</summary>
    public bool Framed { get; init; }

    /// <summary>Whether the frame is filled with ink and the words are white.</summary>
    public bool Reversed { get; init; }

    /// <summary>Whether it is left out where there is no room for it right beside what it names.</summary>
    public bool Optional { get; init; }
}

/// <summary>Places labels and writes them.</summary>
internal sealed class LabelWriter(PlanSheet sheet, SheetBuilder canvas, LabelPlacer placer)
{
    /// <summary>Writes a label at the best place; null when none of its anchors lies in the window.</summary>
    public LabelPlace? Write(string text, string id, LabelLook look, ImmutableArray<LabelAnchor> anchors)
    {
        double pad = look.Framed ? 0.45 : 0;
        double width = SceneText.Width(text, look.Size, look.Bold) + (2 * pad);
        double height = (look.Size * (SceneText.Ascent + SceneText.Descent)) + pad;
        LabelWish wish = look.Optional ? new(width, height, anchors) { IsOptional = true, Reach = 1.5 } : new(width, height, anchors);
        if (placer.Place(wish) is not { } place) return null;
        LeaderLine.Add(canvas, look.Layer, id, place);
        if (look.Framed) AddFrame(place.Box, look, id);
        ScenePoint at = new(place.Box.Left + pad, place.Box.Top + (pad / 2) + (SceneText.Ascent * look.Size));
        SceneColour colour = look.Reversed ? SceneColours.Paper : look.Colour;
        canvas.Add(new Shape.Text(look.Layer, at, text, new(look.Size, colour) { Bold = look.Bold }) { Id = id });
        return place;
    }

    /// <summary>Keeps labels off a line.</summary>
    public void KeepOff(ImmutableArray<ScenePoint> line, double half) => placer.KeepOff(line, half);

    /// <summary>Anchors to both sides of a place of the track, a distance from its centre line.</summary>
    public IEnumerable<LabelAnchor> BothSides(PlanPose pose, double millimetres) => [Side(pose, millimetres), Side(pose, -millimetres)];

    /// <summary>An anchor on one side of a place of the track; positive is to the left of its direction.</summary>
    public LabelAnchor Side(PlanPose pose, double millimetresLeft)
    {
        (double x, double y) = sheet.LeftOf(pose);
        int sign = Math.Sign(millimetresLeft);
        return new(sheet.Beside(pose, millimetresLeft), sign * x, sign * y);
    }

    private void AddFrame(SceneBox box, LabelLook look, string id) => canvas.Add(new Shape.Line(
        look.Layer,
        [new(box.Left, box.Top), new(box.Right, box.Top), new(box.Right, box.Bottom), new(box.Left, box.Bottom)],
        true,
        new() { Fill = look.Reversed ? look.Colour : SceneColours.Paper, Stroke = look.Colour, WidthMillimetres = 0.15 })
    {
        Id = id,
    });
}
