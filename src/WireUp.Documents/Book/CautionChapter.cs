using WireUp.Layouts;
using WireUp.Layouts.Reference;

namespace WireUp.Documents.Book;

/// <summary>The cautions, and what the signs and letters of the book mean.</summary>
internal static class CautionChapter
{
    public const string Title = "Before you start";

    public static void Write(BookFacts facts, BookFlow flow)
    {
        flow.Section(Title);
        flow.Paragraph(
            "This book is about the low-voltage side of a model railway only. Where the law, the electrical code of your country or the "
            + "rules of your club or hall ask for more or for something else, they come first.");
        WriteElectrical(facts, flow);
        WriteWorkshop(flow);
        WriteSigns(facts, flow);
    }

    private static void WriteElectrical(BookFacts facts, BookFlow flow)
    {
        flow.Subheading("Supplies and fire");
        flow.Point(
            "Mains.",
            "Nothing here is advice on mains wiring. Plugs, sockets, distribution and the inside of a supply are for licensed people under "
            + "your local code. Use only supplies that come enclosed and certified, as their makers instruct, and never open one.");
        flow.Point("Heat.", HeatOf(facts));
        flow.Point(
            "Breakers.",
            "A breaker protects only if the current of a short circuit is large enough to trip it. Do the coin test of every district "
            + "before trains run, and again after every change. Never set a breaker higher than this book says, and never bridge one.");
        flow.Point(
            "Attendance.",
            "Do not leave the railway powered when nobody is there. One switch within easy reach should cut every supply, and a lamp should "
            + "show that it is on. Keep to the rules for extinguishers and smoke alarms where you are.");
        flow.Point(
            "Visitors and children.",
            "Leave no bare terminal or bus where fingers or coins can reach it. Children run trains with somebody beside them; tools, hot irons and loose small parts are not for them.");
        if (IsForGardens(facts.Layout))
        {
            flow.Point(
                "In the garden.",
                "Supplies and boosters stay dry and under cover, as their makers ask, and only low voltage goes out. Anything of mains out of doors is for licensed people under "
                + "your local code. Pull the plugs when nobody is there, when it rains on what is not made for it, and when thunder is near.");
        }

        string[] strong = [.. facts.Wiring.Supplies.Where(supply => supply.Class == SupplyClass.Other).Select(supply => $"“{supply.Name}”")];
        if (strong.Length == 0) return;
        flow.Point(
            "Not energy-limited.",
            $"{string.Join(", ", strong)}: {(strong.Length == 1 ? "this supply is" : "these supplies are")} of no energy-limited class. Treat "
            + "everything fed from there as able to start a fire, and protect every wire beyond by a breaker or fuse within the wire’s own rating.");
    }

    /// <summary>Whether it has the gauge of garden railways, 45 mm. Common practice, no published source.</summary>
    private static bool IsForGardens(Layout layout) => ScaleTable.FindOrUsual(layout.Scale).Gauge.Millimeters > 44;

    private static string HeatOf(BookFacts facts)
    {
        double watts = facts.Wiring.Boosters.Select(booster => booster.Volts.Volts * booster.Amps.Amperes).DefaultIfEmpty(0).Max();
        string here = watts > 0
            ? Figure.Text($"The largest booster of this plan can put up to {watts:0} W into one bad joint or a tool across the rails: ")
            : "A booster of 15 V and 5 A can put 75 W into one bad joint or a tool across the rails: ";
        return here + "enough to soften sleepers, to burn a finger and to start a fire. Low voltage does not mean low power.";
    }

    private static void WriteWorkshop(BookFlow flow)
    {
        flow.Subheading("Working on and under the benchwork");
        flow.Point("Power off.", "Switch the supplies off and pull their plugs before you touch a wire. Test first with a source limited to 1 A or less.");
        flow.Point(
            "Eyes.",
            "Wear eye protection whenever you solder, cut or drill, and always when you work overhead: solder drips, wire ends fly, cutting "
            + "discs break. Never solder with your face straight under the joint.");
        flow.Point(
            "Air and skin.",
            "Draw solder fumes away or air the room well. Cover your arms under the benchwork. Put the iron in a stand that cannot tip, and "
            + "wash your hands before you eat.");
        flow.Point("Before you drill.", "Look underneath for wires, and for people.");
    }

    private static void WriteSigns(BookFacts facts, BookFlow flow)
    {
        flow.SectionHere("How to read this book", 90);
        WirePalette palette = facts.Palette;
        Papers papers = facts.Layout.Papers;
        flow.Point("Rail A and rail B.", RailWords(facts.Layout.Control));
        flow.Point(
            "Places.",
            $"“loop@{facts.Lengths.Measure(1.25)}” is {facts.Lengths.Measure(1.25)} along the section “loop”, measured from its end a. “T1.points/left” is the left rail at the points end "
            + "of T1, seen when you look out of the piece. Left and right of a place in a section are seen when you look from a towards b.");
        flow.Point("From below.", "Plans marked so are mirrored: they show what you see when you lie under the benchwork with your head where the top of the page is.");
        flow.Point(
            "Wires.",
            "Every wire has one name, and the name goes on both of its ends: “f12/A” is leg A of feeder f12; “east:3/B” is leg B of the third "
            + "line of bus of district east.");
        flow.Point(
            "Colours.",
            $"{Leg(papers, "A")} is {papers.WithColour(palette.LegA)}, {papers.Leg("B")} is {papers.WithColour(palette.LegB)}, a frog’s wire is {papers.WithColour(palette.Frog)}. {Letters(papers, palette)}; "
            + "the label counts, not the colour.");
        flow.Point("Districts.", "Each power district has a letter, a tint and a hatch. A and B are not used: they name the rails.");
        flow.Point(
            "Lengths.",
            Figure.Text($"“Cut” is the length to cut: the planned length, {facts.Making.Slack.Percent:0.#} % slack, {facts.Lengths.Measure(facts.Making.EndAllowance.Meters)} for each end, rounded up to {facts.Lengths.Measure(facts.Making.Step.Meters)}. Measure before you cut a bus: the plan knows the track, not your framework."));
    }

    private static string RailWords(ControlSystem control) => control == ControlSystem.ThreeRail
        ? "Leg A feeds the centre conductor, leg B both running rails. On the plans A is a solid line and B is long-dashed."
        : "Leg A of every bus feeds rail A, leg B rail B. On the plans rail A is a solid line and rail B is long-dashed.";

    private static string Leg(Papers papers, string leg) => $"L{papers.Leg(leg)[1..]}";

    private static string Letters(Papers papers, WirePalette palette)
    {
        bool[] own = [.. new[] { palette.LegA, palette.LegB, palette.Frog }.Select(papers.Letters.ContainsKey)];
        return own.All(each => each) ? "Letters of this railway" : own.Any(each => each) ? "Letters of this railway, the others by IEC 60757" : "Letters by IEC 60757";
    }
}
