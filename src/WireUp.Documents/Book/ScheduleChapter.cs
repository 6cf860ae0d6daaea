using WireUp.Layouts;
using WireUp.Planning.Buses;

namespace WireUp.Documents.Book;

/// <summary>Every wire: bus, feeders, frogs; and the feeders once more by place, for the one who drills.</summary>
internal static class ScheduleChapter
{
    public const string Title = "Wiring schedule";
    public const string FeederTitle = "Feeders by place";

    public static void Write(BookFacts facts, BookFlow flow)
    {
        flow.SectionHere(Title, 90);
        if (!facts.Wires.Any())
        {
            flow.Paragraph(facts.OnlyNew ? "There is no wire to lay." : "There are no wires.");
            if (!facts.OnlyNew) ContactChapter.Write(facts, flow);
            return;
        }

        foreach ((WireKind kind, string heading) in new[]
        {
            (WireKind.Bus, "Bus"), (WireKind.Feeder, "Feeders"), (WireKind.Frog, "Frogs and their contacts"),
        })
        {
            ScheduledWire[] wires = [.. facts.Wires.Where(wire => wire.Kind == kind)];
            if (wires.Length == 0) continue;
            flow.Subheading(heading);
            if (kind == WireKind.Bus)
            {
                flow.Intro("A line of bus is one length of cable through all of its taps: open its insulation at each, and cut it only where a terminal strip stands. Both legs run together.");
            }

            if (kind == WireKind.Frog) flow.Intro("Lengths of these depend on where the contact sits: measure each before you cut.");
            flow.Table(WireTable(facts, wires, kind != WireKind.Frog));
            if (kind == WireKind.Bus) WriteTaps(facts, wires, flow);
        }

        WriteFeeders(facts, flow);
        if (!facts.OnlyNew) ContactChapter.Write(facts, flow);
    }

    /// <summary>Wires in a table; wires of frogs belong to no district.</summary>
    private static Table WireTable(BookFacts facts, ScheduledWire[] wires, bool hasDistricts) => Table.Of(
        [
            Column.Names("Wire"), .. hasDistricts ? (Column[])[new("District")] : [], Column.Wide("From", 2), Column.Wide("To", 3), Column.Sizes("Gauge"), new("Colour"),
            Column.Figures(facts.Lengths.Head("Length")), Column.Figures(facts.Lengths.Head("Cut")), Column.TickBoxes("laid"), Column.TickBoxes("tested"),
        ],
        wires.Select(wire => new Row(
        [
            wire.Id,
            .. hasDistricts ? (string[])[facts.Drawn.Letters.Of(wire.District)] : [],
            wire.From,
            wire.To,
            PlaceWords.Size(wire.Wire),
            wire.Colour,
            facts.Lengths.Bare(wire.Length.Meters),
            wire.IsBuilt ? "built" : facts.Lengths.Bare(wire.CutLength.Meters),
            wire.IsBuilt ? Row.NoBox : string.Empty,
            string.Empty,
        ])));

    private static void WriteTaps(BookFacts facts, ScheduledWire[] wires, BookFlow flow)
    {
        ScheduledWire[] tapped = [.. wires.Where(wire => wire.Leg == "A" && !wire.Taps.IsEmpty)];
        if (tapped.Length == 0) return;
        HashSet<(string, string)> strips = [.. TerminalStrips.Added(Wiring.None, facts.Wiring).Select(strip => (strip.District, strip.Point))];
        flow.Subheading("Where to open the bus");
        flow.Intro($"{PlaceWords.SmallUnit(facts.Lengths)} from the start of each line, without slack; the same for both of its legs. The first and the last point are its ends. Cut it where that is said: a terminal strip stands there.");
        flow.Table(Table.Of(
            [Column.Names("Line"), Column.Wide("Taps between its ends"), Column.TickBoxes("marked")],
            tapped.Select(wire => new Row(
                wire.Id[..^2],
                string.Join(", ", wire.Taps.Select(tap => Figure.Text($"{tap.Point} {facts.Lengths.Bare(tap.FromStart.Meters)}{(strips.Contains((wire.District, tap.Point)) ? " (cut)" : string.Empty)}"))),
                string.Empty))));
    }

    private static void WriteFeeders(BookFacts facts, BookFlow flow)
    {
        if (!facts.Feeders.Any()) return;
        flow.SectionHere(FeederTitle, 60);
        flow.Intro("In the order of the track, for drilling and soldering. Leg A goes to the rail named; leg B to the other.");
        (RailSide first, RailSide second) = RailSides.Of(facts.Layout.Control);
        Dictionary<PieceId, int> order = facts.Layout.Track.Index().ToDictionary(pair => pair.Item.Id, pair => pair.Index);
        flow.Table(Table.Of(
            [
                Column.Wide("Section"), Column.Figures(facts.Lengths == LengthStyle.Feet ? "From a" : "mm from a"), Column.Names("Feeder"), new("A to"), new("District"),
                Column.Wide("Tap"), Column.Sizes("Gauge"), Column.TickBoxes("drilled"), Column.TickBoxes("soldered"), Column.TickBoxes("tapped"),
            ],
            facts.Feeders
                .OrderBy(feeder => order.GetValueOrDefault(feeder.At.Section, int.MaxValue)).ThenBy(feeder => feeder.At.MetresFromA)
                .Select(feeder => new Row(
                    feeder.At.Section.Name,
                    facts.Lengths.Bare(feeder.At.MetresFromA),
                    feeder.Name,
                    RailSides.Word(feeder.Swap ? second : first),
                    facts.Drawn.Letters.Of(feeder.District),
                    feeder.Tap,
                    PlaceWords.Size(feeder.Wire),
                    string.Empty,
                    string.Empty,
                    string.Empty))));
    }
}
