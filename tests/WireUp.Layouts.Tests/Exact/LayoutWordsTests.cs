using UnitsNet;

namespace WireUp.Layouts.Tests.Exact;

public sealed class LayoutWordsTests
{
    private static readonly Layout Layout = LayoutFile.Read(
        "wireup: 1\nname: x\nlongest-train: 1 m\ntrack: { loop: { length: 2 m }, T: { turnout: left } }\n", "test").Layout!;

    [Theory]
    [InlineData("loop@1.25 m", 1.25)]
    [InlineData("loop@1.25m", 1.25)]
    [InlineData("loop @ 300", 0.3)]
    [InlineData("loop@-300", 1.7)]
    [InlineData("loop@-0", 2)]
    [InlineData("loop@0", 0)]
    public void A_place_is_read(string text, double metres) =>
        Assert.Equal(new WordsRead<TrackPlace>(new TrackPlace(new PieceId("loop"), metres), null), LayoutWords.Place(Layout, text));

    [Theory]
    [InlineData("lop@1 m", "there is no piece \"lop\"; expected \"loop\" (did you mean that?)")]
    [InlineData("loop@3 m", "\"3 m\" is beyond the ends of section \"loop\"; expected a distance from 0 to 2 m")]
    [InlineData("T@1 m", "\"T\" is neither a section nor a moving bridge, so it has no places along it; expected the name of a section, turntable or transfer table")]
    [InlineData("loop", "\"loop\" is not a place along the track; expected a place such as loop@2.7 m, or loop@-100 mm from end b")]
    public void What_is_no_place_says_why(string text, string trouble) =>
        Assert.Equal(new WordsRead<TrackPlace>(null, trouble), LayoutWords.Place(Layout, text));

    [Fact]
    public void A_route_is_read_as_pieces_ends_and_places() => Assert.Equal(
        [new RouteStop.Through(new("loop")), new RouteStop.AtEnd(new(new("T"), "points")), new RouteStop.AtPlace(new(new("loop"), 0.5))],
        LayoutWords.Route(Layout, "loop>T.points > loop@0.5 m").Value!.Value);

    [Theory]
    [InlineData("loop > ", "a route needs a name before and after each \">\"; expected pieces, ends or places such as yard-1 > T3.diverging > loop@2 m")]
    [InlineData("loop > T.frog", "piece \"T\" has no end \"frog\"; expected \"points\", \"through\" or \"diverging\"")]
    [InlineData("lop", "there is no piece \"lop\"; expected \"loop\" (did you mean that?)")]
    public void What_is_no_route_says_why(string text, string trouble) => Assert.Equal(trouble, LayoutWords.Route(Layout, text).Trouble);

    [Fact]
    public void Quantities_are_read()
    {
        Assert.Equal(ElectricCurrent.FromAmperes(0.25), LayoutWords.Current("250 mA").Value);
        Assert.Equal(Length.FromMeters(2.4), LayoutWords.Length("2400").Value);
        Assert.Equal("\"5\" has no unit; expected a current such as 0.25 A or 250 mA", LayoutWords.Current("5").Trouble);
    }

    [Fact]
    public void Sizes_of_wire_are_read() =>
        Assert.Equal([new Wire.Metric(1.5), new Wire.Awg(12)], LayoutWords.Wires("1.5 mm2, 12 AWG").Value!.Value);

    [Theory]
    [InlineData("1.5")]
    [InlineData("1.5 mm2, thick")]
    [InlineData("1.5 mm2,")]
    [InlineData("500 mm2")]
    public void What_is_no_wire_says_what_would_be(string text)
    {
        WordsRead<System.Collections.Immutable.ImmutableArray<Wire>> read = LayoutWords.Wires(text);
        Assert.Null(read.Value);
        Assert.Contains("expected", read.Trouble, StringComparison.Ordinal);
    }
}
