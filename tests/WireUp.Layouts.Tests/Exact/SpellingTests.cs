using WireUp.Layouts.Reading;

namespace WireUp.Layouts.Tests.Exact;

public sealed class SpellingTests
{
    [Theory]
    [InlineData("lenght", "length")]
    [InlineData("Length", "length")]
    [InlineData("legth", "length")]
    [InlineData("lengthh", "length")]
    [InlineData("xength", "length")]
    [InlineData("turnuot", "turnout")]
    [InlineData("diverigng", "diverging")]
    [InlineData("dvrgng", null)]
    [InlineData("divrgng", "diverging")]
    [InlineData("zebra", null)]
    [InlineData("", null)]
    public void The_nearest_word_is_found_when_it_is_near(string wrong, string? nearest) =>
        Assert.Equal(nearest, Spelling.Nearest(wrong, ["length", "turnout", "diverging"]));

    [Fact]
    public void Of_equally_near_words_the_first_is_taken() => Assert.Equal("s1", Spelling.Nearest("s", ["t11", "s1", "s2"]));

    [Theory]
    [InlineData(new string[0], "nothing")]
    [InlineData(new[] { "a" }, "\"a\"")]
    [InlineData(new[] { "a", "b", "c" }, "\"a\", \"b\" or \"c\"")]
    public void Words_are_listed_in_quotes(string[] words, string listed) => Assert.Equal(listed, Spelling.List(words));

    [Fact]
    public void A_long_list_of_words_is_cut()
    {
        string listed = Spelling.List([.. Enumerable.Range(0, 30).Select(i => $"s{i}")]);
        Assert.EndsWith("\"s9\" or one of 20 more", listed, StringComparison.Ordinal);
    }
}
