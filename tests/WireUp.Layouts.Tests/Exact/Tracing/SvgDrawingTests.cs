using System.Collections.Immutable;
using System.Globalization;
using System.Text;
using UnitsNet;
using WireUp.Layouts.Tracing;
using WireUp.Layouts.Tracing.Svg;

namespace WireUp.Layouts.Tests.Exact.Tracing;

/// <summary>SVG drawings and the lines that come out of them, in units of the drawing, y upward from the bottom of a page of 100 by 100.</summary>
public sealed class SvgDrawingTests
{
    [Theory]
    [InlineData("M10 90 L20 90 30 80", "10,10 20,10 30,20")]
    [InlineData("m10 90 l10 0 10-10", "10,10 20,10 30,20")]
    [InlineData("M10,90H20h10V80v-10", "10,10 20,10 30,10 30,20 30,30")]
    [InlineData("M0 100 10 100ZL0 90", "0,0 10,0 0,0|0,0 0,10")]
    [InlineData("M0 100L10 100M20 100L30 100", "0,0 10,0|20,0 30,0")]
    [InlineData("m0 100 10 0m10 0 10 0", "0,0 10,0|20,0 30,0")]
    [InlineData("M1.5.5-1-2", "1.5,99.5 -1,102")]
    [InlineData("M1e1 9E1L+2e+1 900e-1", "10,10 20,10")]
    [InlineData("M0 100 C 10 100 20 100 30 100", "0,0 30,0")]
    [InlineData("M0 100 c 10 0 20 0 30 0 s 20 0 30 0", "0,0 30,0 60,0")]
    [InlineData("M0 100 q 15 0 30 0 t 30 0", "0,0 30,0 60,0")]
    [InlineData("M0 100 A 0 5 0 0 1 10 100", "0,0 10,0")]
    public void Each_command_of_a_path_draws_its_line(string data, string lines) => Assert.Equal(lines, Lines($"<path d=\"{data}\"/>"));

    /// <summary>A half circle of radius 10 about (20, 0): every point is 10 off the middle, and no chord cuts off more than the tolerance.</summary>
    [Theory]
    [InlineData("M10 100 A 10 10 0 0 1 30 100", 1)]
    [InlineData("M10 100 a 10 10 0 0 0 20 0", -1)]
    [InlineData("M10 100 a10 10 0 1120 0", 1)]
    [InlineData("M10 100 A 5 5 30 0 1 30 100", 1)]
    public void An_arc_keeps_its_radius(string data, int side)
    {
        ImmutableArray<PlanPoint> line = Assert.Single(Read($"<path d=\"{data}\"/>").Lines);
        PlanPoint middle = new(20, 0);
        Assert.All(line, point => Assert.Equal(10, Polyline.Distance(point, middle), 1e-9));
        Assert.Equal(10 * side, line.Select(point => point.Y).MaxBy(Math.Abs), 0.06);
        Assert.All(line.Zip(line.Skip(1)), chord => Assert.InRange(Polyline.Distance(Polyline.Between(chord.First, chord.Second, 0.5), middle), 9.95, 10));
        Assert.Equal(new PlanPoint(30, 0), line[^1]);
    }

    /// <summary>x = 3 t² (1 − t) 60 + 60 t³, y = 30 · 3 t (1 − t)² + … of a curve with known points: at t = ½ the middle is (30, 22.5).</summary>
    [Fact]
    public void A_curve_stays_within_the_tolerance()
    {
        ImmutableArray<PlanPoint> cubic = Assert.Single(Read("<path d=\"M0 100 C 0 70 60 70 60 100\"/>").Lines);
        Assert.Contains(cubic, point => Math.Abs(point.X - 30) < 1e-9 && Math.Abs(point.Y - 22.5) < 1e-9);
        Assert.All(Enumerable.Range(0, 200), i =>
        {
            double t = i / 200.0;
            PlanPoint exact = new((3 * t * t * (1 - t) * 60) + (60 * t * t * t), (3 * t * (1 - t) * (1 - t) * 30) + (3 * t * t * (1 - t) * 30));
            Assert.InRange(PathPoints.Nearest(cubic, exact).Off, 0, 0.05);
        });
    }

