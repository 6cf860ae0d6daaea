using CsCheck;
using WireUp.Documents.Book;

namespace WireUp.Documents.Tests.Book.Exact;

public sealed class TextFlowTests
{
    private static readonly TextStyle Style = new(3, SceneColours.Ink);

    [Fact]
    public void Words_stay_whole_where_they_fit() =>
        Assert.Equal(["the quick", "brown fox"], TextFlow.Lines("the quick  brown fox", 20, Style));

    [Fact]
    public void A_long_name_breaks_after_a_mark_that_separates() =>
        Assert.Equal("engine-terminal/", TextFlow.Lines("engine-terminal/left@1200", TextFlow.Width("engine-terminal/lef", Style), Style)[0]);

    [Fact]
    public void Nothing_is_lost_and_no_line_is_too_wide() =>
        Gen.Select(Gen.Char["abcdefghij -./@Ωé"].Array[0, 80], Gen.Double[2.5, 60]).Sample(
            (letters, width) =>
            {
                string text = new(letters);
                IReadOnlyList<string> lines = TextFlow.Lines(text, width, Style);
                Assert.Equal(text.Replace(" ", string.Empty, StringComparison.Ordinal), string.Concat(lines).Replace(" ", string.Empty, StringComparison.Ordinal));
                Assert.All(lines, line => Assert.True(line.Length <= 1 || TextFlow.Width(line, Style) <= width, $"'{line}' in {width} mm"));
            },
            iter: 300,
            threads: 1);

    [Fact]
    public void An_empty_text_is_one_empty_line() => Assert.Equal([""], TextFlow.Lines("", 20, Style));
}
