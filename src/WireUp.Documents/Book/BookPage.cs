using System.Collections.Immutable;

namespace WireUp.Documents.Book;

/// <summary>One page while it is being written.</summary>
internal sealed class BookPage(Sheet sheet, string section)
{
    private readonly ImmutableArray<Shape>.Builder _shapes = ImmutableArray.CreateBuilder<Shape>();

    /// <summary>Its paper.</summary>
    public Sheet Sheet => sheet;

    /// <summary>The section it belongs to, for the running head.</summary>
    public string Section => section;

    /// <summary>Whether it has a running head and a page number.</summary>
    public bool HasHead { get; init; } = true;

    /// <summary>The part of the paper that is written on.</summary>
    public SceneBox Content => new(
        BookStyle.Side, BookStyle.Top, sheet.Width - BookStyle.Side, sheet.Height - BookStyle.Bottom);

    /// <summary>What has been drawn.</summary>
    public ImmutableArray<Shape> Shapes => _shapes.ToImmutable();

    /// <summary>Adds shapes.</summary>
    public void Add(params IEnumerable<Shape> shapes) => _shapes.AddRange(shapes);

    /// <summary>Writes one line of text.</summary>
    public void Write(string text, double x, double baseline, TextStyle style) =>
        _shapes.Add(new Shape.Text("text", new(x, baseline), text, style));

    /// <summary>Draws a level line.</summary>
    public void Rule(double left, double right, double y, ShapeStyle style) =>
        _shapes.Add(new Shape.Line("rules", [new(left, y), new(right, y)], false, style));

    /// <summary>Draws a rectangle.</summary>
    public void Box(SceneBox box, ShapeStyle style) => _shapes.Add(new Shape.Line(
        "rules", [new(box.Left, box.Top), new(box.Right, box.Top), new(box.Right, box.Bottom), new(box.Left, box.Bottom)], true, style));
}
