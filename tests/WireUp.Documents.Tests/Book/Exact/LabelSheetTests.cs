using System.Collections.Immutable;
using SkiaSharp;
using UnitsNet;
using WireUp.Layouts;
using ZXing;
using ZXing.Common;
using ZXing.QrCode;

namespace WireUp.Documents.Tests.Book.Exact;

/// <summary>Sheets of labels and the codes on them.</summary>
public sealed class LabelSheetTests
{
    private static readonly Schedule Schedule = Schedule.Of(TestLayouts.Balloon);

    public static TheoryData<double, double, int> Sizes => new() { { 38.1, 21.2, 65 }, { 63.5, 38.1, 21 } };

    [Theory]
    [MemberData(nameof(Sizes))]
    public void Every_wire_has_a_label_for_each_end_and_every_point_one(double width, double height, int onASheet)
    {
        ImmutableArray<Scene> sheets = Sheets(width, height);
        int wires = 2 * Schedule.Wires.Length, points = TestLayouts.Balloon.Wiring.Buses.Sum(bus => bus.Runs.Select(run => run.To).Distinct().Count());
        Assert.Equal((int)Math.Ceiling((wires + points) / (double)onASheet), sheets.Length);

        // The name stands twice on each label.
        Shape.Text[] names = [.. sheets.SelectMany(sheet => sheet.Texts).Where(text => text.Content == "f2/A")];
        Assert.Equal(4, names.Length);
        Assert.All(sheets, sheet =>
        {
            Assert.Empty(SceneMeasures.TextsOnTexts(sheet));
            Assert.Empty(SceneMeasures.TextsOutside(sheet, sheet.Bounds.Grow(-4)));
        });
    }

    [Theory]
    [MemberData(nameof(Sizes))]
    public void Another_program_reads_from_the_drawn_code_what_wire_it_is_and_where_to_look(double width, double height, int onASheet)
    {
        Scene sheet = Sheets(width, height)[0];
        Shape.Strokes[] codes = [.. sheet.Shapes.OfType<Shape.Strokes>().Where(shape => shape.Layer == "codes")];
        Assert.Equal(Math.Min(onASheet, (2 * Schedule.Wires.Length) + 3), codes.Length);
        foreach (Shape.Strokes code in codes.DistinctBy(code => code.Id)) Assert.Equal(code.Id, Read(code));
        Assert.Contains(codes, code => code.Id == "f2/A: Q1 > loop@1200 mm/left; see District D turn");
    }

    [Theory]
    [MemberData(nameof(Sizes))]
    public void With_the_address_of_the_work_sheet_another_program_reads_the_address_of_the_wire_s_line(double width, double height, int onASheet)
    {
        const string Address = "http://192.168.100.20:5080/layouts/cold-ridge/sheet";
        Layout layout = TestLayouts.Balloon with { Papers = new() { WorkSheet = Address } };
        Scene sheet = LabelSheets.Pages(layout, Schedule, new(Length.FromMillimeters(width), Length.FromMillimeters(height)))[0];
        Shape.Strokes[] codes = [.. sheet.Shapes.OfType<Shape.Strokes>().Where(shape => shape.Layer == "codes")];
        Assert.Equal(Math.Min(onASheet, (2 * Schedule.Wires.Length) + 3), codes.Length);
        HashSet<string> lines = [.. Schedule.Wires.Select(wire => wire.Id)];
        foreach (Shape.Strokes code in codes.DistinctBy(code => code.Id))
        {
            Uri read = new(Read(code)!);
            Assert.Equal(Address, read.GetLeftPart(UriPartial.Query));
            Assert.Contains(Uri.UnescapeDataString(read.Fragment[1..]), lines);
        }

        Assert.Contains(codes, code => code.Id == $"{Address}#f2/A");
        Assert.Contains(codes, code => code.Id == $"{Address}#turn:1/A");
    }

    [Fact]
    public void A_line_of_bus_that_the_work_sheet_cuts_otherwise_keeps_its_words()
    {
        Layout after = TestLayouts.Balloon with { Papers = new() { WorkSheet = "http://club/layouts/a/sheet" } };
        Bus turn = after.Wiring.Buses[1];
        Layout before = after with { Wiring = after.Wiring with { Buses = [after.Wiring.Buses[0], turn with { Runs = [turn.Runs[0]] }] } };
        Schedule schedule = Schedule.Of(after, before: before);
        string[] codes = [.. LabelSheets.Pages(after, schedule, new(Length.FromMillimeters(63.5), Length.FromMillimeters(38.1)))
            .SelectMany(sheet => sheet.Shapes).OfType<Shape.Strokes>().Where(shape => shape.Layer == "codes").Select(shape => shape.Id)];
        Assert.Contains("turn:2/A: Q1 > Q2; see District D turn", codes);
        Assert.DoesNotContain(codes, code => code.EndsWith("#turn:2/A", StringComparison.Ordinal));
    }

    [Fact]
    public void A_name_too_long_for_its_label_keeps_its_end_where_the_leg_stands()
    {
        Schedule longName = new([Schedule.Wires[0] with { Id = $"{string.Concat(Enumerable.Repeat("long", 20))}:3/B" }]);
        Scene sheet = LabelSheets.Pages(TestLayouts.Balloon, longName, new(Length.FromMillimeters(38.1), Length.FromMillimeters(21.2)))[0];
        Assert.Equal(4, sheet.Texts.Count(text => text.Content.StartsWith('…') && text.Content.EndsWith(":3/B", StringComparison.Ordinal)));
        Assert.Empty(SceneMeasures.TextsOnTexts(sheet));
    }

    [Fact]
    public void A_label_too_small_for_a_code_that_can_be_read_has_none() =>
        Assert.Empty(Sheets(20, 10)[0].Shapes.OfType<Shape.Strokes>());

    [Fact]
    public void A_label_larger_than_the_paper_is_refused() => Assert.Throws<ArgumentException>(() => Sheets(260, 100));

    private static ImmutableArray<Scene> Sheets(double width, double height) =>
        LabelSheets.Pages(TestLayouts.Balloon, Schedule, new(Length.FromMillimeters(width), Length.FromMillimeters(height)));

    /// <summary>The code alone, drawn as a picture of some hundred dots and read back.</summary>
    private static string? Read(Shape.Strokes code)
    {
        SceneBox box = SceneBox.Around(code.Points).Grow(4);
        Scene alone = new(box.Width, box.Height, [code with { Points = [.. code.Points.Select(point => new ScenePoint(point.X - box.Left, point.Y - box.Top))] }]);
        using SKBitmap picture = SKBitmap.Decode(PngScene.Write(alone));
        byte[] grey = [.. picture.Pixels.Select(pixel => pixel.Red)];
        RGBLuminanceSource source = new(grey, picture.Width, picture.Height, RGBLuminanceSource.BitmapFormat.Gray8);
        return new QRCodeReader().decode(new BinaryBitmap(new HybridBinarizer(source)))?.Text;
    }
}
