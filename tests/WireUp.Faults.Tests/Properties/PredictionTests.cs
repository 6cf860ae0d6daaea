using System.Collections.Immutable;
using WireUp.Circuits;
using WireUp.Circuits.Tests.Support;
using WireUp.Faults.Network;
using WireUp.Faults.Search;
using WireUp.Faults.Tests.Support;
using WireUp.Layouts;
using WireUp.Rails;

namespace WireUp.Faults.Tests.Properties;

/// <summary>Predictions by small changes of one factor against the changed circuit solved from nothing by another solver.</summary>
public sealed class PredictionTests
{
    private const double MeterOhms = 1e7, LoadOhms = 25;

    public static TheoryData<int> Seeds => [.. Enumerable.Range(1, 40)];

    [Theory]
    [MemberData(nameof(Seeds))]
    public void Volts_under_every_single_fault_are_those_of_the_changed_circuit(int seed) => Check(seed, isPowered: true, (circuit, a, b, load) =>
        (Probe.Volts(circuit, a, b, MeterOhms, Box(circuit, load)), solver => solver.Add(a, b, MeterOhms).Add(load.First, load.Second, LoadOhms).Volts(a, b)));

    [Theory]
    [MemberData(nameof(Seeds))]
    public void Current_in_a_wire_under_every_single_fault_is_that_of_the_changed_circuit(int seed) => Check(seed, isPowered: true, (circuit, _, _, load) =>
    {
        Branch wire = circuit.SeriesOfWire(circuit.Circuit.Sources.Length + circuit.Circuit.Districts.Length)!.Value;
        return (Probe.Current(circuit, wire, Box(circuit, load)), solver => solver.Add(load.First, load.Second, LoadOhms).Amps(wire.Element));
    });

    [Theory]
    [MemberData(nameof(Seeds))]
    public void Resistance_under_every_single_fault_is_that_of_the_changed_circuit(int seed) => Check(seed, isPowered: false, (circuit, a, b, _) =>
        (Probe.Resistance(circuit, a, b), solver => solver.Ohms(a, b)));

    [Theory]
    [MemberData(nameof(Seeds))]
    public void Two_faults_at_a_time_are_those_of_the_changed_circuit(int seed)
    {
        (CaseCircuit circuit, Respondents all, Random random) = Open(seed, isPowered: true);
        (int a, int b, (int First, int Second) load) = Places(circuit, random);
        Probe probe = Probe.Volts(circuit, a, b, MeterOhms, Box(circuit, load));
        int[] single = [.. Enumerable.Range(0, all.Hypotheses.Length).Where(h => all[h] is not null && all.Hypotheses[h].State != FaultState.Weak)];
        for (int k = 0; k < 20; k++)
        {
            (int one, int other) = (single[random.Next(single.Length)], single[random.Next(single.Length)]);
            if (all[one] == all[other])
            {
                continue;
            }

            double[] q = [Q(all.Hypotheses[one], random), Q(all.Hypotheses[other], random)];
            double expected = new DenseSolver(circuit).Change(all[one]!.Value, q[0]).Change(all[other]!.Value, q[1])
                .Add(a, b, MeterOhms).Add(load.First, load.Second, LoadOhms).Volts(a, b);
            AssertClose(expected, probe.Value([all[one]!.Value, all[other]!.Value], q));
            Branch first = all[one]!.Value;
            double between = circuit.Between(circuit.Column(first.From, first.To), first, all[other]!.Value);
            (double value, Response response) = probe.Given(probe.Place(all.Offered(one)!.Value), q[0], probe.Place(all.Offered(other)!.Value), between);
            AssertClose(expected, value + response.Change(q[1]));
        }
    }

    private static void Check(int seed, bool isPowered, Func<CaseCircuit, int, int, (int First, int Second), (Probe, Func<DenseSolver, double>)> make)
    {
        (CaseCircuit circuit, Respondents all, Random random) = Open(seed, isPowered);
        (int a, int b, (int First, int Second) load) = Places(circuit, random);
        (Probe probe, Func<DenseSolver, double> solve) = make(circuit, a, b, load);
        AssertClose(solve(new(circuit)), probe.Healthy);
        int asked = 0;
        for (int h = 0; h < all.Hypotheses.Length; h++)
        {
            if (all[h] is { } branch && all.Hypotheses[h].State != FaultState.Weak)
            {
                double q = Q(all.Hypotheses[h], random);
                AssertClose(solve(new DenseSolver(circuit).Change(branch, q)), probe.Healthy + all.Respond(probe, h).Change(q));
                asked++;
            }
        }

        Assert.True(asked > 10);
    }

    private static (CaseCircuit Circuit, Respondents All, Random Random) Open(int seed, bool isPowered)
    {
        (Layout layout, PowerOptions options) = seed % 2 == 0 ? RandomPlans.Make(seed) : RandomTrackwork.Make(seed);
        RailGraph graph = RailGraph.Build(layout, options.Probes.Concat(options.Loads.Select(load => load.At)));
        ImmutableArray<Setting> settings = [.. options.Turnouts.Select(pair => new Setting(pair.Key, pair.Value))];
        CaseCircuit circuit = CaseCircuit.Build(graph, new CircuitCase(settings, isPowered, null))!;
        return (circuit, new(circuit, HypothesisList.Of(circuit, new(circuit.Circuit), FaultPriors.Usual)), new(seed));
    }

    private static (int A, int B, (int First, int Second) Load) Places(CaseCircuit circuit, Random random)
    {
        Piece[] pieces = [.. circuit.Circuit.Graph.Layout.Track.Where(piece => piece.PlacesMetres is not null)];
        Station station = circuit.Circuit.Graph.Stations(pieces[random.Next(pieces.Length)].Id)[0];
        int count = circuit.Circuit.NodeCount, a = random.Next(count), b = random.Next(count - 1);
        return (a, b >= a ? b + 1 : b, (station.FirstTowardsB, station.SecondTowardsB));
    }

    private static (Branch, double, double[]) Box(CaseCircuit circuit, (int First, int Second) load) =>
        (Branch.Joining(load.First, load.Second), LoadOhms, circuit.Column(load.First, load.Second));

    /// <summary>Of what has a value, any value of its range.</summary>
    private static double Q(Hypothesis hypothesis, Random random) => hypothesis.HasValue
        ? Respondents.QOf(hypothesis, hypothesis.Least!.Value * Math.Pow(hypothesis.Most!.Value / hypothesis.Least!.Value, random.NextDouble()))
        : Respondents.FixedQ(hypothesis);

    /// <summary>Parts hang together by 100 Mohm where no metal joins them: what is above a tenth of that is open, and the dense equations lose digits.</summary>
    private static void AssertClose(double expected, double actual)
    {
        const double Open = CaseCircuit.InsulationOhms / 10;
        bool areOpen = Math.Abs(expected) > Open && Math.Abs(actual) > Open;
        Assert.True(areOpen || Math.Abs(expected - actual) <= 5e-4 + (3e-4 * Math.Abs(expected)), $"{actual} is not {expected}");
    }
}