    [Theory]
    [InlineData("<line x1=\"0\" y1=\"100\" x2=\"10\" y2=\"90\"/>", "0,0 10,10")]
    [InlineData("<polyline points=\"0,100 10,100, 20 90\"/>", "0,0 10,0 20,10")]
    [InlineData("<polygon points=\"0,100 10,100 10,90\"/>", "0,0 10,0 10,10 0,0")]
    [InlineData("<rect x=\"10\" y=\"80\" width=\"20\" height=\"10\"/>", "10,20 30,20 30,10 10,10 10,20")]
    [InlineData("<rect x=\"10\" y=\"80\" width=\"0\" height=\"10\"/><line x2=\"1\"/>", "0,100 1,100")]
    public void Each_shape_has_its_outline(string shape, string lines) => Assert.Equal(lines, Lines(shape));

    [Fact]
    public void Round_shapes_have_their_radii()
    {
        ImmutableArray<PlanPoint> circle = Assert.Single(Read("<circle cx=\"50\" cy=\"50\" r=\"20\"/>").Lines);
        Assert.All(circle, point => Assert.Equal(20, Polyline.Distance(point, new(50, 50)), 1e-9));
        Assert.Equal(circle[0], circle[^1]);
        ImmutableArray<PlanPoint> ellipse = Assert.Single(Read("<ellipse cx=\"50\" cy=\"50\" rx=\"20\" ry=\"10\"/>").Lines);
        Assert.All(ellipse, point => Assert.Equal(1, (Math.Pow((point.X - 50) / 20, 2) + Math.Pow((point.Y - 50) / 10, 2)), 1e-9));
        ImmutableArray<PlanPoint> round = Assert.Single(Read("<rect x=\"0\" y=\"0\" width=\"100\" height=\"100\" rx=\"50\"/>").Lines);
        Assert.All(round, point => Assert.Equal(50, Polyline.Distance(point, new(50, 50)), 1e-9));
    }

    [Theory]
    [InlineData("translate(5)", "5,0 15,0")]
    [InlineData("translate(5,-7)", "5,7 15,7")]
    [InlineData("scale(2)", "0,-100 20,-100")]
    [InlineData("scale(2, 1)", "0,0 20,0")]
    [InlineData("rotate(90 0 100)", "0,0 0,-10")]
    [InlineData("matrix(1 0 0 1 3 4)", "3,-4 13,-4")]
    [InlineData("skewX(45) translate(-100)", "0,0 10,0")]
    [InlineData("skewY(45)", "0,0 10,-10")]
    [InlineData("translate(0 100), rotate(90) translate(0-100)", "0,0 0,-10")]
    public void A_transform_moves_what_is_in_it(string transform, string lines)
    {
        Assert.Equal(lines, Lines($"<g transform=\"{transform}\"><line x1=\"0\" y1=\"100\" x2=\"10\" y2=\"100\"/></g>"));
        Assert.Equal(lines, Lines($"<line transform=\"{transform}\" x1=\"0\" y1=\"100\" x2=\"10\" y2=\"100\"/>"));
    }

    [Fact]
    public void Transforms_within_each_other_are_done_from_the_inside_out() =>
        Assert.Equal("10,-20 30,-20", Lines("<g transform=\"translate(10 20)\"><g transform=\"translate(0 100) scale(2)\"><path d=\"M0 0h10\"/></g></g>"));

    [Fact]
    public void A_transform_that_cannot_be_read_leaves_its_element_out_and_says_so()
    {
        SvgReading reading = Read("<path d=\"M0 0h10\" transform=\"turn(5)\"/><path d=\"M0 0h1\"/>");
        Assert.Single(reading.Lines);
        Assert.Contains("turn(5)", Assert.Single(reading.Notes), StringComparison.Ordinal);
    }

