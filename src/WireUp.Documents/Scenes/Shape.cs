using System.Collections.Immutable;

namespace WireUp.Documents;

/// <summary>One thing drawn on a sheet. The cases are nested and the list of them is closed.</summary>
public abstract record Shape
{
    private Shape(string layer) => Layer = layer;

    /// <summary>The layer it belongs to, for instance <c>rails</c>; later layers are drawn over earlier ones by order of shapes.</summary>
    public string Layer { get; init; }

    /// <summary>
    /// What it shows, in the words of the layout file (<c>loop/left</c>, <c>f3</c>), or empty. Several shapes may show one thing.
    /// </summary>
    public string Id { get; init; } = string.Empty;

    /// <summary>A line of straight pieces, or an area when closed.</summary>
    /// <param name="LayerName">The layer.</param>
    /// <param name="Points">At least two points.</param>
    /// <param name="Closed">Whether the last point is joined to the first.</param>
    /// <param name="Style">How it looks.</param>
    public sealed record Line(string LayerName, ImmutableArray<ScenePoint> Points, bool Closed, ShapeStyle Style) : Shape(LayerName);

    /// <summary>Many short straight strokes of one look, such as a hatch.</summary>
    /// <param name="LayerName">The layer.</param>
    /// <param name="Points">The two ends of the first stroke, of the second, and so on.</param>
    /// <param name="Style">How they look.</param>
    public sealed record Strokes(string LayerName, ImmutableArray<ScenePoint> Points, ShapeStyle Style) : Shape(LayerName);

    /// <summary>A circle.</summary>
    /// <param name="LayerName">The layer.</param>
    /// <param name="Centre">Its centre.</param>
    /// <param name="Radius">Its radius in millimetres.</param>
    /// <param name="Style">How it looks.</param>
    public sealed record Circle(string LayerName, ScenePoint Centre, double Radius, ShapeStyle Style) : Shape(LayerName);

    /// <summary>One line of upright text.</summary>
    /// <param name="LayerName">The layer.</param>
    /// <param name="At">On the baseline, at the side that <paramref name="Style"/> aligns.</param>
    /// <param name="Content">The words; control characters are shown as a replacement mark, see <see cref="SceneText.Clean"/>.</param>
    /// <param name="Style">How it looks.</param>
    public sealed record Text(string LayerName, ScenePoint At, string Content, TextStyle Style) : Shape(LayerName)
    {
        /// <summary>The box that the text fills, from the font's ascent to its descent.</summary>
        public SceneBox Box => SceneText.Box(this);
    }
}

/// <summary>How a line or an area looks.</summary>
public sealed record ShapeStyle
{
    /// <summary>Colour of the outline, or null for none.</summary>
    public SceneColour? Stroke { get; init; }

    /// <summary>Width of the outline in millimetres.</summary>
    public double WidthMillimetres { get; init; } = 0.25;

    /// <summary>How the outline is broken.</summary>
    public DashKind Dash { get; init; } = DashKind.Solid;

    /// <summary>Whether the line ends in half circles instead of being cut straight.</summary>
    public bool RoundEnds { get; init; }

    /// <summary>Colour of the inside, or null for none.</summary>
    public SceneColour? Fill { get; init; }

    /// <summary>An outline.</summary>
    public static ShapeStyle Outline(SceneColour colour, double widthMillimetres, DashKind dash = DashKind.Solid) =>
        new() { Stroke = colour, WidthMillimetres = widthMillimetres, Dash = dash };

    /// <summary>An area without outline.</summary>
    public static ShapeStyle Area(SceneColour colour) => new() { Fill = colour };
}

/// <summary>How a line is broken.</summary>
public enum DashKind
{
    /// <summary>Not at all.</summary>
    Solid,

    /// <summary>Long dashes with short gaps: rail B.</summary>
    Long,

    /// <summary>Round dots: a bus.</summary>
    Dotted,

    /// <summary>Short dashes: what is not there but meant.</summary>
    Short,
}

/// <summary>How text looks.</summary>
/// <param name="SizeMillimetres">Size of the font in millimetres; 1 point is 0.353 mm.</param>
/// <param name="Colour">Colour.</param>
public sealed record TextStyle(double SizeMillimetres, SceneColour Colour)
{
    /// <summary>Bold.</summary>
    public bool Bold { get; init; }

    /// <summary>Which part of the text stands at its place.</summary>
    public TextAlign Align { get; init; } = TextAlign.Left;
}

/// <summary>Which part of a line of text stands at its place.</summary>
public enum TextAlign
{
    /// <summary>Its left end.</summary>
    Left,

    /// <summary>Its middle.</summary>
    Middle,

    /// <summary>Its right end.</summary>
    Right,
}
