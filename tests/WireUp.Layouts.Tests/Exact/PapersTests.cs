namespace WireUp.Layouts.Tests.Exact;

/// <summary>What a file says of the papers: colours, letters and words of a railway's own, the address of its work sheet, sizes of wire.</summary>
public sealed class PapersTests
{
    [Fact]
    public void Colours_letters_and_words_of_ones_own_are_read()
    {
        Papers papers = Read("papers: { leg-a: LB, leg-b: BN, leg-a-name: outer, letters: { LB: light blue, RD: rouge }, work-sheet: 'http://10.0.0.7:5080/layouts/club/sheet' }").Papers;
        Assert.Equal(("LB", "BN", null, "outer", null), (papers.LegA, papers.LegB, papers.Frog, papers.LegAName, papers.LegBName));
        Assert.Equal(("LB (light blue)", "BN (brown)", "RD (rouge)", "XX"), (papers.WithColour("LB"), papers.WithColour("BN"), papers.WithColour("RD"), papers.WithColour("XX")));
        Assert.Equal(("leg A (outer)", "leg B"), (papers.Leg("A"), papers.Leg("B")));
    }

    [Theory]
    [InlineData("papers: { leg-b: BU }", "RD", "BU", "VT")]
    [InlineData("papers: { leg-a: BN, leg-b: BN, frog: BN }", "BN", "BN", "BN")] // NEM 605 allows one colour throughout where ends are marked
    [InlineData("control: direct\npapers: { frog: GN }", "WH", "YE", "GN")]
    [InlineData("papers:", "RD", "BN", "VT")]
    public void A_colour_that_nobody_chose_is_the_usual_one(string lines, string legA, string legB, string frog) =>
        Assert.Equal(new WirePalette(legA, legB, frog), WirePalette.Of(Read(lines)));

    [Theory]
    [InlineData("leg-a: PINK", "WU1010", "PINK")]
    [InlineData("leg-a: GNYE", "WU1010", "GNYE")]
    [InlineData("letters: { PE: green and yellow }", "WU1010", "PE")]
    [InlineData("letters: { gnye: lime }", "WU1010", "gnye")]
    [InlineData("letters: { light-blue: light blue }", "WU1014", "light-blue")]
    [InlineData("letters: { LB: a colour that nobody could write on a label }", "WU1005", "a colour that nobody could write on a label")]
    [InlineData("leg-b-name: ' '", "WU1005", " ")]
    [InlineData("work-sheet: club", "WU1005", "club")]
    [InlineData("work-sheet: 'ftp://club/sheet'", "WU1005", "ftp://club/sheet")]
    [InlineData("work-sheet: 'http://club/sheet#f1'", "WU1005", "http://club/sheet#f1")]
    [InlineData("leg-c: RD", "WU1006", "leg-c")]
    public void What_cannot_be_meant_is_refused(string entry, string code, string text)
    {
        LayoutProblem problem = Assert.Single(LayoutFile.Read(Text($"papers: {{ {entry} }}"), "x").Problems);
        Assert.Equal((code, text), (problem.Code, problem.Text));
    }

    [Theory]
    [InlineData("f12/A", "http://club/layouts/a/sheet#f12/A")]
    [InlineData("east:3/B", "http://club/layouts/a/sheet#east:3/B")]
    [InlineData("süd/A", "http://club/layouts/a/sheet#s%C3%BCd/A")]
    public void The_line_of_a_wire_has_an_address_that_a_browser_reads_back(string wire, string address)
    {
        Papers papers = new() { WorkSheet = "http://club/layouts/a/sheet" };
        Assert.Equal(address, papers.LineOf(wire));
        Assert.Equal(wire, Uri.UnescapeDataString(new Uri(address).Fragment[1..]));
        Assert.Null(Papers.Usual.LineOf(wire));
    }

    [Theory]
    [InlineData("units: mm", WireSystem.Metric)]
    [InlineData("units: in", WireSystem.Awg)]
    [InlineData("lengths: feet", WireSystem.Awg)]
    [InlineData("units: ft\nlengths: metric", WireSystem.Metric)]
    [InlineData("units: in\nwire-sizes: metric", WireSystem.Metric)]
    [InlineData("wire-sizes: awg", WireSystem.Awg)]
    public void Sizes_of_wire_go_with_the_lengths_of_the_file_unless_it_says_otherwise(string lines, WireSystem sizes)
    {
        Layout layout = Read(lines);
        Assert.Equal(sizes, layout.WireSizes);
        Assert.Equal(sizes, LayoutFile.Read(LayoutFile.Write(layout), "again").Layout!.WireSizes);
    }

    private static Layout Read(string lines)
    {
        LayoutReading reading = LayoutFile.Read(Text(lines), "x");
        Assert.Empty(reading.Problems);
        return reading.Layout!;
    }

    private static string Text(string lines) => $"wireup: 1\nname: x\nlongest-train: 1 m\n{lines}\ntrack: {{ s: {{ length: 1 m }} }}\n";
}
