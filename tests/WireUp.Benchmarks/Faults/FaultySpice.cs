using System.Globalization;
using System.Text;
using System.Text.RegularExpressions;
using WireUp.Faults.Network;
using WireUp.Layouts;
using WireUp.Rails;

namespace WireUp.Benchmarks.Faults;

/// <summary>What is changed in the circuit of a railway.</summary>
/// <param name="Branches">Branches with their q.</param>
/// <param name="Weak">The part of its volts that a booster lacks, by its number; of the others nothing.</param>
internal sealed record SpiceFault(IReadOnlyList<(Branch Branch, double Q)> Branches, IReadOnlyDictionary<int, double> Weak);

/// <summary>What somebody reads on a railway with a fault: the exported netlist changed and solved by the circuit simulator.</summary>
/// <param name="Fault">What is faulty.</param>
/// <param name="Reading">What is read.</param>
/// <param name="HealthySeed">Seed by which all sound joints, taps and contacts vary, or null where they are as the layout says.</param>
/// <param name="IsGuarded">Whether breakers may trip and supplies give way, so that currents have to be looked at.</param>
internal sealed record SpiceQuestion(SpiceFault Fault, MeterReading Reading, int? HealthySeed, bool IsGuarded);

/// <summary>
/// Answers many questions in one run of the simulator: before each operating point the resistors and sources of the question get their values,
/// after it they get back those they had.
/// </summary>
internal sealed partial class FaultySpice
{
    private const double OpenOhms = 1e12, MeterOhms = 1e7;

    private readonly ExportedNetlist _netlist;
    private readonly CircuitNodes _nodes;
    private readonly double _volts;

    /// <param name="graph">The rails with all places that will be read.</param>
    internal FaultySpice(RailGraph graph)
    {
        _netlist = new(graph);
        _nodes = new(_netlist.Circuit);
        _volts = _netlist.Circuit.Sources.Max(source => source.Volts);
    }

    /// <summary>Whether the simulator's netlist holds both nodes.</summary>
    internal bool Holds(int from, int to) => _netlist.Holds(from, to);

    /// <summary>Whether a reading can be made in the simulator's netlist.</summary>
    internal bool Holds(MeterReading reading)
    {
        (int from, int to, ReadingLoad? load) = Points(reading);
        return Holds(from, to) && (load is null || Holds(_nodes.Of(load.At).First, _nodes.Of(load.At).Second));
    }

    /// <summary>Answers every question: volts with their sign.</summary>
    /// <param name="questions">The questions; turnouts as the layout has them.</param>
    /// <param name="run">Runs the simulator on a netlist and gives what it prints.</param>
    internal double[] Answer(IReadOnlyList<SpiceQuestion> questions, Func<string, string> run)
    {
        SpiceFeeding[] feedings = [.. questions.Select(question => new SpiceFeeding(_netlist.Circuit, question))];
        double[][] answers = Solve(questions, feedings, run);
        int[] unsettled = Unsettled(Enumerable.Range(0, questions.Count));
        for (int round = 0; unsettled.Length > 0; round++)
        {
            if (round == 12)
            {
                throw new InvalidOperationException($"breakers do not settle: {questions[unsettled[0]].Reading}");
            }

            double[][] again = Solve([.. unsettled.Select(i => questions[i])], [.. unsettled.Select(i => feedings[i])], run);
            for (int k = 0; k < unsettled.Length; k++)
            {
                answers[unsettled[k]] = again[k];
            }

            unsettled = Unsettled(unsettled);
        }

        return [.. answers.Select(answer => answer[0])];

        int[] Unsettled(IEnumerable<int> asked) => [.. asked.Where(i => !feedings[i].Settle(answers[i].AsSpan(1)))];
    }

    /// <summary>For each question what it reads, then the current through each guard.</summary>
    private double[][] Solve(IReadOnlyList<SpiceQuestion> questions, IReadOnlyList<SpiceFeeding> feedings, Func<string, string> run)
    {
        StringBuilder netlist = new("* faults\n"), control = new(".control\nset numdgt=12\n");
        netlist.AppendJoin('\n', _netlist.Resistors).Append('\n');
        Dictionary<(int, int), string> added = [];
        for (int i = 0; i < questions.Count; i++)
        {
            Ask(i, questions[i], feedings[i], added, control);
        }

        foreach (((int from, int to), string name) in added)
        {
            netlist.Append(_netlist.Line(name, from, to, OpenOhms)).Append('\n');
        }

        netlist.Append(_netlist.Sources).Append(control).Append("quit\n.endc\n.end\n");
        return Parse(run(netlist.ToString()), feedings);
    }

