using WireUp.Layouts.Reference;

namespace WireUp.Layouts.Tests.Exact;

public sealed class SymptomTableTests
{
    [Theory]
    [InlineData("short when the turnout moves", "short while a turnout is moving")]
    [InlineData("the short comes only when a turnout is thrown", "short only when a turnout is thrown one way")]
    [InlineData("fails only in summer", "fault only in summer or winter")]
    [InlineData("one locomotive stops", "only one locomotive stops")]
    [InlineData("locomotives run away", "locomotives run away")]
    [InlineData("coin does not trip breaker", "a coin does not trip the breaker but sparks or glows")]
    [InlineData("trips when switched on", "trips at switching on")]
    public void A_symptom_in_other_words_is_found(string said, string symptom) =>
        Assert.Contains(symptom, SymptomTable.Matching(said).Select(row => row.Symptom));

    [Fact]
    public void The_nearest_symptom_stands_alone_where_it_is_nearer_than_all_others() =>
        Assert.Equal("short while a turnout is moving", Assert.Single(SymptomTable.Matching("short when the turnout moves")).Symptom);

    [Theory]
    [InlineData("")]
    [InlineData("it is the")]
    [InlineData("the kettle sings")]
    public void What_is_no_symptom_finds_nothing(string said) => Assert.Empty(SymptomTable.Matching(said));

    [Fact]
    public void Every_row_is_found_by_its_own_words_and_says_what_it_likely_is() => Assert.All(SymptomTable.Rows, row =>
    {
        Assert.Contains(row, SymptomTable.Matching(row.Symptom));
        Assert.NotEmpty(row.Likely);
        Assert.Equal(Standing.CommonPractice, row.Standing);
    });
}
