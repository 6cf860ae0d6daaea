using WireUp.Layouts;

namespace WireUp.Documents.Book;

/// <summary>A sheet for each district, to be handed to whoever wires it: its device, its bus, its feeders, its gaps, its tests.</summary>
internal static class DistrictChapter
{
    public const string Title = "District sheets";

    /// <summary>Whether there are such sheets: a single district has all of the other chapters.</summary>
    public static bool IsWritten(BookFacts facts) => facts.Wiring.Districts.Length > 1;

    public static void Write(BookFacts facts, BookFlow flow, CancellationToken cancellation)
    {
        if (!IsWritten(facts)) return;
        foreach ((int index, District district) in facts.Wiring.Districts.Index())
        {
            flow.SectionOnPage(index == 0 ? Title : string.Empty, $"District {facts.District(district.Name)}");
            WriteDevice(facts, district, flow);
            WriteBus(facts, district, flow);
            WriteFeeders(facts, district, flow);
            WriteGaps(facts, district, flow);
            WriteTests(facts, district, flow);
            cancellation.ThrowIfCancellationRequested();
            DistrictPlan.Write(facts, district, flow, cancellation);
        }
    }

    private static void WriteDevice(BookFacts facts, District district, BookFlow flow)
    {
        Booster? booster = facts.BoosterOf(district.Name);
        string from = booster is null ? district.Booster : Figure.Text($"booster {booster.Name} ({booster.Volts.Volts:0.##} V, {booster.Amps.Amperes:0.##} A)");
        flow.Paragraph($"{(district.Reversing ? "Auto-reverser" : "Breaker")} set to trip at {Figure.Amps(district.Trip)}, fed by {from}. Leg A is {facts.Layout.Papers.WithColour(facts.Palette.LegA)}, leg B is {facts.Layout.Papers.WithColour(facts.Palette.LegB)}.");
    }

    private static void WriteBus(BookFacts facts, District district, BookFlow flow)
    {
        ScheduledWire[] lines = [.. facts.Schedule.Wires.Where(wire => wire.Kind == WireKind.Bus && wire.District == district.Name && wire.Leg == "A")];
        if (lines.Length == 0) return;
        flow.Subheading("Bus");
        flow.Table(Table.Of(
            [Column.Names("Line, both legs"), Column.Wide("From"), Column.Wide("To"), Column.Sizes("Gauge"), Column.Figures(facts.Lengths.Head("Cut")), Column.TickBoxes("laid"), Column.TickBoxes("tested")],
            lines.Select(line => new Row(
                line.Id[..^2], line.From, line.To, PlaceWords.Size(line.Wire), line.IsBuilt ? "built" : facts.Lengths.Bare(line.CutLength.Meters), line.IsBuilt ? Row.NoBox : string.Empty, string.Empty))));
    }

    private static void WriteFeeders(BookFacts facts, District district, BookFlow flow)
    {
        ScheduledWire[] legs = [.. facts.Schedule.Wires.Where(wire => wire.Kind == WireKind.Feeder && wire.District == district.Name && wire.Leg == "A")];
        if (legs.Length == 0) return;
        flow.Subheading("Feeders");
        flow.Table(Table.Of(
            [Column.Names("Feeder"), Column.Wide("Leg A to"), Column.Wide("Tap"), Column.Sizes("Gauge"), Column.Figures($"{facts.Lengths.Head("Cut")}, twice"), Column.TickBoxes("soldered"), Column.TickBoxes("tapped"), Column.TickBoxes("tested")],
            legs.Select(leg => new Row(
                leg.Id[..^2], leg.To, leg.From, PlaceWords.Size(leg.Wire), leg.IsBuilt ? "built" : facts.Lengths.Bare(leg.CutLength.Meters), leg.IsBuilt ? Row.NoBox : string.Empty, leg.IsBuilt ? Row.NoBox : string.Empty, string.Empty))));
    }

    private static void WriteGaps(BookFacts facts, District district, BookFlow flow)
    {
        (string Label, Gap Gap, string[] Districts)[] gaps = [.. facts.Gaps.Select(gap => (gap.Label, gap.Gap, GapDistricts.Of(facts, gap.Gap))).Where(gap => gap.Item3.Contains(district.Name))];
        if (gaps.Length == 0) return;
        flow.Subheading("Gaps within it and at its borders");
        flow.Table(Table.Of(
            [Column.Names("Gap"), Column.Wide("Where", 2), new("Rails"), Column.Wide("Beyond it", 2), Column.TickBoxes("open")],
            gaps.Select(gap => new Row(
                gap.Label,
                PlaceWords.Place(gap.Gap.At, facts.Lengths),
                PlaceWords.Rails(gap.Gap, facts.Layout.Control),
                string.Join(", ", gap.Districts.Where(other => other != district.Name).Select(facts.District)),
                string.Empty))));
    }

    private static void WriteTests(BookFacts facts, District district, BookFlow flow)
    {
        if (facts.CoinTests.FirstOrDefault(coin => coin.Power.District == district.Name) is not { Power: var power } coin) return;
        flow.Subheading("Tests");
        flow.Table(Table.Of(
            [Column.Wide("What", 2), Column.Wide("Expected", 3), new("Measured"), Column.TickBoxes("passed")],
            [
                new Row("Between legs A and B, everything disconnected", "more than 100 kΩ", "________", string.Empty),
                new Row(
                    $"Volts at {facts.Place(power.LowestFault.At)}, with 1 A",
                    Figure.FineVolts(facts.VoltsUnder(UnitsNet.ElectricCurrent.FromAmperes(1), power, power.LowestFault)),
                    "________",
                    string.Empty),
                new Row(
                    coin.TripsInTime ? $"Coin at {facts.Place(power.LowestFault.At)}, three times" : $"No coin yet at {facts.Place(power.LowestFault.At)}",
                    $"{coin.Verdict}; {Figure.Amps(power.LowestFault.FaultCurrent)}, {Figure.Times(power.FaultOverTrip)} its trip{(coin.TripsInTime ? string.Empty : $"; {coin.Remedy} first")}",
                    string.Empty,
                    coin.Box),
            ]));
    }
}

/// <summary>Which districts meet at a gap.</summary>
internal static class GapDistricts
{
    /// <summary>The districts of the rails to both sides; one where both are of the same.</summary>
    public static string[] Of(BookFacts facts, Gap gap) =>
        [.. Nodes(facts, gap).Select(facts.Drawn.Phases.DistrictOf).OfType<string>().Distinct()];

    private static IEnumerable<int> Nodes(BookFacts facts, Gap gap)
    {
        (RailSide first, RailSide second) = RailSides.Of(facts.Layout.Control);
        Rails.RailGraph graph = facts.Drawn.Phases.Graph;
        if (gap.At is GapPlace.InSection { Place: var place })
        {
            return graph.Stations(place.Section).Where(station => Math.Abs(station.Metres - place.MetresFromA) < 1e-6)
                .SelectMany(station => new[] { station.FirstTowardsA, station.FirstTowardsB, station.SecondTowardsA, station.SecondTowardsB });
        }

        TrackEnd end = ((GapPlace.InJoint)gap.At).End;
        TrackEnd[] ends = facts.Drawn.Index.Opposite(end) is { } other ? [end, other] : [end];
        return ends.SelectMany(at => new[] { graph.NodeAt(new(at, first)), graph.NodeAt(new(at, second)) });
    }
}
