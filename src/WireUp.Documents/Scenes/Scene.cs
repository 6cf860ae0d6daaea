using System.Collections.Immutable;

namespace WireUp.Documents;

/// <summary>
/// One sheet: shapes in the order in which they are drawn. Every drawing and every page of the wiring book is a scene before it
/// becomes SVG, PNG or PDF, so that one place decides how a thing looks.
/// </summary>
/// <param name="WidthMillimetres">Width of the sheet.</param>
/// <param name="HeightMillimetres">Height of the sheet.</param>
/// <param name="Shapes">The shapes; later ones cover earlier ones.</param>
public sealed record Scene(double WidthMillimetres, double HeightMillimetres, ImmutableArray<Shape> Shapes)
{
    /// <summary>What the sheet shows, for the title of a file; never drawn.</summary>
    public string Title { get; init; } = string.Empty;

    /// <summary>Every line of text on the sheet.</summary>
    public IEnumerable<Shape.Text> Texts => Shapes.OfType<Shape.Text>();

    /// <summary>The whole sheet as a box.</summary>
    public SceneBox Bounds => new(0, 0, WidthMillimetres, HeightMillimetres);
}
