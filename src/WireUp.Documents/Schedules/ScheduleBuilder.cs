using UnitsNet;
using WireUp.Documents.Phases;
using WireUp.Layouts;
using WireUp.Rails;

namespace WireUp.Documents;

/// <summary>Collects the wires of one layout.</summary>
internal sealed class ScheduleBuilder(Layout layout, ScheduleOptions options, Layout? before)
{
    private static readonly string[] Legs = ["A", "B"];

    private readonly WirePalette _palette = WirePalette.Of(layout);
    private readonly (RailSide First, RailSide Second) _sides = RailSides.Of(layout.Control);
    private readonly HashSet<Feeder> _builtFeeders = [.. before?.Wiring.Feeders ?? []];
    private readonly BusLines _busLines = new(before);

    public Schedule Build() => new([.. BusWires(), .. FeederWires(), .. FrogWires()]) { Lengths = layout.Lengths };

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
            $"{feeder.Name}/{leg}",
            WireKind.Feeder,
            feeder.District,
            feeder.When is { } when ? $"{feeder.Tap}, through {when}" : feeder.Tap,
            RailOf(feeder, side),
            feeder.Wire)
        {
            Leg = leg,
            Colour = Colour(leg),
            Length = feeder.Length,
            CutLength = Cut(feeder.Length),
            IsBuilt = _builtFeeders.Contains(feeder),
        };

    private IEnumerable<ScheduledWire> FrogWires()
    {
        MovingContact[] contacts = [.. ContactTable.Of(layout).Contacts.Where(contact => contact.IsWired)];
        if (contacts.Length == 0) return [];
        RailPhases phases = RailPhases.Of(layout);
        Wire wire = options.FrogWire ?? MostCommonFeederWire();
        return contacts.SelectMany(contact => FrogWires(contact, phases, wire));
    }

    /// <summary>Frog to the contact's moving arm, and each of its sides to the rail that the trackwork table names.</summary>
    private IEnumerable<ScheduledWire> FrogWires(MovingContact contact, RailPhases phases, Wire wire)
    {
        Piece piece = phases.Graph.Index.Piece(contact.Owner);
        bool isBuilt = before?.Track.Contains(piece) ?? false;
        bool isOnly = contact.Conductor == TrackworkTable.Frog;
        (string device, string common) = contact.By == ContactKind.Changeover ? ("electronic changeover", "output") : ("contact", "common");
        string id = $"{contact.Owner}:{contact.Conductor}", at = isOnly ? $"{contact.Owner} {device}" : $"{contact.Owner} {device} of {contact.Conductor}";
        ScheduledWire Make(string name, string from, string to, string leg) =>
            new(name, WireKind.Frog, string.Empty, from, to, wire)
            {
                Leg = leg,
                Colour = Colour(leg),
                Length = options.FrogWireLength,
                CutLength = Cut(options.FrogWireLength),
                IsBuilt = isBuilt,
            };

        yield return Make(id, $"{at}, {common}", contact.Name, "F");
        foreach (ContactThrow side in contact.Throws)
        {
            int node = side.Node.Side is { } rail
                ? phases.Graph.NodeAt(new(piece.End(side.Node.Name), rail))
                : phases.Graph.NodeInside(piece.Id, side.Node.Name)!.Value;
            string leg = phases[node] switch { RailPhase.A => "A", RailPhase.B => "B", _ => "F" };
            yield return Make(isOnly ? $"{contact.Owner}:{side.Name}" : $"{id}:{side.Name}", $"{at}, {side.Name}", side.Joins, leg);
        }
    }

    /// <summary>The rail of a section, or of a bridge or the ring under it.</summary>
    private string RailOf(Feeder feeder, RailSide side) => layout.Track.FirstOrDefault(piece => piece.Id == feeder.At.Section) switch
    {
        Piece.Turntable { Feed: BridgeFeed.SplitRing } => $"{feeder.At.Section} ring/{RailSides.Word(side)}",
        Piece.Turntable or Piece.TransferTable => $"{feeder.At.Section} bridge@{layout.Lengths.Measure(feeder.At.MetresFromA)}/{RailSides.Word(side)}",
        _ => PlaceWords.Rail(feeder.At, side, layout.Lengths),
    };

    private Wire MostCommonFeederWire() =>
        layout.Wiring.Feeders.CountBy(feeder => feeder.Wire).OrderByDescending(pair => pair.Value).Select(pair => pair.Key)
            .FirstOrDefault() ?? (layout.WireSizes == WireSystem.Awg ? new Wire.Awg(20) : new Wire.Metric(0.5));

    private string Colour(string leg) => leg switch { "A" => _palette.LegA, "B" => _palette.LegB, _ => _palette.Frog };

    private Length Cut(Length length)
    {
        double metres = (length.Meters * (1 + options.Slack.DecimalFractions)) + (2 * options.EndAllowance.Meters);
        double steps = Math.Ceiling(Math.Round(metres / options.Step.Meters, 6));
        return Length.FromMillimeters(Math.Round(steps * options.Step.Millimeters, 3));
    }
}
