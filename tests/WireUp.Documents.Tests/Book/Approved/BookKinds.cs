using System.Collections.Immutable;
using WireUp.Checking;
using WireUp.Layouts;
using WireUp.Planning;

namespace WireUp.Documents.Tests.Book.Approved;

/// <summary>A page of each kind that the papers have, of one railway with boards, two districts, live frogs and everything else that makes pages.</summary>
internal static class BookKinds
{
    private static readonly Layout Wired = LayoutFile.Read(RepoFiles.ReadText("tests/WireUp.Documents.Tests/Book/Approved/heron-sound.layout.yaml"), "heron-sound").Layout!;

    /// <summary>The kinds: name of the file, and how the page's title ends or what heading stands on it.</summary>
    private static readonly ImmutableArray<(string Name, string Title)> Kinds =
    [
        ("before-you-start", "Before you start"), ("plan-above", "Plan from above"), ("plan-below", "Plan from below, mirrored"), ("power", "Power"),
        ("volts-on-plan", "Volts on the plan"), ("fault-on-plan", "Fault current on the plan"), ("volts-along-route", "Volts along a route"),
        ("findings", "Findings"), ("schedule", "Wiring schedule"), ("contacts", "Contacts and switches"), ("strips", "Terminal strips and bus points"),
        ("shopping", "Shopping list"), ("cut-list", "Cut list"), ("district", "District C quarry"), ("board", "Board west"), ("board-above", "Board west from above"),
        ("board-below", "Board west from below, mirrored"), ("tests", "Breaker settings"), ("handover", "Handover sheet"),
    ];

    /// <summary>Every kind with its page.</summary>
    public static ImmutableArray<(string Name, Scene Page)> Pages { get; } = Make();

    private static ImmutableArray<(string Name, Scene Page)> Make()
    {
        PlanResult plan = Plan();
        ImmutableArray<Scene> book = WiringBook.Pages(plan, new());
        return
        [
            ("cover", book[0]),
            .. Kinds.Select(kind => (kind.Name, PageOf(book, kind.Title))),
            ("labels", LabelSheets.Pages(plan.After, new([.. Schedule.Of(plan.After).Wires.Take(8)]), new(UnitsNet.Length.FromMillimeters(38.1), UnitsNet.Length.FromMillimeters(21.2)))[0]),
            ("changes", ChangeDrawing.Draw(ChangeList.Of(plan.Before with { Wiring = plan.After.Wiring with { Feeders = plan.After.Wiring.Feeders[..^2] } }, plan.After))),
        ];
    }

    /// <summary>A section may begin below another one: then only its heading says so.</summary>
    private static Scene PageOf(ImmutableArray<Scene> book, string title) =>
        book.FirstOrDefault(page => page.Title.EndsWith($": {title}", StringComparison.Ordinal)) ?? book.Skip(1).First(page => page.Texts.Any(text => text.Content == title && text.Style.Bold));

    /// <summary>Made by hand where the planner and the check would say it, so that the pages follow only what prints them and the circuit.</summary>
    private static PlanResult Plan() => TestPlans.Of(Wired) with
    {
        Proposals =
        [
            new("gap-1", ProposalKind.Gap, "quarry-lead.a", "The border of district “quarry”, in both rails.", "Districts are parted by double gaps", 2),
            new("quarry", ProposalKind.District, "quarry-lead", "Wanted as a district of its own: a short in the quarry leaves the main line running.", "Asked for in the layout file", 10),
        ],
        Objectives = [new("districts", 2, 2), new("feeders", 7, 7)],
        Gauges = [new("d1", new Wire.Metric(1.5), UnitsNet.Ratio.FromPercent(1.4), UnitsNet.ElectricCurrent.FromAmperes(44), string.Empty) { Planned = UnitsNet.Length.FromMeters(6.33) }],
        Findings = [new("WU3017", Severity.Advice, "The open blade of “T1” has the polarity opposite to its stock rail.", "Gauge the wheel sets and keep the blades well open.") { Places = ["T1.points"] }],
    };
}