    private void Ask(int index, SpiceQuestion question, SpiceFeeding feeding, Dictionary<(int, int), string> added, StringBuilder control)
    {
        Dictionary<string, (double Before, double Now)> changes = Changes(question, feeding, added);
        (int from, int to, _) = Points(question.Reading);
        foreach ((string name, (_, double now)) in changes)
        {
            control.Append(CultureInfo.InvariantCulture, $"alter {name} = {now:R}\n");
        }

        control.Append(CultureInfo.InvariantCulture, $"op\nlet answer{index}x0 = {_netlist.Volts(from)} - {_netlist.Volts(to)}\nprint answer{index}x0\n");
        for (int k = 0; k < feeding.Guards.Length; k++)
        {
            (string name, double ohms) = _netlist[feeding.Guards[k].Element];
            Branch at = feeding.Guards[k];
            double now = changes.TryGetValue(name, out (double, double Now) changed) ? changed.Now : ohms;
            control.Append(CultureInfo.InvariantCulture, $"let answer{index}x{k + 1} = ({_netlist.Volts(at.From)} - {_netlist.Volts(at.To)})/{now:R}\nprint answer{index}x{k + 1}\n");
        }

        control.Append("destroy all\n");
        foreach ((string name, (double before, _)) in changes)
        {
            control.Append(CultureInfo.InvariantCulture, $"alter {name} = {before:R}\n");
        }
    }

    /// <summary>What is altered for a question, by the names of the netlist.</summary>
    private Dictionary<string, (double Before, double Now)> Changes(SpiceQuestion question, SpiceFeeding feeding, Dictionary<(int, int), string> added)
    {
        Dictionary<string, (double Before, double Now)> changes = new(StringComparer.Ordinal);
        foreach ((string name, double before, double now) in question.HealthySeed is { } seed ? _netlist.Varied(seed) : [])
        {
            changes[name] = (before, now);
        }

        foreach ((Branch branch, double q) in question.Fault.Branches)
        {
            (string name, double ohms) = branch.IsSeries ? _netlist[branch.Element] : (Added(added, branch.From, branch.To), OpenOhms);
            double sound = changes.TryGetValue(name, out (double Before, double Now) varied) ? varied.Now : ohms;
            changes[name] = (ohms, branch.IsSeries ? sound + (1 / q) : q);
        }

        foreach (Branch tripped in feeding.Tripped)
        {
            changes[_netlist[tripped.Element].Name] = (_netlist[tripped.Element].Ohms, OpenOhms);
        }

        foreach ((int source, double before, double now) in feeding.Altered)
        {
            changes[string.Create(CultureInfo.InvariantCulture, $"V{source + 1}")] = (before, now);
        }

        AddMeter(question.Reading, added, changes);
        return changes;
    }

    private void AddMeter(MeterReading reading, Dictionary<(int, int), string> added, Dictionary<string, (double Before, double Now)> changes)
    {
        (int from, int to, ReadingLoad? load) = Points(reading);
        Join(from, to, MeterOhms);
        if (load is not null)
        {
            (int first, int second) = _nodes.Of(load.At);
            Join(first, second, _volts / load.Amps.Amperes);
        }

        void Join(int one, int other, double ohms)
        {
            string name = Added(added, one, other);
            changes[name] = (OpenOhms, changes.TryGetValue(name, out (double, double Now) there) ? 1 / ((1 / ohms) + (1 / there.Now)) : ohms);
        }
    }

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

    private static double[][] Parse(string output, IReadOnlyList<SpiceFeeding> feedings)
    {
        double[][] answers = [.. feedings.Select(feeding => Enumerable.Repeat(double.NaN, 1 + feeding.Guards.Length).ToArray())];
        foreach (Match match in AnswerLine().Matches(output))
        {
            answers[int.Parse(match.Groups["index"].Value, CultureInfo.InvariantCulture)][int.Parse(match.Groups["part"].Value, CultureInfo.InvariantCulture)] =
                double.Parse(match.Groups["value"].Value, CultureInfo.InvariantCulture);
        }

        return Array.TrueForAll(answers, answer => Array.TrueForAll(answer, double.IsFinite))
            ? answers
            : throw new InvalidOperationException($"the simulator left question {Array.FindIndex(answers, answer => Array.Exists(answer, double.IsNaN))} open");
    }

    [GeneratedRegex(@"^answer(?<index>\d+)x(?<part>\d+) = (?<value>[-+0-9.e]+)\s*$", RegexOptions.Multiline | RegexOptions.ExplicitCapture, 1000)]
    private static partial Regex AnswerLine();
}
