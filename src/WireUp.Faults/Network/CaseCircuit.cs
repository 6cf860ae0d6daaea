using System.Collections.Immutable;
using WireUp.Circuits.Network;
using WireUp.Circuits.Numerics;
using WireUp.Layouts;
using WireUp.Rails;

namespace WireUp.Faults.Network;

/// <summary>The healthy circuit of one case, factorised: what every fault is a small change of.</summary>
/// <remarks>
/// Parts of the circuit that nothing joins, such as a dead siding or, power off, each leg of each bus, hang on the first booster's
/// terminal B by one resistance of insulation each, so that there is one circuit whatever a fault cuts or joins.
/// </remarks>
internal sealed class CaseCircuit
{
    /// <summary>What holds parts together that no metal joins, ohm.</summary>
    internal const double InsulationOhms = 1e8;

    /// <summary>Parts that can fail are never without any resistance, ohm.</summary>
    private const double LeastOhms = 1e-4;

    private readonly int[] _elementOfLink;
    private readonly int _firstWire;
    private readonly int[] _part;
    private readonly HashSet<int> _fed;
    private readonly BridgeTree _bridges;
    private readonly HalfSolveWorkspace _solver;
    private readonly HalfSolution _half = new(), _otherHalf = new();

    private CaseCircuit(NodalModel model, int[] elementOfLink, DisjointSetsWorkspace parts, CircuitCase given)
    {
        (Model, Case, _elementOfLink) = (model, given, elementOfLink);
        _part = parts.Numbers();
        _fed = [.. model.Circuit.Sources.Select(source => _part[source.Minus])];
        _firstWire = elementOfLink.Length == 0 ? 0 : elementOfLink.Max() + 1;
        Potentials = model.Potentials([]);
        _bridges = new(model.Unknowns.Count, model.System.From, model.System.To);
        _solver = new(model.Factor);
    }

    internal NodalModel Model { get; }

    internal CircuitCase Case { get; }

    internal Circuit Circuit => Model.Circuit;

    /// <summary>Of all unknowns, no load drawing.</summary>
    internal double[] Potentials { get; }

    /// <summary>The circuit of a case, or null where the layout has no booster or the circuit has no solution.</summary>
    /// <param name="graph">The rails with every place that is read; built of the layout itself.</param>
    /// <param name="given">The case.</param>
    internal static CaseCircuit? Build(RailGraph graph, CircuitCase given)
    {
        RailGraph fed = given.Supply is { } supply ? RailGraph.Build(Fed(graph.Layout, supply), Places(graph)) : graph;
        Circuit circuit = CircuitBuilder.Build(fed, given.Positions, splitsTaps: true);
        if (circuit.Sources.IsEmpty)
        {
            return null;
        }

        int[] elementOfLink = ElementsOfLinks(fed, circuit, given.Positions);
        ImmutableArray<CircuitElement> elements = [.. circuit.Elements.Select(element => Prepared(element, given.IsPowered, circuit))];
        DisjointSetsWorkspace parts = Parts(circuit.With(elements));
        NodalModel model = NodalModel.Of(circuit.With([.. elements, .. Ties(circuit, parts)]));
        return model.Unknowns.Problems.Count == 0 ? new(model, elementOfLink, parts, given) : null;
    }

    /// <summary>Whether metal leads from one node to the other while all is well, through boosters too.</summary>
    internal bool AreJoined(int first, int second) => _part[first] == _part[second];

    /// <summary>Whether each of two nodes has a booster, but not one in common: what a meter shows between them nobody can say.</summary>
    internal bool AreStrangers(int first, int second) => !AreJoined(first, second) && _fed.Contains(_part[first]) && _fed.Contains(_part[second]);

    /// <summary>The element of a link of the graph, or null where it does not conduct in this case.</summary>
    internal Branch? SeriesOfLink(int link) => _elementOfLink[link] < 0 ? null : Series(_elementOfLink[link]);

    /// <summary>An element of the wiring, numbered from the first one after those of the rails.</summary>
    internal Branch? SeriesOfWire(int wire) => Series(_firstWire + wire);

    /// <summary>The breaker of a district.</summary>
    internal Branch BreakerOf(string district) => Series(Circuit.Districts.First(item => item.District.Name == district).Breaker);

    /// <summary>The one wire in which a current is read at a point: behind a tap, behind a breaker, at a booster.</summary>
    internal Branch WireAt(ReadingPoint point, int node)
    {
        int index = point switch
        {
            ReadingPoint.OfBreaker breaker => BreakerOf(breaker.District).Element,
            ReadingPoint.OfBooster booster => _firstWire + Circuit.Sources.Select(source => source.Booster.Name).ToList().IndexOf(booster.Booster),
            _ => Circuit.Elements.Select((element, i) => (element, i)).First(entry => entry.element.From == node && entry.element.Kind == ElementKind.Feeder).i,
        };
        return Series(index);
    }

    /// <summary>
    /// What a branch offers the circuit: volts between two nodes that are to be joined, or the current in the element; the sources on.
    /// </summary>
    internal double Drive(in Branch branch)
    {
        double volts = Model.VoltsBetween(branch.From, branch.To, Potentials);
        return branch.IsSeries ? volts / branch.Ohms : volts;
    }

    /// <summary>What couples a column of transfer resistances with a branch: ohm for two nodes, a plain ratio for an element.</summary>
    internal double Coupling(double[] column, in Branch branch)
    {
        double ohms = Model.ValueBetween(branch.From, branch.To, column);
        return branch.IsSeries ? ohms / branch.Ohms : ohms;
    }

