using UnitsNet;
using WireUp.Documents.Phases;
using WireUp.Layouts;
using WireUp.Rails;

namespace WireUp.Documents;

/// <summary>Collects the wires of one layout.</summary>
internal sealed class ScheduleBuilder(Layout layout, ScheduleOptions options, Layout? before)
{
    private static readonly string[] Legs = ["A", "B"];

    private readonly WirePalette _palette = options.Palette ?? WirePalette.For(layout.Control);
    private readonly (RailSide First, RailSide Second) _sides = RailSides.Of(layout.Control);
    private readonly HashSet<Feeder> _builtFeeders = [.. before?.Wiring.Feeders ?? []];
    private readonly BusLines _busLines = new(before);

    public Schedule Build() => new([.. BusWires(), .. FeederWires(), .. FrogWires()]);

    private IEnumerable<ScheduledWire> BusWires() =>
        from bus in layout.Wiring.Buses
        from line in _busLines.Of(bus)
        from leg in Legs
        select new ScheduledWire($"{line.Name}/{leg}", WireKind.Bus, bus.District, line.Points[0], line.Points[^1], line.Wire)
        {
            Leg = leg,
            Colour = Colour(leg),
            Length = line.Length,
            CutLength = Cut(line.Length),
            Taps = [.. line.Taps()],
            IsBuilt = _busLines.IsBuilt(bus, line.Runs[0]),
        };

    private IEnumerable<ScheduledWire> FeederWires() =>
        from feeder in layout.Wiring.Feeders
        from leg in Legs
        let side = (leg == "A") != feeder.Swap ? _sides.First : _sides.Second
        select new ScheduledWire(
            $"{feeder.Name}/{leg}", WireKind.Feeder, feeder.District, feeder.Tap, PlaceWords.Rail(feeder.At, side), feeder.Wire)
        {
            Leg = leg,
            Colour = Colour(leg),
            Length = feeder.Length,
            CutLength = Cut(feeder.Length),
            IsBuilt = _builtFeeders.Contains(feeder),
        };

    private IEnumerable<ScheduledWire> FrogWires()
    {
        Piece.Turnout[] turnouts = [.. layout.Track.OfType<Piece.Turnout>()
            .Where(turnout => turnout is { Frog: FrogKind.Isolated, Feed: FrogFeed.Contact })];
        if (turnouts.Length == 0) return [];
        RailPhases phases = RailPhases.Of(layout);
        Wire wire = options.FrogWire ?? MostCommonFeederWire();
        return turnouts.SelectMany(turnout => FrogWires(turnout, phases, wire));
    }

    /// <summary>Frog to the contact's moving arm, and each of its two sides to the rail that the trackwork table names.</summary>
    private IEnumerable<ScheduledWire> FrogWires(Piece.Turnout turnout, RailPhases phases, Wire wire)
    {
        bool isBuilt = before?.Track.Contains(turnout) ?? false;
        ScheduledWire Make(string end, string from, string to, string leg) =>
            new($"{turnout.Id}:{end}", WireKind.Frog, string.Empty, from, to, wire)
            {
                Leg = leg,
                Colour = Colour(leg),
                Length = options.FrogWireLength,
                CutLength = Cut(options.FrogWireLength),
                IsBuilt = isBuilt,
            };

        yield return Make("frog", $"{turnout.Id} contact, common", $"{turnout.Id}/frog", "F");
        foreach (SwitchedBond bond in TrackworkTable.Of(turnout, layout.Control).Switched)
        {
            RailEnd rail = new(turnout.End(bond.To.Name), bond.To.Side!.Value);
            string leg = phases[phases.Graph.NodeAt(rail)] switch { RailPhase.A => "A", RailPhase.B => "B", _ => "F" };
            yield return Make(bond.Position, $"{turnout.Id} contact, {bond.Position}", rail.ToString(), leg);
        }
    }

    private Wire MostCommonFeederWire() =>
        layout.Wiring.Feeders.CountBy(feeder => feeder.Wire).OrderByDescending(pair => pair.Value).Select(pair => pair.Key)
            .FirstOrDefault() ?? new Wire.Metric(0.5);

    private string Colour(string leg) => leg switch { "A" => _palette.LegA, "B" => _palette.LegB, _ => _palette.Frog };

    private Length Cut(Length length)
    {
        double metres = (length.Meters * (1 + options.Slack.DecimalFractions)) + (2 * options.EndAllowance.Meters);
        double steps = Math.Ceiling(Math.Round(metres / options.Step.Meters, 6));
        return Length.FromMillimeters(Math.Round(steps * options.Step.Millimeters, 3));
    }
}
