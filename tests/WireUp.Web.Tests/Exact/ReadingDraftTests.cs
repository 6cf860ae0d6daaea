using System.Collections.Immutable;
using WireUp.Faults;
using WireUp.Layouts;
using WireUp.Web.Desk;

namespace WireUp.Web.Tests.Exact;

public sealed class ReadingDraftTests
{
    private static readonly Layout Branch = LayoutFile.Read(RepoFiles.ReadText("sample-layouts/slate-branch.layout.yaml"), "slate-branch").Layout!;

    private static readonly ImmutableSortedDictionary<PieceId, string> Thrown =
        ImmutableSortedDictionary<PieceId, string>.Empty.Add(new("T2"), "diverging");

    public static TheoryData<string, string, string> Said => new()
    {
        { "volts", "4,7", "4.7 V at quarry-3@0.5 m under 0.5 A when T2.diverging" },
        { "volts", "400 mV", "0.4 V at quarry-3@0.5 m under 0.5 A when T2.diverging" },
        { "stops", "", "stops at quarry-3@0.5 m when T2.diverging" },
        { "pressing", "", "pressing at quarry-3@0.5 m helps when T2.diverging" },
    };

    [Theory]
    [MemberData(nameof(Said))]
    public void What_the_form_holds_is_read_as_the_sentence_it_means(string kind, string value, string meant)
    {
        ReadingDraft draft = new(kind) { Value = value, At = "quarry-3@0.5 m", Load = "0.5" };
        Assert.Equal(meant, LayoutWords.Sentence(Branch, draft.Sentence(Thrown)).Value?.ToString());
    }

    [Theory]
    [InlineData("ohms", "60 ohm", "60 ohm from quarry-1.b/left to quarry-2.a/right")]
    [InlineData("along", "9.6", "9.6 V from quarry-1.b/left to quarry-2.a/right under 0.5 A at quarry-3@0.5 m")]
    [InlineData("continuity", "", "no continuity from quarry-1.b/left to quarry-2.a/right")]
    public void Readings_between_points_name_both(string kind, string value, string meant)
    {
        ReadingDraft draft = new(kind) { Value = value, IsYes = false, At = "quarry-1.b/left", To = "quarry-2.a/right", Load = "0.5 A", LoadAt = "quarry-3@0.5 m" };
        Assert.Equal(meant, LayoutWords.Sentence(Branch, draft.Sentence([])).Value?.ToString());
    }

    [Fact]
    public void A_sentence_of_ones_own_keeps_the_positions_it_names_and_else_takes_those_of_the_plan()
    {
        ReadingDraft silent = new("sentence") { At = "stops at quarry-3@0.5 m" };
        Assert.Equal("stops at quarry-3@0.5 m when T2.diverging", silent.Sentence(Thrown));
        Assert.Equal("stops at quarry-3@0.5 m when T2.through", (silent with { At = "stops at quarry-3@0.5 m when T2.through" }).Sentence(Thrown));
        Assert.Equal("14 V at quarry-3@0.5 m when T2.diverging fed with 12 V up to 1 A at booster b", (silent with { At = "14 V at quarry-3@0.5 m fed with 12 V up to 1 A at booster b" }).Sentence(Thrown));
    }

    [Fact]
    public void Every_suggestion_put_into_the_form_with_a_value_is_the_reading_that_was_suggested()
    {
        ReadingSet set = ReadingsFile.Read(Branch, RepoFiles.ReadText("sample-layouts/slate-branch.readings.yaml"), "readings").Readings!
            with
        { Tools = ReadingTools.Usual | ReadingTools.Clamp | ReadingTools.Supply };
        ImmutableArray<NextReading> next = FaultSearch.Rank(Branch, set, options: new() { MostNext = 20 }, cancel: TestContext.Current.CancellationToken)!.Next;
        Assert.NotEmpty(next);
        Assert.All(next, suggested =>
        {
            ReadingDraft draft = ReadingDraft.ToMake(suggested.Reading) with { Value = "0" };
            string said = draft.Sentence(suggested.Reading.Settings.Select(setting => KeyValuePair.Create(setting.Owner, setting.Position)));
            Assert.Equal(suggested.Reading.ToString(), LayoutWords.Sentence(Branch, said).Value?.ToString());
        });
    }
}
