using WireUp.Circuits.Numerics;
using WireUp.Rails;

namespace WireUp.Circuits.Network;

/// <summary>
/// Which unknown each node of a circuit is, after nodes of fixed difference have become one and every fed part has been given
/// a reference: terminal B of its first booster. Parts without a source have no unknowns.
/// </summary>
internal sealed class Unknowns
{
    /// <summary>Stands in place of an unknown for nodes of parts without a source.</summary>
    internal const int Unfed = -2;

    private readonly Circuit _circuit;
    private readonly DisjointSetsWorkspace _parts;
    private readonly int[] _unknown;
    private readonly double[] _offset;
    private readonly List<CircuitProblem> _problems = [];
    private readonly HashSet<int> _refused = [];

    internal Unknowns(Circuit circuit)
    {
        _circuit = circuit;
        _parts = new DisjointSetsWorkspace(circuit.NodeCount);
        _unknown = new int[circuit.NodeCount];
        _offset = new double[circuit.NodeCount];
        Count = Number(JoinSets());
    }

    /// <summary>How many unknowns there are.</summary>
    internal int Count { get; }

    /// <summary>Ideal shorts that were found.</summary>
    internal IReadOnlyList<CircuitProblem> Problems => _problems;

    /// <summary>The node's unknown, or the reference, or <see cref="Unfed"/>.</summary>
    internal int Of(int node) => _unknown[node];

    /// <summary>Potential of the node over that of its unknown, volt.</summary>
    internal double Offset(int node) => _offset[node];

    /// <summary>The part of the circuit that a node belongs to: everything a current can reach from it.</summary>
    internal int Part(int node) => _parts.Find(node);

    /// <summary>Whether a part has no results because of a problem.</summary>
    internal bool IsRefused(int part) => _refused.Contains(part);

    /// <summary>Two nodes of one fed part without a problem.</summary>
    internal bool AreFedTogether(int first, int second)
    {
        if (_unknown[first] == Unfed || _unknown[second] == Unfed)
        {
            return false;
        }

        int part = Part(first);
        return part == Part(second) && !_refused.Contains(part);
    }

    /// <summary>Takes a part out of the results.</summary>
    internal void Refuse(int node) => _refused.Add(Part(node));

    private PotentialSets JoinSets()
    {
        PotentialSets sets = new(_circuit.NodeCount);
        foreach (CircuitElement element in _circuit.Elements)
        {
            _parts.Join(element.From, element.To);
            if (element.Ohms == 0)
            {
                sets.Join(element.From, element.To, 0);
            }
        }

        List<(int Node, CircuitSource Source)> shorted = [];
        foreach (CircuitSource source in _circuit.Sources)
        {
            _parts.Join(source.Plus, source.Minus);
            if (!sets.Join(source.Plus, source.Minus, source.Volts))
            {
                shorted.Add((source.Terminal, source));
            }
        }

        foreach ((int node, CircuitSource source) in shorted)
        {
            _problems.Add(new CircuitProblem.IdealShort(_circuit.NameOf(node), source.Booster.Name));
            _refused.Add(Part(node));
        }

        return sets;
    }

    private int Number(PotentialSets sets)
    {
        Dictionary<int, double> references = [];
        HashSet<int> fedParts = [];
        foreach (CircuitSource source in _circuit.Sources)
        {
            if (fedParts.Add(Part(source.Minus)))
            {
                (int root, double volts) = sets.Find(source.Minus);
                references[root] = volts;
            }
        }

        bool[] fed = new bool[_circuit.NodeCount];
        foreach (int part in fedParts)
        {
            fed[part] = true;
        }

        int count = 0;
        int[] ofRoot = new int[_circuit.NodeCount];
        Array.Fill(ofRoot, Unfed);
        foreach (int root in references.Keys)
        {
            ofRoot[root] = ConductanceWorkspace.Reference;
        }

        for (int node = 0; node < _unknown.Length; node++)
        {
            (int root, double volts) = sets.Find(node);
            if (ofRoot[root] == Unfed && fed[Part(node)])
            {
                ofRoot[root] = count++;
            }

            _unknown[node] = ofRoot[root];
            _offset[node] = volts - (ofRoot[root] == ConductanceWorkspace.Reference ? references[root] : 0);
        }

        return count;
    }
}
