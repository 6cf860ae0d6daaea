using System.Globalization;
using System.Text.RegularExpressions;
using WireUp.Circuits;
using WireUp.Circuits.Network;
using WireUp.Faults.Search;
using WireUp.Layouts;
using WireUp.Rails;

namespace WireUp.Benchmarks.Faults;

/// <summary>The netlist of a layout as exported, each resistor with the element that it stands for; every feeder's tap is a resistor of its own.</summary>
internal sealed partial class ExportedNetlist
{
    private readonly Dictionary<int, string> _nameOf = [];
    private readonly Dictionary<int, (string Name, double Ohms)> _resistors = [];

    /// <param name="graph">The rails with all places that will be read.</param>
    internal ExportedNetlist(RailGraph graph)
    {
        Circuit = CircuitBuilder.Build(graph, new Dictionary<PieceId, string>(), splitsTaps: true);
        string export = SpiceNetlist.Write(graph, PowerOptions.Default);
        Dictionary<string, string> places = PlaceLine().Matches(export).ToDictionary(
            match => match.Groups["place"].Value, match => match.Groups["node"].Value, StringComparer.Ordinal);
        for (int node = 0; node < Circuit.NodeCount; node++)
        {
            string name = Circuit.NameOf(node);
            if (places.TryGetValue(name, out string? known))
            {
                _nameOf[node] = known;
            }
            else if (name.Contains("/tap ", StringComparison.Ordinal))
            {
                _nameOf[node] = string.Create(CultureInfo.InvariantCulture, $"tap{node}");
            }
        }

        Sources = string.Join('\n', export.Split('\n').Where(line => line.StartsWith('V'))) + "\n";
        KeepExported(export);
    }

    internal Circuit Circuit { get; }

    /// <summary>Lines of the sources, V1 the first of the circuit's.</summary>
    internal string Sources { get; }

    /// <summary>Lines of the resistors.</summary>
    internal IEnumerable<string> Resistors => _resistors.Select(entry => Line(entry.Value.Name, Circuit.Elements[entry.Key].From, Circuit.Elements[entry.Key].To, entry.Value.Ohms));

    /// <summary>Whether the netlist holds both nodes.</summary>
    internal bool Holds(int from, int to) => _nameOf.ContainsKey(from) && _nameOf.ContainsKey(to);

    /// <summary>The resistor of an element.</summary>
    internal (string Name, double Ohms) this[int element] => _resistors[element];

    /// <summary>A resistor between two nodes.</summary>
    internal string Line(string name, int from, int to, double ohms) => string.Create(CultureInfo.InvariantCulture, $"{name} {_nameOf[from]} {_nameOf[to]} {ohms:R}");

    /// <summary>Volts of a node as the simulator writes them.</summary>
    internal string Volts(int node) => _nameOf[node] == "0" ? "0" : $"v({_nameOf[node]})";

    /// <summary>Sound joints, taps, contacts and rails as they might be: each with a resistance drawn about its own.</summary>
    internal IEnumerable<(string Name, double Before, double Now)> Varied(int seed)
    {
        Random random = new(seed);
        foreach ((int element, (string name, double ohms)) in _resistors)
        {
            double gaussian = Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble());
            yield return (name, ohms, ohms * Math.Exp(Spread.Of(Circuit.Elements[element].Kind) * gaussian));
        }
    }

    private void KeepExported(string export)
    {
        Dictionary<(string, string), Queue<double>> exported = [];
        foreach (Match match in ResistorLine().Matches(export))
        {
            (string, string) ends = (match.Groups["from"].Value, match.Groups["to"].Value);
            exported.TryAdd(ends, []);
            exported[ends].Enqueue(double.Parse(match.Groups["ohms"].Value, CultureInfo.InvariantCulture));
        }

        for (int i = 0; i < Circuit.Elements.Length; i++)
        {
            CircuitElement element = Circuit.Elements[i];
            string name = string.Create(CultureInfo.InvariantCulture, $"R{i}");
            if (!Holds(element.From, element.To))
            {
                continue;
            }

            if (element.Kind == ElementKind.Feeder)
            {
                _resistors[i] = (name, element.Ohms);
            }
            else if (exported.TryGetValue((_nameOf[element.From], _nameOf[element.To]), out Queue<double>? ohms))
            {
                _resistors[i] = (name, ohms.Dequeue());
            }
        }
    }

    [GeneratedRegex(@"^\* place (?<place>.*) (?<node>\S+)$", RegexOptions.Multiline | RegexOptions.ExplicitCapture, 1000)]
    private static partial Regex PlaceLine();

    [GeneratedRegex(@"^R\d+ (?<from>\S+) (?<to>\S+) (?<ohms>\S+)$", RegexOptions.Multiline | RegexOptions.ExplicitCapture, 1000)]
    private static partial Regex ResistorLine();
}
