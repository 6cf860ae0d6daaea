using System.Collections.Immutable;
using UnitsNet;
using WireUp.Layouts;

namespace WireUp.Checking.Tests.Exact;

/// <summary>How findings write numbers, counts and lists.</summary>
public sealed class WordTests
{
    [Theory]
    [InlineData(1, "\"a\"")]
    [InlineData(2, "\"a\" and \"b\"")]
    [InlineData(3, "\"a\", \"b\" and \"c\"")]
    [InlineData(5, "\"a\", \"b\", \"c\", \"d\" and \"e\"")]
    [InlineData(6, "\"a\", \"b\", \"c\", \"d\" and 2 more")]
    [InlineData(7, "\"a\", \"b\", \"c\", \"d\" and 3 more")]
    public void Long_lists_name_the_first_few_and_never_leave_out_just_one(int count, string said) =>
        Assert.Equal(said, Words.List("abcdefg".Take(count).Select(letter => letter.ToString())));

    [Theory]
    [InlineData(0, "0 sections")]
    [InlineData(1, "1 section")]
    [InlineData(2, "2 sections")]
    public void A_count_has_the_noun_in_its_number(int count, string said) => Assert.Equal(said, Words.Count(count, "section"));

    [Fact]
    public void Lengths_below_a_metre_are_told_in_millimetres_and_times_below_a_second_in_milliseconds()
    {
        Assert.Equal(["999 mm", "1 m", "1.25 m"], new[] { 0.999, 1, 1.25 }.Select(metres => Words.Say(Length.FromMeters(metres))));
        Assert.Equal(["999 ms", "1 s", "2.5 s"], new[] { 0.999, 1, 2.5 }.Select(seconds => Words.Say(Duration.FromSeconds(seconds))));
    }

    [Fact]
    public void Quantities_have_their_units()
    {
        Assert.Equal("2.35 A", Words.Say(ElectricCurrent.FromMilliamperes(2351)));
        Assert.Equal("14.5 V", Words.Say(ElectricPotential.FromVolts(14.5)));
        Assert.Equal("0.125 ohm", Words.Say(ElectricResistance.FromMilliohms(125)));
        Assert.Equal("60 W", Words.Say(Power.FromWatts(60)));
        Assert.Equal("33 nF", Words.Say(ElectricCapacitance.FromNanofarads(33)));
        Assert.Equal("4.5 %", Words.Say(Ratio.FromPercent(4.53)));
    }

    [Fact]
    public void A_range_whose_ends_read_alike_is_one_current()
    {
        Assert.Equal("3 A to 12.5 A", Words.Range(ElectricCurrent.FromAmperes(3), ElectricCurrent.FromAmperes(12.5)));
        Assert.Equal("3 A", Words.Range(ElectricCurrent.FromAmperes(3.001), ElectricCurrent.FromAmperes(3.002)));
    }

    [Theory]
    [InlineData(0, 2, "\"loop\"")]
    [InlineData(0, 1.5, "\"loop\" from 0 m to 1.5 m")]
    [InlineData(0.5, 2, "\"loop\" from 0.5 m to 2 m")]
    public void A_stretch_is_the_whole_section_or_a_part_of_it(double from, double to, string said) =>
        Assert.Equal(said, Words.Stretch(new Piece.Section(new("loop"), Length.FromMeters(2)), from, to));

    [Fact]
    public void Positions_are_told_as_set_once()
    {
        ImmutableSortedDictionary<PieceId, string> both = ImmutableSortedDictionary<PieceId, string>.Empty.Add(new("T1"), "through").Add(new("T2"), "diverging");
        Assert.Equal("\"T1\" is set to through and \"T2\" to diverging", Words.Set(both));
        Assert.Equal("\"T2\" is set to diverging", Words.Set(both.Remove(new PieceId("T1"))));
    }

    [Fact]
    public void Two_turnouts_that_move_at_once_are_both_named()
    {
        ImmutableSortedDictionary<PieceId, string> moving = ImmutableSortedDictionary<PieceId, string>.Empty.Add(new("T1"), "left>right").Add(new("T2"), "through>diverging");
        Assert.Equal("while \"T1\" moves from left to right and \"T2\" moves from through to diverging", Words.When(moving));
    }

    [Fact]
    public void Severities_have_a_word_and_nothing_else_has()
    {
        Assert.Equal(["advice", "warning", "error"], Enum.GetValues<Severity>().Select(severity => severity.Word()));
        Assert.Throws<ArgumentOutOfRangeException>(() => ((Severity)7).Word());
    }

    [Fact]
    public void A_code_is_looked_up_in_the_catalogue_and_others_are_not_there()
    {
        Assert.All(FindingCatalogue.All, descriptor => Assert.Same(descriptor, FindingCatalogue.Find(descriptor.Code)));
        Assert.Null(FindingCatalogue.Find("WU1001"));
    }
}
