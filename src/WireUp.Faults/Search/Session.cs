using System.Collections.Immutable;
using WireUp.Faults.Network;
using WireUp.Layouts;
using WireUp.Layouts.Reference;
using WireUp.Rails;

namespace WireUp.Faults.Search;

/// <summary>A railway, its readings and every hypothesis, ready to be weighed.</summary>
internal sealed class Session
{
    private readonly Dictionary<CaseCircuit, (Respondents, Trips)> _cases = [];

    private Session(SessionBuilder builder, CaseCircuit circuit, ReadingSet set, FaultPriors priors)
    {
        (Builder, Set, Circuit) = (builder, set, circuit);
        Nodes = new(circuit.Circuit);
        Hypotheses = [.. HypothesisList.Of(circuit, Nodes, priors).Select(hypothesis => Pressed(hypothesis, set))];
        (SessionReading Reading, int Index)[] readings =
            [.. set.Readings.Select((reading, i) => (Reading: builder.Of(reading), i)).Where(entry => entry.Reading is not null).Select(entry => (entry.Reading!, entry.i))];
        Indices = [.. readings.Select(entry => entry.Index)];
        Evidence evidence = new([.. readings.Select(entry => entry.Reading)]);
        ImmutableArray<(Respondents Respondents, Trips Trips)> cases = [.. evidence.Readings.Select(reading => Case(reading.Probe.Circuit))];
        Singles = new(Hypotheses, evidence, [.. cases.Select(entry => entry.Respondents)], [.. cases.Select(entry => entry.Trips)]);
    }

    internal SessionBuilder Builder { get; }

    internal ReadingSet Set { get; }

    /// <summary>The circuit with everything in its first position and no load.</summary>
    internal CaseCircuit Circuit { get; }

    internal CircuitNodes Nodes { get; }

    internal ImmutableArray<Hypothesis> Hypotheses { get; }

    /// <summary>Which reading of the set each one that is weighed is; those that only say where to look are not among them.</summary>
    internal ImmutableArray<int> Indices { get; }

    internal SingleFaults Singles { get; }

    /// <summary>A session, or null where the layout has no booster or its healthy circuit has no solution.</summary>
    internal static Session? Open(Layout layout, ReadingSet set, FaultPriors priors)
    {
        RailGraph graph = RailGraph.Build(layout, [.. ReadingPlaces.Of(set), .. ReadingPlaces.Middles(layout)]);
        SessionBuilder builder = new(graph, set);
        return builder.Circuit(new CircuitCase([], true, null)) is { } circuit ? new(builder, circuit, set, priors) : null;
    }

    /// <summary>How hypotheses act in a case, worked out once.</summary>
    internal (Respondents Respondents, Trips Trips) Case(CaseCircuit circuit)
    {
        if (!_cases.TryGetValue(circuit, out (Respondents, Trips) known))
        {
            Respondents respondents = new(circuit, Hypotheses);
            _cases[circuit] = known = (respondents, new(respondents, Seen(circuit.Case)));
        }

        return known;
    }

    /// <summary>What breakers were seen to do in a case.</summary>
    private Dictionary<string, bool> Seen(CircuitCase given) => Set.Readings.OfType<MeterReading.Breaker>()
        .Where(reading => CircuitCase.Of(reading).Equals(given))
        .GroupBy(reading => reading.District, StringComparer.Ordinal)
        .ToDictionary(group => group.Key, group => group.Last().Trips, StringComparer.Ordinal);

    private static Hypothesis Pressed(Hypothesis hypothesis, ReadingSet set)
    {
        double log = hypothesis.LogOdds;
        foreach (MeterReading.Pressed pressed in set.Readings.OfType<MeterReading.Pressed>())
        {
            if (ReadingPlaces.IsAt(hypothesis.Part.Element, pressed.At))
            {
                log += Math.Log(Constants.Get(pressed.Worked ? "fault-pressed-odds" : "fault-pressed-in-vain").Value);
            }
        }

        return hypothesis with { LogOdds = log };
    }
}