    /// <summary>
    /// What a branch sees of the circuit: resistance between two nodes, ohm; or the conductance round an element, siemens, exactly 0
    /// where there is no other way.
    /// </summary>
    internal double Own(in Branch branch)
    {
        (int from, int to) = (Model.Unknowns.Of(branch.From), Model.Unknowns.Of(branch.To));
        if (branch.IsSeries && (from == to || _bridges.Beyond(from, to) != BridgeTree.None))
        {
            return 0;
        }

        _solver.Solve(from, to, _half);
        double ohms = _solver.Between(_half, _half);
        return branch.IsSeries ? (1 - (ohms / branch.Ohms)) / branch.Ohms : ohms;
    }

    /// <summary>What couples two branches, each as it stands: ohm, a ratio, or siemens.</summary>
    internal double Between(in Branch first, in Branch second)
    {
        _solver.Solve(Model.Unknowns.Of(first.From), Model.Unknowns.Of(first.To), _half);
        _solver.Solve(Model.Unknowns.Of(second.From), Model.Unknowns.Of(second.To), _otherHalf);
        return Between(_solver.Between(_half, _otherHalf), first, second);
    }

    /// <summary>The same, by the column of the first (<see cref="Column"/>).</summary>
    internal double Between(double[] column, in Branch first, in Branch second) =>
        Between(Model.ValueBetween(second.From, second.To, column), first, second);

    /// <summary>What couples each of several branches with itself and the others.</summary>
    internal double[,] Couplings(ReadOnlySpan<Branch> branches)
    {
        double[,] couplings = new double[branches.Length, branches.Length];
        for (int i = 0; i < branches.Length; i++)
        {
            for (int k = 0; k <= i; k++)
            {
                couplings[i, k] = couplings[k, i] = i == k ? Own(branches[i]) : Between(branches[i], branches[k]);
            }
        }

        return couplings;
    }

    private static double Between(double ohms, in Branch first, in Branch second) => (first.IsSeries, second.IsSeries) switch
    {
        (true, true) => -ohms / (first.Ohms * second.Ohms),
        (true, false) => ohms / first.Ohms,
        (false, true) => ohms / second.Ohms,
        (false, false) => ohms,
    };

    /// <summary>Transfer resistances of two nodes to every unknown, ohm.</summary>
    internal double[] Column(int from, int to) => Model.Response([(from, 1), (to, -1)]);

    private Branch Series(int index)
    {
        CircuitElement element = Circuit.Elements[index];
        return new(true, element.From, element.To, element.Ohms, index);
    }

    /// <summary>Power off, nothing flows in a booster: its output is made a loop of its own.</summary>
    private static CircuitElement Prepared(in CircuitElement element, bool isPowered, Circuit circuit) => element.Kind switch
    {
        ElementKind.BoosterOutput when !isPowered => element with { From = element.To, Ohms = 1 },
        ElementKind.Rail or ElementKind.Trackwork => element,
        _ => element with { Ohms = Math.Max(element.Ohms, LeastOhms) },
    };

    private static IEnumerable<CircuitElement> Ties(Circuit circuit, DisjointSetsWorkspace parts)
    {
        int reference = circuit.Sources[0].Minus;
        HashSet<int> tied = [parts.Find(reference)];
        IEnumerable<int> first = circuit.Sources.Select(source => source.Minus).Concat(Enumerable.Range(0, circuit.NodeCount));
        return [.. first.Where(node => tied.Add(parts.Find(node))).Select(node => new CircuitElement(node, reference, InsulationOhms, ElementKind.Trackwork))];
    }

    private static DisjointSetsWorkspace Parts(Circuit circuit)
    {
        DisjointSetsWorkspace parts = new(circuit.NodeCount);
        foreach (CircuitElement element in circuit.Elements)
        {
            parts.Join(element.From, element.To);
        }

        foreach (CircuitSource source in circuit.Sources)
        {
            parts.Join(source.Plus, source.Minus);
        }

        return parts;
    }

    private static int[] ElementsOfLinks(RailGraph graph, Circuit circuit, IReadOnlyDictionary<PieceId, string> positions)
    {
        int[] elements = new int[graph.Links.Length];
        int next = 0;
        for (int link = 0; link < elements.Length; link++)
        {
            bool conducts = graph.Links[link] is not RailLink.Contact contact
                || contact.Position == (positions.GetValueOrDefault(contact.Piece) ?? graph.PositionsOf(contact.Piece).FirstOrDefault());
            elements[link] = conducts ? next++ : -1;
            if (conducts && (circuit.Elements[elements[link]].From, circuit.Elements[elements[link]].To) != (graph.Links[link].From, graph.Links[link].To))
            {
                throw new InvalidOperationException($"element {elements[link]} of the circuit is not link {link} of the rails");
            }
        }

        return elements;
    }

    private static Layout Fed(Layout layout, LimitedSupply supply) => layout with
    {
        Wiring = layout.Wiring with
        {
            Boosters = [.. layout.Wiring.Boosters.Select(booster => booster.Name == supply.Booster ? booster with { Volts = supply.Volts } : booster)],
        },
    };

    private static IEnumerable<TrackPlace> Places(RailGraph graph) => graph.Layout.Track
        .Where(piece => piece.PlacesMetres is not null)
        .SelectMany(piece => graph.Stations(piece.Id).Select(station => new TrackPlace(piece.Id, station.Metres)));
}
