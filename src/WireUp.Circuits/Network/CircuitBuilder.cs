using UnitsNet;
using WireUp.Layouts;
using WireUp.Layouts.Reference;
using WireUp.Rails;

namespace WireUp.Circuits.Network;

/// <summary>Puts rails and wiring together into a <see cref="Circuit"/>, turnouts standing as told.</summary>
internal sealed class CircuitBuilder
{
    private readonly Layout _layout;
    private readonly IReadOnlyDictionary<PieceId, string> _positions;
    private readonly bool _splitsTaps;
    private readonly Dictionary<string, int> _sourceOf = new(StringComparer.Ordinal);
    private readonly Dictionary<(string District, string Point), (int A, int B)> _busPoints = [];
    private readonly Dictionary<RailMaterial, double> _railOhmsPerMetre = [];
    private (PieceId Section, double OhmsPerMetre) _lastSection;

    private CircuitBuilder(RailGraph graph, IReadOnlyDictionary<PieceId, string> positions, bool splitsTaps)
    {
        Graph = graph;
        _layout = graph.Layout;
        (_positions, _splitsTaps) = (positions, splitsTaps);
        Elements.EnsureCapacity(graph.Links.Length + (4 * _layout.Wiring.Feeders.Length));
    }

    internal RailGraph Graph { get; }

    internal List<string> WireNodes { get; } = [];

    internal List<CircuitElement> Elements { get; } = [];

    internal List<CircuitSource> Sources { get; } = [];

    internal List<DistrictStart> Districts { get; } = [];

    internal List<TrackSegment> Segments { get; } = [];

    internal List<(int First, int Second)> Pairs { get; } = [];

    private Temperature Temperature => _layout.Defaults.Temperature;

    /// <param name="graph">The rails.</param>
    /// <param name="positions">Positions of turnouts and switches; one that is not named stands in its first.</param>
    /// <param name="splitsTaps">Whether the bare end of each feeder's wire at its tap is a node: the tap is then an element, and the wire another.</param>
    internal static Circuit Build(RailGraph graph, IReadOnlyDictionary<PieceId, string> positions, bool splitsTaps = false)
    {
        CircuitBuilder builder = new(graph, positions, splitsTaps);
        builder.AddSections();
        builder.AddLinks();
        builder.AddBoosters();
        builder.AddDistricts();
        builder.AddBuses();
        builder.AddFeeders();
        return new(builder);
    }

    private void AddSections()
    {
        foreach (Piece piece in _layout.Track.Where(piece => piece.PlacesMetres is not null))
        {
            double perMetre = SectionOhmsPerMetre(piece.Id) * Layouts.Reference.RailTable.RailsInLoop(_layout.Control);
            System.Collections.Immutable.ImmutableArray<Station> stations = Graph.Stations(piece.Id);
            for (int i = 0; i < stations.Length; i++)
            {
                Station here = stations[i];
                Pairs.Add((here.FirstTowardsA, here.SecondTowardsA));
                Pairs.Add((here.FirstTowardsB, here.SecondTowardsB));
                if (i > 0)
                {
                    Station before = stations[i - 1];
                    Segments.Add(new(piece.Id, before.Metres, here.Metres, before.FirstTowardsB, before.SecondTowardsB,
                        here.FirstTowardsA, here.SecondTowardsA, perMetre * (here.Metres - before.Metres)));
                }
            }
        }
    }

    private void AddLinks()
    {
        foreach (RailLink link in Graph.Links)
        {
            switch (link)
            {
                case RailLink.Rail rail:
                    double ohms = SectionOhmsPerMetre(rail.Section) * rail.LengthMetres;
                    Add(rail, rail.Side == RailSide.Running ? ohms / 2 : ohms, ElementKind.Rail);
                    break;
                case RailLink.Bond bond:
                    Add(bond, TrackworkOhms(bond.LengthMetres, IsRunning(bond.From)), ElementKind.Trackwork);
                    break;
                case RailLink.Contact contact when contact.Position == PositionOf(contact.Piece):
                    Add(contact, ContactOhms(contact), ElementKind.Trackwork);
                    break;
                case RailLink.Contact:
                    break;
                case RailLink.Through through:
                    Add(through, JointOhms(through.Joint) / (through.Side == RailSide.Running ? 2 : 1), ElementKind.Joint);
                    break;
                default:
                    throw new InvalidOperationException($"not a kind of link: {link}");
            }
        }
    }

    private void AddBoosters()
    {
        foreach (Booster booster in _layout.Wiring.Boosters)
        {
            int minus = AddNode($"{booster.Name}/B"), terminal = AddNode($"{booster.Name}/A"), plus = AddNode($"{booster.Name}/source");
            _sourceOf[booster.Name] = Sources.Count;
            Sources.Add(new(booster, minus, plus, terminal));
            Add(plus, terminal, booster.Resistance.Ohms, ElementKind.BoosterOutput);
            Pairs.Add((terminal, minus));
        }
    }

    /// <summary>A bus starts at the point that bears its booster's name: leg A behind the breaker, leg B at the booster itself.</summary>
    private void AddDistricts()
    {
        foreach (District district in _layout.Wiring.Districts)
        {
            if (_sourceOf.TryGetValue(district.Booster, out int source))
            {
                int start = AddNode($"{district.Name}:{district.Booster}/A");
                Districts.Add(new(district, source, start, Elements.Count));
                Add(Sources[source].Terminal, start, district.Resistance.Ohms, ElementKind.Breaker);
                _busPoints[(district.Name, district.Booster)] = (start, Sources[source].Minus);
                Pairs.Add((start, Sources[source].Minus));
            }
        }
    }

