using System.Globalization;
using System.Text;
using System.Text.RegularExpressions;
using WireUp.Circuits;
using WireUp.Circuits.Network;
using WireUp.Faults.Network;
using WireUp.Faults.Search;
using WireUp.Layouts;
using WireUp.Rails;

namespace WireUp.Benchmarks.Faults;

/// <summary>What somebody reads on a railway with a fault: the exported netlist changed and solved by the circuit simulator.</summary>
/// <param name="Faults">What is faulty, each branch with its q.</param>
/// <param name="Reading">What is read.</param>
/// <param name="HealthySeed">Seed by which all sound joints, taps and contacts vary, or null where they are as the layout says.</param>
internal sealed record SpiceQuestion(IReadOnlyList<(Branch Branch, double Q)> Faults, MeterReading Reading, int? HealthySeed);

/// <summary>
/// Answers many questions in one run of the simulator: one netlist of the layout as exported, with every feeder's tap made a resistor of its own;
/// before each operating point the resistors of the question get their values, after it they get back those they had.
/// </summary>
internal sealed partial class FaultySpice
{
    private const double OpenOhms = 1e12, MeterOhms = 1e7;

    private readonly Circuit _circuit;
    private readonly CircuitNodes _nodes;
    private readonly Dictionary<int, string> _nameOf = [];
    private readonly Dictionary<int, (string Name, double Ohms)> _resistors = [];
    private readonly string _sources;
    private readonly double _volts;

    /// <param name="graph">The rails with all places that will be read.</param>
    internal FaultySpice(RailGraph graph)
    {
        _circuit = CircuitBuilder.Build(graph, new Dictionary<PieceId, string>(), splitsTaps: true);
        _nodes = new(_circuit);
        _volts = _circuit.Sources.Max(source => source.Volts);
        string export = SpiceNetlist.Write(graph, PowerOptions.Default);
        Dictionary<string, string> places = PlaceLine().Matches(export).ToDictionary(
            match => match.Groups["place"].Value, match => match.Groups["node"].Value, StringComparer.Ordinal);
        for (int node = 0; node < _circuit.NodeCount; node++)
        {
            string name = _circuit.NameOf(node);
            if (places.TryGetValue(name, out string? known))
            {
                _nameOf[node] = known;
            }
            else if (name.Contains("/tap ", StringComparison.Ordinal))
            {
                _nameOf[node] = string.Create(CultureInfo.InvariantCulture, $"tap{node}");
            }
        }

        _sources = string.Join('\n', export.Split('\n').Where(line => line.StartsWith('V'))) + "\n";
        KeepExported(export);
    }

    /// <summary>Whether the simulator's netlist holds both nodes.</summary>
    internal bool Holds(int from, int to) => _nameOf.ContainsKey(from) && _nameOf.ContainsKey(to);

    /// <summary>Answers every question: volts with their sign, amperes, or ohms.</summary>
    /// <param name="questions">The questions; power on and turnouts as the layout has them.</param>
    /// <param name="run">Runs the simulator on a netlist and gives what it prints.</param>
    internal double[] Answer(IReadOnlyList<SpiceQuestion> questions, Func<string, string> run)
    {
        StringBuilder netlist = new("* faults\n"), control = new(".control\nset numdgt=12\n");
        foreach ((string name, double ohms, int from, int to) in Resistors())
        {
            netlist.Append(CultureInfo.InvariantCulture, $"{name} {_nameOf[from]} {_nameOf[to]} {ohms:R}\n");
        }

        Dictionary<(int, int), string> added = [];
        for (int i = 0; i < questions.Count; i++)
        {
            Ask(i, questions[i], added, control);
        }

        foreach (((int from, int to), string name) in added)
        {
            netlist.Append(CultureInfo.InvariantCulture, $"{name} {_nameOf[from]} {_nameOf[to]} {OpenOhms:R}\n");
        }

        netlist.Append(_sources).Append(control).Append("quit\n.endc\n.end\n");
        return Parse(run(netlist.ToString()), questions.Count);
    }

    private void Ask(int index, SpiceQuestion question, Dictionary<(int, int), string> added, StringBuilder control)
    {
        Dictionary<string, (double Before, double Now)> changes = new(StringComparer.Ordinal);
        if (question.HealthySeed is { } seed)
        {
            foreach ((string name, double before, double now) in Varied(seed))
            {
                changes[name] = (before, now);
            }
        }

        foreach ((Branch branch, double q) in question.Faults)
        {
            (string name, double ohms) = branch.IsSeries ? _resistors[branch.Element] : (Added(added, branch.From, branch.To), OpenOhms);
            double sound = changes.TryGetValue(name, out (double Before, double Now) varied) ? varied.Now : ohms;
            changes[name] = (ohms, branch.IsSeries ? sound + (1 / q) : q);
        }

        (int from, int to, ReadingLoad? load) = Points(question.Reading);
        changes[Added(added, from, to)] = (OpenOhms, MeterOhms);
        if (load is not null)
        {
            (int first, int second) = _nodes.Of(load.At);
            string name = Added(added, first, second);
            double ohms = _volts / load.Amps.Amperes;
            changes[name] = (OpenOhms, changes.ContainsKey(name) ? 1 / ((1 / ohms) + (1 / MeterOhms)) : ohms);
        }

        foreach ((string name, (_, double now)) in changes)
        {
            control.Append(CultureInfo.InvariantCulture, $"alter {name} = {now:R}\n");
        }

        control.Append(CultureInfo.InvariantCulture, $"op\nlet answer{index} = {Volts(from)} - {Volts(to)}\nprint answer{index}\ndestroy all\n");
        foreach ((string name, (double before, _)) in changes)
        {
            control.Append(CultureInfo.InvariantCulture, $"alter {name} = {before:R}\n");
        }
    }

