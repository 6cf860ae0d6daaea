using WireUp.Rails;

namespace WireUp.Circuits.Network;

/// <summary>What lies between a place and the electromotive forces that feed it.</summary>
/// <param name="District">Index of the district whose breaker carries most of a short at the place; -1 when no district does.</param>
/// <param name="SourceOhms">Resistance of boosters and breakers, each weighted by the square of its share of that short.</param>
internal readonly record struct SourcePath(int District, double SourceOhms);

/// <summary>
/// Finds, for any place, the district that feeds it and the resistance of the sources in its loop.
/// </summary>
/// <remarks>
/// Take boosters and breakers away, and the circuit falls into pieces of copper; put them back as edges between the pieces.
/// Where that graph of pieces has no ring, a short between two pieces has one way only, and the answer is a sum along it. Where
/// it has rings (districts whose rails touch, two boosters on one stretch), the shares come from one solution for each district:
/// with h the potentials for a unit current between a breaker's ends times its conductance, the share of a short at (p, q) is
/// h(p) − h(q) by reciprocity.
/// </remarks>
internal sealed class SourcePaths
{
    private readonly NodalModel _model;
    private readonly DisjointSetsWorkspace _copper;
    private readonly DisjointSetsWorkspace _joined;
    private readonly HashSet<int> _ringed = [];
    private readonly Dictionary<int, List<(int Piece, int District, double Ohms)>> _edges = [];
    private readonly Dictionary<(int, int), SourcePath> _known = [];
    private readonly Dictionary<int, double[]> _shares = [];

    internal SourcePaths(NodalModel model)
    {
        _model = model;
        _copper = new DisjointSetsWorkspace(Circuit.NodeCount);
        _joined = new DisjointSetsWorkspace(Circuit.NodeCount);
        foreach (CircuitElement element in Circuit.Elements)
        {
            if (!element.IsDevice)
            {
                _copper.Join(element.From, element.To);
            }
        }

        foreach (CircuitSource source in Circuit.Sources)
        {
            AddEdge(source.Minus, source.Terminal, -1, source.Booster.Resistance.Ohms);
        }

        for (int d = 0; d < Circuit.Districts.Length; d++)
        {
            DistrictStart start = Circuit.Districts[d];
            AddEdge(Circuit.Sources[start.Source].Terminal, start.Start, d, start.District.Resistance.Ohms);
        }

        _ringed = [.. _ringed.Select(_joined.Find)];
    }

    /// <summary>Whether any part has more than one way between its pieces: touching districts, or rails shorted to each other.</summary>
    internal bool HasRing => _ringed.Count > 0;

    private Circuit Circuit => _model.Circuit;

    /// <summary>The path of a short across a fed segment.</summary>
    /// <param name="segment">The segment.</param>
    /// <param name="fraction">Where on it, 0 to 1.</param>
    internal SourcePath Of(in TrackSegment segment, double fraction)
    {
        int part = _joined.Find(_copper.Find(segment.FirstAtStart));
        return _ringed.Contains(part) ? ByShares(segment, fraction, part) : OnlyWay(segment.FirstAtStart, segment.SecondAtStart);
    }

    /// <summary>The path of a short between two nodes of a fed part.</summary>
    internal SourcePath Between(int first, int second) => Of(new TrackSegment(default, 0, 0, first, second, first, second, 0), 0);

    private SourcePath OnlyWay(int first, int second)
    {
        (int a, int b) = (_copper.Find(first), _copper.Find(second));
        if (!_known.TryGetValue((a, b), out SourcePath path))
        {
            _known[(a, b)] = path = Walk(a, b);
        }

        return path;
    }

    private void AddEdge(int first, int second, int district, double ohms)
    {
        (int a, int b) = (_copper.Find(first), _copper.Find(second));
        EdgesOf(a).Add((b, district, ohms));
        EdgesOf(b).Add((a, district, ohms));
        if (!_joined.Join(a, b))
        {
            _ringed.Add(a);
        }
    }