    private void AddBuses()
    {
        foreach (Bus bus in _layout.Wiring.Buses)
        {
            foreach (BusRun run in bus.Runs)
            {
                double ohms = (Conductors.OhmsPerMetre(run.Wire, Temperature) * run.Length.Meters)
                    + (run.Connectors * _layout.Defaults.Connector.Ohms);
                ((int fromA, int fromB), (int toA, int toB)) = (BusPoint(bus.District, run.From), BusPoint(bus.District, run.To));
                Add(fromA, toA, ohms, ElementKind.Bus);
                Add(fromB, toB, ohms, ElementKind.Bus);
            }
        }
    }

    private void AddFeeders()
    {
        foreach (Feeder feeder in _layout.Wiring.Feeders)
        {
            (int a, int b) = BusPoint(feeder.District, feeder.Tap);
            (int railA, int railB) = FeederPoints.Of(Graph, feeder);
            AddFeederLeg(feeder, Leg.A, a, railA);
            AddFeederLeg(feeder, Leg.B, b, railB);
        }
    }

    private void AddFeederLeg(Feeder feeder, Leg leg, int bus, int rail)
    {
        double tap = _layout.Defaults.Tap.Ohms, wire = Conductors.OhmsPerMetre(feeder.Wire, Temperature) * feeder.Length.Meters;
        if (!_splitsTaps)
        {
            Add(bus, rail, tap + wire, ElementKind.Feeder);
            return;
        }

        int end = AddNode(TapName(feeder.Name, leg));
        Add(bus, end, tap, ElementKind.Feeder);
        Add(end, rail, wire, ElementKind.Feeder);
    }

    /// <summary>Name of the node at the bare end of a feeder's wire, where taps are split.</summary>
    internal static string TapName(string feeder, Leg leg) => $"{feeder}/tap {leg}";

    private (int A, int B) BusPoint(string district, string point)
    {
        if (!_busPoints.TryGetValue((district, point), out (int A, int B) nodes))
        {
            nodes = (AddNode($"{district}:{point}/A"), AddNode($"{district}:{point}/B"));
            _busPoints[(district, point)] = nodes;
            Pairs.Add(nodes);
        }

        return nodes;
    }

    private int AddNode(string name)
    {
        WireNodes.Add(name);
        return Graph.Nodes.Length + WireNodes.Count - 1;
    }

    private void Add(RailLink link, double ohms, ElementKind kind) => Add(link.From, link.To, ohms, kind);

    private void Add(int from, int to, double ohms, ElementKind kind)
    {
        if (!(ohms >= 0) || !double.IsFinite(ohms))
        {
            throw new ArgumentOutOfRangeException(nameof(ohms), ohms, $"resistance of a {kind} [0–∞ ohm)");
        }

        Elements.Add(new(from, to, ohms, kind));
    }

    /// <summary>
    /// A blade or frog contact counts as its own resistance and its length of rail, or the wire to the frog; where a contact closes a joint,
    /// the joint's own resistance.
    /// </summary>
    private double ContactOhms(RailLink.Contact contact)
    {
        bool isJoint = Graph.Nodes[contact.From] is RailPoint.AtEnd from && Graph.Nodes[contact.To] is RailPoint.AtEnd to
            && Graph.Index.Opposite(from.Rail.End) == to.Rail.End;
        return isJoint
            ? JointOhms(Graph.Index.JointAt(((RailPoint.AtEnd)Graph.Nodes[contact.From]).Rail.End)!)
            : _layout.Defaults.Contact.Ohms + (contact.HasWire ? FrogWireOhms() : TrackworkOhms(contact.LengthMetres, running: false));
    }

    private double FrogWireOhms() =>
        _layout.Defaults.FrogWire is { } wire ? Conductors.OhmsPerMetre(wire.Wire, Temperature) * wire.Length.Meters : 0;

    private double TrackworkOhms(double metres, bool running) =>
        metres == 0 ? 0 : OhmsPerMetre(_layout.Defaults.Rail) * metres / (running ? 2 : 1);

    /// <summary>Links of one section follow each other.</summary>
    private double SectionOhmsPerMetre(PieceId section)
    {
        if (!ReferenceEquals(_lastSection.Section.Name, section.Name))
        {
            RailMaterial? rail = (Graph.Index.Piece(section) as Piece.Section)?.Rail;
            _lastSection = (section, OhmsPerMetre(rail ?? _layout.Defaults.Rail));
        }

        return _lastSection.OhmsPerMetre;
    }

    private double OhmsPerMetre(RailMaterial material)
    {
        if (material.OhmsPerMetre is { } measured)
        {
            return measured;
        }

        if (!_railOhmsPerMetre.TryGetValue(material, out double ohms))
        {
            _railOhmsPerMetre[material] = ohms = RailTable.OhmsPerMetre(material, Temperature);
        }

        return ohms;
    }

    private double JointOhms(Joint joint) => joint.Resistance?.Ohms ?? joint.Kind switch
    {
        JointKind.Joiner => _layout.Defaults.Joiner.Ohms,
        JointKind.Soldered => _layout.Defaults.Soldered.Ohms,
        _ => throw new ArgumentOutOfRangeException(nameof(joint), joint.Kind, "not a kind of joint"),
    };

    private bool IsRunning(int node) => Graph.Nodes[node] is RailPoint.AtEnd { Rail.Side: RailSide.Running };

    private string? PositionOf(PieceId piece) =>
        _positions.TryGetValue(piece, out string? position)
            ? position
            : Graph.PositionsOf(piece).FirstOrDefault();
}