    private string Volts(int node) => _nameOf[node] == "0" ? "0" : $"v({_nameOf[node]})";

    private (int From, int To, ReadingLoad? Load) Points(MeterReading reading) => reading switch
    {
        MeterReading.Volts volts => (_nodes.Of(volts.At).First, _nodes.Of(volts.At).Second, volts.Load),
        MeterReading.VoltsAlong volts => (_nodes.Of(volts.From), _nodes.Of(volts.To), volts.Load),
        _ => throw new InvalidOperationException($"not asked of the simulator: {reading}"),
    };

    private static string Added(Dictionary<(int, int), string> added, int from, int to)
    {
        (int, int) pair = (Math.Min(from, to), Math.Max(from, to));
        if (!added.TryGetValue(pair, out string? name))
        {
            added[pair] = name = string.Create(CultureInfo.InvariantCulture, $"Radd{added.Count}");
        }

        return name;
    }

    private IEnumerable<(string Name, double Ohms, int From, int To)> Resistors() =>
        _resistors.Select(entry => (entry.Value.Name, entry.Value.Ohms, _circuit.Elements[entry.Key].From, _circuit.Elements[entry.Key].To));

    /// <summary>Each exported resistor by the element that it stands for; a feeder's is divided into tap and wire.</summary>
    private void KeepExported(string export)
    {
        Dictionary<(string, string), Queue<double>> exported = [];
        foreach (Match match in ResistorLine().Matches(export))
        {
            (string, string) ends = (match.Groups["from"].Value, match.Groups["to"].Value);
            exported.TryAdd(ends, []);
            exported[ends].Enqueue(double.Parse(match.Groups["ohms"].Value, CultureInfo.InvariantCulture));
        }

        for (int i = 0; i < _circuit.Elements.Length; i++)
        {
            CircuitElement element = _circuit.Elements[i];
            string name = string.Create(CultureInfo.InvariantCulture, $"R{i}");
            if (element.Kind == ElementKind.Feeder)
            {
                if (Holds(element.From, element.To))
                {
                    _resistors[i] = (name, element.Ohms);
                }
            }
            else if (Holds(element.From, element.To) && exported.TryGetValue((_nameOf[element.From], _nameOf[element.To]), out Queue<double>? ohms))
            {
                _resistors[i] = (name, ohms.Dequeue());
            }
        }
    }

    /// <summary>Sound joints, taps, contacts and rails as they might be: each with a resistance drawn about its own.</summary>
    private IEnumerable<(string Name, double Before, double Now)> Varied(int seed)
    {
        Random random = new(seed);
        foreach ((int element, (string name, double ohms)) in _resistors)
        {
            double gaussian = Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble());
            yield return (name, ohms, ohms * Math.Exp(Spread.Of(_circuit.Elements[element].Kind) * gaussian));
        }
    }

    private static double[] Parse(string output, int count)
    {
        double[] answers = new double[count];
        Array.Fill(answers, double.NaN);
        foreach (Match match in AnswerLine().Matches(output))
        {
            answers[int.Parse(match.Groups["index"].Value, CultureInfo.InvariantCulture)] = double.Parse(match.Groups["value"].Value, CultureInfo.InvariantCulture);
        }

        return Array.TrueForAll(answers, double.IsFinite)
            ? answers
            : throw new InvalidOperationException($"the simulator left question {Array.FindIndex(answers, double.IsNaN)} open");
    }

    [GeneratedRegex(@"^\* place (?<place>.*) (?<node>\S+)$", RegexOptions.Multiline | RegexOptions.ExplicitCapture, 1000)]
    private static partial Regex PlaceLine();

    [GeneratedRegex(@"^R\d+ (?<from>\S+) (?<to>\S+) (?<ohms>\S+)$", RegexOptions.Multiline | RegexOptions.ExplicitCapture, 1000)]
    private static partial Regex ResistorLine();

    [GeneratedRegex(@"^answer(?<index>\d+) = (?<value>[-+0-9.e]+)\s*$", RegexOptions.Multiline | RegexOptions.ExplicitCapture, 1000)]
    private static partial Regex AnswerLine();
}
