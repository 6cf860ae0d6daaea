using System.Globalization;
using System.Text;
using System.Xml;

namespace WireUp.Documents;

/// <summary>
/// A scene as SVG: one group a layer, ids as <c>data-of</c>, sizes in millimetres, text as text. Names are escaped wherever they
/// stand; nothing in the file can run or load anything.
/// </summary>
public static class SvgScene
{
    private const string Namespace = "http://www.w3.org/2000/svg";

    /// <summary>The picture as the text of an SVG file. The same scene gives the same text.</summary>
    public static string Write(Scene scene)
    {
        StringBuilder text = new();
        XmlWriterSettings settings = new() { Indent = true, IndentChars = " ", NewLineChars = "\n", OmitXmlDeclaration = true };
        using (XmlWriter xml = XmlWriter.Create(text, settings))
        {
            xml.WriteStartElement("svg", Namespace);
            xml.WriteAttributeString("width", $"{Number(scene.WidthMillimetres)}mm");
            xml.WriteAttributeString("height", $"{Number(scene.HeightMillimetres)}mm");
            xml.WriteAttributeString("viewBox", $"0 0 {Number(scene.WidthMillimetres)} {Number(scene.HeightMillimetres)}");
            xml.WriteAttributeString("font-family", $"'{SceneText.Family}', Verdana, sans-serif");
            xml.WriteElementString("title", Namespace, SceneText.Clean(scene.Title));
            WritePaper(xml, scene);
            foreach (IGrouping<int, Shape> run in Layers(scene)) WriteLayer(xml, run.First().Layer, run);
            xml.WriteEndElement();
        }

        return text.Append('\n').ToString();
    }

    /// <summary>Some shapes as one group, to put into the picture of a scene of the same size.</summary>
    /// <param name="layer">The name of the group.</param>
    /// <param name="shapes">Its shapes, in the order in which they are drawn.</param>
    public static string Group(string layer, IEnumerable<Shape> shapes)
    {
        StringBuilder text = new();
        XmlWriterSettings settings = new() { OmitXmlDeclaration = true };
        using (XmlWriter xml = XmlWriter.Create(text, settings)) WriteLayer(xml, layer, shapes);
        return text.ToString();
    }

    /// <summary>Runs of shapes of one layer, in order.</summary>
    private static IEnumerable<IGrouping<int, Shape>> Layers(Scene scene)
    {
        int run = 0;
        string? layer = null;
        return scene.Shapes.GroupBy(shape =>
        {
            if (shape.Layer != layer) (layer, run) = (shape.Layer, run + 1);
            return run;
        });
    }

    private static void WritePaper(XmlWriter xml, Scene scene)
    {
        xml.WriteStartElement("rect", Namespace);
        xml.WriteAttributeString("width", Number(scene.WidthMillimetres));
        xml.WriteAttributeString("height", Number(scene.HeightMillimetres));
        xml.WriteAttributeString("fill", SceneColours.Paper.ToString());
        xml.WriteEndElement();
    }

    private static void WriteLayer(XmlWriter xml, string layer, IEnumerable<Shape> shapes)
    {
        xml.WriteStartElement("g", Namespace);
        xml.WriteAttributeString("data-layer", SceneText.Clean(layer));
        foreach (Shape shape in shapes) Write(xml, shape);
        xml.WriteEndElement();
    }

    private static void Write(XmlWriter xml, Shape shape)
    {
        switch (shape)
        {
            case Shape.Line line:
                xml.WriteStartElement("path", Namespace);
                WriteId(xml, shape);
                xml.WriteAttributeString("d", PathData(line.Points, line.Closed));
                WriteStyle(xml, line.Style);
                break;
            case Shape.Strokes strokes:
                xml.WriteStartElement("path", Namespace);
                WriteId(xml, shape);
                xml.WriteAttributeString("d", string.Concat(strokes.Points.Chunk(2).Select(stroke => PathData(stroke, false))));
                WriteStyle(xml, strokes.Style);
                break;
            case Shape.Circle circle:
                xml.WriteStartElement("circle", Namespace);
                WriteId(xml, shape);
                xml.WriteAttributeString("cx", Number(circle.Centre.X));
                xml.WriteAttributeString("cy", Number(circle.Centre.Y));
                xml.WriteAttributeString("r", Number(circle.Radius));
                WriteStyle(xml, circle.Style);
                break;
            case Shape.Text words:
                xml.WriteStartElement("text", Namespace);
                WriteId(xml, shape);
                WriteText(xml, words);
                break;
            default:
                throw new ArgumentOutOfRangeException(nameof(shape), shape, "no way to draw it");
        }

        xml.WriteEndElement();
    }

    private static void WriteId(XmlWriter xml, Shape shape)
    {
        if (shape.Id.Length > 0) xml.WriteAttributeString("data-of", SceneText.Clean(shape.Id));
    }

    /// <summary>The length is written too, so that a viewer without the font keeps to the room the text was given.</summary>
    private static void WriteText(XmlWriter xml, Shape.Text text)
    {
        SceneBox box = text.Box;
        xml.WriteAttributeString("x", Number(box.Left));
        xml.WriteAttributeString("y", Number(text.At.Y));
        xml.WriteAttributeString("font-size", Number(text.Style.SizeMillimetres));
        if (text.Style.Bold) xml.WriteAttributeString("font-weight", "bold");
        xml.WriteAttributeString("fill", text.Style.Colour.ToString());
        xml.WriteAttributeString("textLength", Number(box.Width));
        xml.WriteAttributeString("lengthAdjust", "spacingAndGlyphs");
        xml.WriteString(SceneText.Clean(text.Content));
    }

    private static void WriteStyle(XmlWriter xml, ShapeStyle style)
    {
        xml.WriteAttributeString("fill", style.Fill?.ToString() ?? "none");
        if (style.Stroke is not { } stroke) return;
        xml.WriteAttributeString("stroke", stroke.ToString());
        xml.WriteAttributeString("stroke-width", Number(style.WidthMillimetres));
        xml.WriteAttributeString("stroke-linejoin", "round");
        if (DashPattern.RoundEnds(style)) xml.WriteAttributeString("stroke-linecap", "round");
        string dashes = string.Join(' ', DashPattern.Of(style).Select(Number));
        if (dashes.Length > 0) xml.WriteAttributeString("stroke-dasharray", dashes);
    }

    private static string PathData(IEnumerable<ScenePoint> points, bool closed)
    {
        StringBuilder data = new();
        char command = 'M';
        foreach (ScenePoint point in points)
        {
            data.Append(command).Append(Number(point.X)).Append(' ').Append(Number(point.Y));
            command = 'L';
        }

        return closed ? data.Append('Z').ToString() : data.ToString();
    }

    /// <summary>To a hundredth of a millimetre; never "-0".</summary>
    private static string Number(double value) => (Math.Round(value, 2) + 0.0).ToString("0.##", CultureInfo.InvariantCulture);
}