    private List<(int Piece, int District, double Ohms)> EdgesOf(int piece)
    {
        if (!_edges.TryGetValue(piece, out List<(int, int, double)>? edges))
        {
            _edges[piece] = edges = [];
        }

        return edges;
    }

    /// <summary>Breadth-first from one piece to the other; without rings the first way found is the only one.</summary>
    private SourcePath Walk(int from, int to)
    {
        Dictionary<int, SourcePath> reached = new() { [from] = new(-1, 0) };
        Queue<int> open = new([from]);
        while (open.TryDequeue(out int piece))
        {
            if (piece == to)
            {
                break;
            }

            foreach ((int next, int district, double ohms) in EdgesOf(piece))
            {
                SourcePath here = reached[piece];
                if (reached.TryAdd(next, new(here.District >= 0 ? here.District : district, here.SourceOhms + ohms)))
                {
                    open.Enqueue(next);
                }
            }
        }

        return reached.TryGetValue(to, out SourcePath found) ? found : new(-1, 0);
    }

    private SourcePath ByShares(in TrackSegment segment, double fraction, int part)
    {
        double ohms = 0, most = -1;
        int district = -1;
        double[] ofSource = new double[Circuit.Sources.Length];
        for (int d = 0; d < Circuit.Districts.Length; d++)
        {
            DistrictStart start = Circuit.Districts[d];
            if (PartOf(d) == part)
            {
                double share = Share(segment, fraction, SharesOf(d));
                ohms += share * share * start.District.Resistance.Ohms;
                ofSource[start.Source] += share;
                (most, district) = Math.Abs(share) > most + 1e-9 ? (Math.Abs(share), d) : (most, district);
            }
        }

        for (int s = 0; s < ofSource.Length; s++)
        {
            ohms += ofSource[s] * ofSource[s] * Circuit.Sources[s].Booster.Resistance.Ohms;
        }

        return new(district, ohms);
    }

    private double Share(in TrackSegment segment, double fraction, double[] response) =>
        ((1 - fraction) * _model.ValueBetween(segment.FirstAtStart, segment.SecondAtStart, response))
        + (fraction * _model.ValueBetween(segment.FirstAtEnd, segment.SecondAtEnd, response));

    /// <summary>All districts of a part are solved for at once: a place in it is asked for every one of them.</summary>
    private double[] SharesOf(int district)
    {
        if (!_shares.TryGetValue(district, out double[]? response))
        {
            int[] together = [.. Enumerable.Range(0, Circuit.Districts.Length).Where(other => PartOf(other) == PartOf(district))];
            double[][] responses = _model.Responses([.. together.Select(other => CurrentsThrough(Circuit.Districts[other]))]);
            for (int i = 0; i < together.Length; i++)
            {
                _shares[together[i]] = responses[i];
            }

            response = _shares[district];
        }

        return response;
    }

    private int PartOf(int district) => _joined.Find(_copper.Find(Circuit.Districts[district].Start));

    /// <summary>
    /// What carries the district's current: the breaker; where it has no resistance its booster, if that feeds no other district;
    /// failing both, everything else that leaves the start of the bus.
    /// </summary>
    private IEnumerable<(int Node, double Amps)> CurrentsThrough(DistrictStart start)
    {
        foreach (CircuitElement element in Carriers(start))
        {
            (int near, int far) = element.IsDevice || element.From == start.Start
                ? (element.From, element.To)
                : (element.To, element.From);
            yield return (near, 1 / element.Ohms);
            yield return (far, -1 / element.Ohms);
        }
    }

    private IEnumerable<CircuitElement> Carriers(DistrictStart start)
    {
        CircuitElement breaker = Circuit.Elements[start.Breaker];
        CircuitElement output = Circuit.Elements.First(e => e.Kind == ElementKind.BoosterOutput && e.To == breaker.From);
        return breaker.Ohms > 0 ? [breaker]
            : output.Ohms > 0 && Circuit.Districts.Count(other => other.Source == start.Source) == 1 ? [output]
            : Circuit.Elements.Where(e => e.Ohms > 0 && !e.IsDevice && (e.From == start.Start || e.To == start.Start));
    }
}