    [Fact]
    public void What_is_used_again_is_drawn_again() =>
        Assert.Equal("0,100 10,100|5,93 15,93|0,50 50,50", Lines("""
            <path id="p" d="M0 0h10"/>
            <use href="#p" x="5" y="7"/>
            <defs><symbol id="s" viewBox="0 0 10 10"><path d="M0 5h10"/></symbol><path d="M0 0h99"/></defs>
            <use xmlns:l="http://www.w3.org/1999/xlink" l:href="#s" y="25" width="50" height="50"/>
            """));

    [Fact]
    public void Layers_are_known_by_their_id_or_by_the_label_an_editor_gives_them()
    {
        const string Drawing = """
            <g id="g1" xmlns:e="urn:an-editor" e:label="Upper level" e:groupmode="layer"><path d="M0 0h1"/></g>
            <g id="lower"><g><path d="M0 0h2"/></g></g>
            <path d="M0 0h3"/>
            """;
        Assert.Equal(["Upper level", "lower"], Read(Drawing).Layers);
        Assert.Equal("0,100 1,100", Lines(Drawing, Full with { Layer = "Upper level" }));
        Assert.Equal("0,100 1,100", Lines(Drawing, Full with { Layer = "g1" }));
        Assert.Equal("0,100 2,100", Lines(Drawing, Full with { Layer = "lower" }));
        Assert.Contains("\"Upper level\", \"lower\"", Trouble(Drawing, Full with { Layer = "middle" }), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("<path d=\"M0 0h1\" stroke=\"#C00\"/>")]
    [InlineData("<path d=\"M0 0h1\" style=\"fill:none; stroke: #cc0000 !important\" stroke=\"blue\"/>")]
    [InlineData("<style>.t { stroke: rgb(204, 0, 0) } path { stroke: blue }</style><path class=\"x t\" d=\"M0 0h1\"/>")]
    [InlineData("<style>/* p { */ #p { stroke:#c00 } .t { stroke: lime }</style><path class=\"t\" id=\"p\" d=\"M0 0h1\"/>")]
    [InlineData("<g stroke=\"#cc0000\"><path d=\"M0 0h1\"/></g>")]
    [InlineData("<style>line, path.t { stroke: #c00 } * { stroke: blue }</style><path class=\"t\" d=\"M0 0h1\"/>")]
    public void A_stroke_is_known_however_it_is_said(string drawing)
    {
        string more = drawing + "<path d=\"M0 0h2\" stroke=\"lime\"/><path d=\"M0 0h3\" stroke=\"none\"/>";
        Assert.Equal("0,100 1,100", Lines(more, Full with { Stroke = "#cc0000" }));
        Assert.Contains("there are \"#", Trouble(more, Full with { Stroke = "#123456" }), StringComparison.Ordinal);
    }

    [Fact]
    public void What_is_not_shown_is_not_track() =>
        Assert.Equal("0,100 9,100", Lines("""
            <g display="none"><path d="M0 0h1"/></g>
            <path style="display:none" d="M0 0h2"/>
            <g visibility="hidden"><path d="M0 0h3"/><path visibility="visible" d="M0 0h9"/></g>
            <clipPath id="c"><path d="M0 0h4"/></clipPath>
            <marker><path d="M0 0h5"/></marker>
            <x:path xmlns:x="urn:other" d="M0 0h6"/>
            <path d="M0 0h7" stroke="none"/>
            """.Replace("h9\"", "h9\" stroke=\"black\"", StringComparison.Ordinal)));

    [Fact]
    public void What_is_passed_over_is_said()
    {
        SvgReading reading = Read("<text>spur</text><image/><path clip-path=\"url(#c)\" d=\"M0 0h1 oops\"/><use href=\"other.svg#x\"/><style>a > b { x: y }</style>");
        Assert.Equal(5, reading.Notes.Length);
        Assert.Contains(reading.Notes, note => note.Contains("image, text", StringComparison.Ordinal));
    }

    /// <summary>An inch is 25.4 mm, 96 px, 72 pt and 6 pc; the page is 100 units wide.</summary>
    [Theory]
    [InlineData("width=\"100mm\"", 0.001)]
    [InlineData("width=\"10cm\"", 0.001)]
    [InlineData("width=\"1in\"", 0.000254)]
    [InlineData("width=\"72pt\"", 0.000254)]
    [InlineData("width=\"6pc\"", 0.000254)]
    public void A_drawing_full_size_says_so_by_the_unit_of_its_page(string size, double unit)
    {
        SvgReading reading = ReadWhole($"<svg xmlns=\"http://www.w3.org/2000/svg\" {size} viewBox=\"0 0 100 100\"><path d=\"M0 0h10\"/></svg>", new());
        Assert.Equal(unit, reading.UnitMetres, 1e-12);
        Assert.Equal(10 * unit, reading.Lines[0][1].X, 1e-12);
    }

    [Fact]
    public void The_size_is_that_of_the_page_or_of_a_unit_or_it_is_asked_for()
    {
        const string Boxed = "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"500\" viewBox=\"-10 -20 200 50\"><path d=\"M0 0h10\"/></svg>";
        SvgReading wide = ReadWhole(Boxed, new() { Width = Length.FromMeters(4) });
        Assert.Equal(0.02, wide.UnitMetres, 1e-12);
        Assert.Equal((0.2, 0.6), (wide.Lines[0][0].X, Math.Round(wide.Lines[0][0].Y, 12)));
        Assert.Equal(0.001, ReadWhole(Boxed, Full with { Unit = Length.FromMillimeters(1) }).UnitMetres, 1e-12);
        Assert.Contains("nothing says how large", TroubleWhole(Boxed, new()), StringComparison.Ordinal);
        Assert.Contains("how wide its page is", TroubleWhole("<svg xmlns=\"http://www.w3.org/2000/svg\"><path d=\"M0 0h10\"/></svg>", new() { Width = Length.FromMeters(1) }), StringComparison.Ordinal);
    }

    [Fact]
    public void Entities_that_grow_are_refused_and_none_is_ever_read_from_elsewhere()
    {
        StringBuilder bomb = new("<?xml version=\"1.0\"?><!DOCTYPE svg [<!ENTITY a0 \"aaaaaaaaaa\">");
        for (int i = 1; i < 30; i++) bomb.Append(CultureInfo.InvariantCulture, $"<!ENTITY a{i} \"&a{i - 1};&a{i - 1};&a{i - 1};&a{i - 1};\">");
        bomb.Append("]><svg xmlns=\"http://www.w3.org/2000/svg\"><path d=\"&a29;\"/></svg>");
        Assert.Contains("not XML", TroubleWhole(bomb.ToString(), Full), StringComparison.Ordinal);
        Assert.Contains("not XML", TroubleWhole("<!DOCTYPE svg [<!ENTITY x SYSTEM \"file:///etc/hostname\">]><svg xmlns=\"http://www.w3.org/2000/svg\"><text>&x;</text></svg>", Full), StringComparison.Ordinal);
    }

    [Fact]
    public void A_document_type_as_editors_write_it_is_passed_over() =>
        Assert.Single(ReadWhole("<!DOCTYPE svg PUBLIC \"-//W3C//DTD SVG 1.1//EN\" \"http://www.w3.org/Graphics/SVG/1.1/DTD/svg11.dtd\"><svg xmlns=\"http://www.w3.org/2000/svg\"><path d=\"M0 0h1\"/></svg>", Full).Lines);

    [Fact]
    public void Each_limit_is_kept()
    {
        Assert.Contains("within each other", Trouble(string.Concat(Enumerable.Repeat("<g>", SvgLimits.Depth + 1)) + string.Concat(Enumerable.Repeat("</g>", SvgLimits.Depth + 1))), StringComparison.Ordinal);
        Assert.Contains("elements", Trouble(string.Concat(Enumerable.Repeat("<g/>", SvgLimits.Elements + 1))), StringComparison.Ordinal);
        Assert.Contains("style rules", Trouble($"<style>{string.Concat(Enumerable.Repeat("a{b:c}", SvgLimits.StyleRules + 1))}</style>"), StringComparison.Ordinal);
        Assert.Contains("lines", Trouble($"<path d=\"{string.Concat(Enumerable.Repeat("M0 0h1", LineTracing.MostLines + 1))}\"/>"), StringComparison.Ordinal);
        Assert.Contains("points", Trouble($"<path d=\"M0 0{string.Concat(Enumerable.Repeat("h1", LineTracing.MostPoints + 1))}\"/>"), StringComparison.Ordinal);
        Assert.Contains("characters", TroubleWhole(new string(' ', SvgLimits.Characters + 1), Full), StringComparison.Ordinal);
        Assert.Equal(SvgLimits.CurvePieces + 1, Assert.Single(ReadWhole("<svg xmlns=\"http://www.w3.org/2000/svg\"><circle r=\"1e7\"/></svg>", Full with { Unit = Length.FromMeters(1e-3) }).Lines).Length);
    }

    /// <summary>Ten levels of ten uses each would be ten milliards of lines.</summary>
    [Fact]
    public void Uses_that_grow_and_uses_that_turn_in_a_ring_are_refused()
    {
        StringBuilder drawing = new("<defs><path id=\"u0\" d=\"M0 0h1\"/>");
        for (int i = 1; i <= 10; i++) drawing.Append(CultureInfo.InvariantCulture, $"<g id=\"u{i}\">{string.Concat(Enumerable.Repeat($"<use href=\"#u{i - 1}\"/>", 10))}</g>");
        Assert.Contains("at most", Trouble(drawing + "</defs><use href=\"#u10\"/>").Replace("more than", "at most", StringComparison.Ordinal), StringComparison.Ordinal);
        Assert.Contains("within each other", Trouble("<g id=\"a\"><use href=\"#a\"/></g>"), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("")]
    [InlineData("wireup: 1")]
    [InlineData("<html/>")]
    [InlineData("<svg xmlns=\"http://www.w3.org/2000/svg\">")]
    [InlineData("<svg xmlns=\"http://www.w3.org/2000/svg\"/>")]
    public void What_is_no_drawing_or_has_no_line_is_refused(string text) => Assert.NotEmpty(TroubleWhole(text, Full));

    private static SvgImport Full => new() { Unit = Length.FromMeters(1), Tolerance = Length.FromMeters(0.05) };

    private static string Page(string content) => $"<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 100 100\">{content}</svg>";

    private static SvgReading Read(string content) => ReadWhole(Page(content), Full);

    private static SvgReading ReadWhole(string text, SvgImport import)
    {
        (SvgReading? reading, string? trouble) = SvgDrawing.Read(text, import);
        Assert.Null(trouble);
        return reading!;
    }

    private static string Trouble(string content, SvgImport? import = null) => TroubleWhole(Page(content), import ?? Full);

    private static string TroubleWhole(string text, SvgImport import)
    {
        (SvgReading? reading, string? trouble) = SvgDrawing.Read(text, import);
        Assert.Null(reading);
        return trouble!;
    }

    private static string Lines(string content, SvgImport? import = null) => string.Join('|', ReadWhole(Page(content), import ?? Full).Lines
        .Select(line => string.Join(' ', line.Select(point => string.Create(CultureInfo.InvariantCulture, $"{Math.Round(point.X, 9) + 0.0},{Math.Round(point.Y, 9) + 0.0}")))));
}
