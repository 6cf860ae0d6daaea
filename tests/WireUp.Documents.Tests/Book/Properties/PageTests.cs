using WireUp.Checking;
using WireUp.Layouts;
using WireUp.Planning;

namespace WireUp.Documents.Tests.Book.Properties;

public sealed class PageTests
{
    public static TheoryData<string, PaperSize> Books => new()
    {
        { "balloon", PaperSize.A4 }, { "balloon", PaperSize.Letter },
        { "club", PaperSize.Letter },
        { "hostile", PaperSize.A4 },
    };

    [Theory]
    [MemberData(nameof(Books))]
    public void No_words_leave_the_page_or_cover_other_words(string name, PaperSize paper)
    {
        foreach ((int index, Scene page) in TestBook.Pages(Plan(name), new() { Paper = paper, Date = "3 May 2031" }).Index())
        {
            string where = $"{name}, page {index + 1}: ";
            SceneBox paperWithoutEdge = page.Bounds.Grow(-8);
            Assert.Empty(SceneMeasures.TextsOutside(page, paperWithoutEdge).Select(fault => where + fault));
            Assert.Empty(SceneMeasures.TextsOnTexts(page).Select(fault => where + fault));
        }
    }

    private static PlanResult Plan(string name) => name switch
    {
        "balloon" => TestPlans.Balloon,
        "club" => RoughWiring.Plan(TestLayouts.Sample("tarrow-valley")),
        _ => Hostile(),
    };

    /// <summary>Names that are very long or very odd everywhere a name can stand.</summary>
    private static PlanResult Hostile()
    {
        string longName = string.Concat(Enumerable.Repeat("unbreakablename", 20));
        Layout layout = TestLayouts.Balloon with { Name = $"{longName} <script>alert(1)</script> \u202E\"'&" };
        Wiring wiring = layout.Wiring with
        {
            Feeders = [.. layout.Wiring.Feeders.Select(feeder => feeder with { Name = $"{feeder.Name}<b>&{longName}" })],
            Boosters = [.. layout.Wiring.Boosters.Select(booster => booster with { Supply = longName })],
            Supplies = [layout.Wiring.Supplies[0] with { Name = longName, Class = SupplyClass.Other }],
        };
        return TestPlans.Of(layout with { Wiring = wiring }) with
        {
            Findings = [.. Enumerable.Range(1, 40).Select(i => new Finding("WU1001", Severity.Error, $"{longName} {i} {longName}", longName) { Places = ["f1"] })],
            Proposals = [new(longName, ProposalKind.Gap, "T1.diverging", string.Join(' ', Enumerable.Repeat(longName, 30)), longName, 1)],
            Remains = [longName, string.Join(' ', Enumerable.Repeat("much to say", 400))],
            Objectives = [new(longName, 1e9, 1e8)],
            Gauges = [new("east", new Wire.Awg(12), UnitsNet.Ratio.FromPercent(1234567), UnitsNet.ElectricCurrent.FromAmperes(1e7), longName) { Planned = UnitsNet.Length.FromMeters(1e7) }],
        };
    }
}
