using System.Collections.Immutable;

namespace WireUp.Web.Drafting;

/// <summary>What a touch of the drawing board does.</summary>
/// <param name="Word">Its word for the script of the page.</param>
/// <param name="Title">What its button says.</param>
/// <param name="Hint">How it is used, one or two sentences.</param>
public sealed record BoardTool(string Word, string Title, string Hint)
{
    internal static readonly BoardTool Choose = new("choose", "Choose", "Touch a piece to change it. A chosen section shows its corners: drag them.");

    internal static readonly BoardTool Curve = new("curve", "Lay curved track", "Touch points along the middle of a track; the line bends smoothly through them, and out of track it begins at. "
        + "Enter, a double click or Finish ends it. Escape discards it, Backspace undoes the last point. With the keyboard, arrows move the plan and the space bar puts a point into its middle.");

    internal static readonly BoardTool Straight = new("straight", "Lay straight track", "Touch the corners of a track; the line is straight from each to the next. Enter, a double click or Finish ends it; Escape discards it.");

    internal static readonly BoardTool Measure = new("measure", "Set the scale", "Touch two points of the picture whose distance you know, then say how far apart they are.");

    internal static readonly BoardTool Picture = new("picture", "Move the picture", "Drag the picture to where it belongs; the track stays. Where its corner lies can also be typed, under \"Picture under the plan\".");

    /// <summary>The tools for a plan with or without a picture under it.</summary>
    internal static ImmutableArray<BoardTool> For(bool hasPicture) => hasPicture ? [Choose, Curve, Straight, Measure, Picture] : [Choose, Curve, Straight, Measure];

    /// <summary>Whether it lays track.</summary>
    internal bool LaysTrack => this == Curve || this == Straight;
}
