using UnitsNet;

namespace WireUp.Layouts.Tests.Exact;

/// <summary>
/// Lengths told to people. An inch is 25.4 mm exactly by the international agreement of 1959; the expected texts are worked out by hand
/// from that.
/// </summary>
public sealed class LengthStyleTests
{
    [Theory]
    [InlineData(0, "0 in")]
    [InlineData(0.0127, "1/2 in")]
    [InlineData(0.0508, "2 in")]
    [InlineData(0.13335, "5 1/4 in")]
    [InlineData(0.3048, "1 ft")]
    [InlineData(0.5842, "1 ft 11 in")]
    [InlineData(0.60325, "1 ft 11 3/4 in")]
    [InlineData(0.6, "1 ft 11 5/8 in")]
    [InlineData(0.6096, "2 ft")]
    [InlineData(2.286, "7 ft 6 in")]
    [InlineData(2.29, "7 ft 6 in")]
    [InlineData(12.192, "40 ft")]
    [InlineData(-0.3048, "-1 ft")]
    [InlineData(-0.0001, "0 in")]
    public void Feet_are_told_to_an_eighth_of_an_inch_below_two_feet_and_to_the_inch_above(double metres, string told) =>
        Assert.Equal(told, LengthStyle.Feet.Say(metres));

    [Fact]
    public void Metric_lengths_have_the_decimals_that_are_asked_for()
    {
        Assert.Equal("2.29 m", LengthStyle.Metric.Say(2.286));
        Assert.Equal("2.3 m", LengthStyle.Metric.Say(2.286, 1));
        Assert.Equal("2286 mm", LengthStyle.Metric.Measure(2.286));
        Assert.Equal("2286", LengthStyle.Metric.Bare(2.286));
    }

    [Fact]
    public void What_is_measured_on_the_bench_has_its_eighths_and_what_is_drilled_its_sixteenths()
    {
        Assert.Equal("4 ft 1 1/4 in", LengthStyle.Feet.Measure(1.25));
        Assert.Equal("4 ft 1 3/16 in", LengthStyle.Feet.Mark(1.25));
        Assert.Equal("loop@4 ft 1 1/4 in", LengthStyle.Feet.Say(new TrackPlace(new("loop"), 1.25)));
        Assert.Equal("loop@1.25 m", LengthStyle.Metric.Say(new TrackPlace(new("loop"), 1.25)));
    }

    [Theory]
    [InlineData("The rail of \"loop\" at loop@1.25 m/left is 2.29 m long.", "The rail of \"loop\" at loop@4 ft 1 1/4 in/left is 7 ft 6 in long.")]
    [InlineData("dead over 140 mm, the wheel base is 38 mm.", "dead over 5 1/2 in, the wheel base is 1 1/2 in.")]
    [InlineData("0.30 m of 2.5 mm2, 1.5 mm² and 12 AWG", "1 ft of 2.5 mm2, 1.5 mm² and 12 AWG")]
    [InlineData("0.010 ohm, 12 mohm, 5 minutes, T2 m1", "0.010 ohm, 12 mohm, 5 minutes, T2 m1")]
    public void A_sentence_is_retold_with_its_lengths_and_nothing_else_in_feet(string metric, string feet)
    {
        Assert.Equal(feet, LengthStyle.Feet.Retell(metric));
        Assert.Equal(feet, LengthStyle.Feet.Retell(feet));
        Assert.Equal(metric, LengthStyle.Metric.Retell(metric));
    }

    [Theory]
    [InlineData("Train \"local 2 m\" is 2.29 m long.", "Train \"local 2 m\" is 7 ft 6 in long.")]
    [InlineData("lit cars of local 2 m, 2 m apart", "lit cars of local 2 m, 6 ft 7 in apart")]
    [InlineData("'2 m' stops within 2 m.", "'2 m' stops within 6 ft 7 in.")]
    [InlineData("vocal 2 m", "vocal 6 ft 7 in")]
    [InlineData("local 2 mm", "local 1/8 in")]
    [InlineData("12 m of loop@1.25 m", "39 ft 4 in of loop@4 ft 1 1/4 in")]
    public void Names_of_trains_and_locomotives_are_never_retold(string sentence, string told)
    {
        Layout layout = Read("lengths: feet\nstock: { locomotives: { 2 m: {} }, trains: { local 2 m: { locomotives: [2 m], length: 1 m } } }");
        Assert.Equal(told, layout.Retell(sentence));
        Assert.Equal(sentence, (layout with { Lengths = LengthStyle.Metric }).Retell(sentence));
    }

    [Theory]
    [InlineData("mm", LengthStyle.Metric)]
    [InlineData("m", LengthStyle.Metric)]
    [InlineData("in", LengthStyle.Feet)]
    [InlineData("ft", LengthStyle.Feet)]
    public void A_layout_is_told_in_the_units_of_its_file(string unit, LengthStyle style) => Assert.Equal(style, Read($"units: {unit}").Lengths);

    [Theory]
    [InlineData("units: mm\nlengths: feet", LengthStyle.Feet)]
    [InlineData("units: in\nlengths: metric", LengthStyle.Metric)]
    public void A_layout_may_say_how_it_is_told(string lines, LengthStyle style)
    {
        Layout layout = Read(lines);
        Assert.Equal(style, layout.Lengths);
        Assert.Equal(style, LayoutFile.Read(LayoutFile.Write(layout), "again").Layout!.Lengths);
    }

    [Theory]
    [InlineData("12 m", LengthStyle.Metric)]
    [InlineData("1200", LengthStyle.Metric)]
    [InlineData("40 ft", LengthStyle.Feet)]
    [InlineData("7' 6\"", LengthStyle.Feet)]
    public void A_length_is_told_as_it_was_typed(string typed, LengthStyle style) => Assert.Equal(style, LengthStyles.OfText(typed));

    [Fact]
    public void A_place_that_was_told_can_be_typed()
    {
        Layout layout = Read("units: in");
        TrackPlace place = LayoutWords.Place(layout, LengthStyle.Feet.Say(new TrackPlace(new("loop"), 1.25))).Value!.Value;
        Assert.Equal(Length.FromInches(49.25).Meters, place.MetresFromA, 1e-12);
        Assert.Equal("volts at loop@1.251 m", $"volts at {place with { MetresFromA = Math.Round(place.MetresFromA, 4) }}");
        MeterReading reading = LayoutWords.Sentence(layout, "6.3 V at loop@4 ft 1 1/4 in under 0.5 A").Value!;
        Assert.Contains("loop@1.251 m", reading.ToString(), StringComparison.Ordinal);
    }

    private static Layout Read(string lines) => LayoutFile.Read($$"""
        wireup: 1
        name: Test
        {{lines}}
        longest-train: 2 m
        track:
          loop: { length: 4 m }
          loop-end: { stop: true }
        joined:
          - loop > loop-end
        """, "test").Layout!;
}
