using CsCheck;
using MathNet.Numerics.LinearAlgebra;
using WireUp.Circuits.Numerics;
using WireUp.Circuits.Tests.Support;

namespace WireUp.Circuits.Tests.Properties;

/// <summary>Networks changed without a new factorisation, against dense algebra and the graph.</summary>
public sealed class UpdateTests
{
    [Fact]
    public void Random_sequences_of_changes_agree_with_dense_algebra() =>
        Gen.Int[0, 1_000_000].Sample(CompareSequences, iter: 300, threads: 1, seed: "0000KmKpRGZ1");

    [Fact]
    public void Any_entry_of_the_inverse_comes_from_two_half_solutions() =>
        Gen.Int[0, 1_000_000].Sample(CompareHalves, iter: 200, threads: 1, seed: "0000KmKpRGZ1");

    [Fact]
    public void A_bridge_of_the_graph_is_what_has_an_effective_resistance_of_its_own() =>
        Gen.Int[0, 1_000_000].Sample(CompareBridges, iter: 300, threads: 1, seed: "0000KmKpRGZ1");

    private static void CompareSequences(int seed)
    {
        (int nodes, (int From, int To, double Ohms)[] edges) = RandomNetworks.Make(seed);
        Random random = new(seed);
        Resistors network = new(nodes, edges, allPairs: false, vertexOf: seed % 2 == 0 ? unknown => unknown / 2 : null);
        double[] amps = [.. Enumerable.Range(0, nodes - 1).Select(i => Math.Sin(i + seed))], before = network.Solve(amps);
        UpdateWorkspace update = new(network.Workspace, 8);
        (int From, int To)[] places = [.. Enumerable.Range(0, 3).Select(_ => (random.Next(nodes) - 1, random.Next(nodes) - 1))];
        foreach ((int from, int to) in places)
        {
            update.Add(from, to);
        }

        for (int round = 0; round < 4; round++)
        {
            update.Keep(places.Length);
            (int From, int To, double Siemens)[] changes = [.. RandomNetworks.Changes(random, nodes, edges)];
            foreach ((int from, int to, _) in changes)
            {
                update.Add(from, to);
            }

            Matrix<double> changed = Dense(nodes, edges, changes).Inverse();
            Apply(update, places, changes, before);
            Compare(update, places, changed, amps);
            CompareCurrents(update, network, changes, before, changed * Vector<double>.Build.DenseOfArray(amps));
        }
    }

    private static void Apply(UpdateWorkspace update, (int From, int To)[] places, (int From, int To, double Siemens)[] changes, double[] before)
    {
        for (int port = 0; port < update.Count; port++)
        {
            update.Volts(port) = At(before, update.From(port)) - At(before, update.To(port));
        }

        for (int c = 0; c < changes.Length; c++)
        {
            update.Change(places.Length + c, 1 / changes[c].Siemens);
        }
    }

    private static void Compare(UpdateWorkspace update, (int From, int To)[] places, Matrix<double> inverse, double[] amps)
    {
        Vector<double> potentials = inverse * Vector<double>.Build.DenseOfArray(amps);
        double most = potentials.AbsoluteMaximum();
        for (int p = 0; p < places.Length; p++)
        {
            Assert.Equal(At(potentials, places[p].From) - At(potentials, places[p].To), update.Volts(p), 1e-7 * most);
            for (int q = 0; q < places.Length; q++)
            {
                double expected = Entry(inverse, places[p].From, places[q].From) + Entry(inverse, places[p].To, places[q].To)
                    - Entry(inverse, places[p].From, places[q].To) - Entry(inverse, places[p].To, places[q].From);
                Assert.Equal(expected, update.Ohms(p, q), 1e-7 * inverse.Enumerate().Max(Math.Abs));
            }
        }
    }

    /// <summary>One solution with the currents of all changes gives every potential.</summary>
    private static void CompareCurrents(
        UpdateWorkspace update, Resistors network, (int From, int To, double Siemens)[] changes, double[] before, Vector<double> expected)
    {
        double[] drawn = new double[changes.Length], right = new double[before.Length];
        update.Currents(drawn);
        for (int c = 0; c < changes.Length; c++)
        {
            Add(right, changes[c].From, -drawn[c]);
            Add(right, changes[c].To, drawn[c]);
        }

        double[] difference = network.Solve(right);
        Assert.All(Enumerable.Range(0, before.Length), i => Assert.Equal(expected[i], before[i] + difference[i], 1e-7 * expected.AbsoluteMaximum()));
    }

    private static void CompareHalves(int seed)
    {
        (int nodes, (int From, int To, double Ohms)[] edges) = RandomNetworks.Make(seed);
        Resistors network = new(nodes, edges, allPairs: false, vertexOf: seed % 2 == 0 ? unknown => unknown / 2 : null);
        Matrix<double> inverse = Dense(nodes, edges, []).Inverse();
        HalfSolveWorkspace solver = new(network.Workspace);
        (HalfSolution a, HalfSolution b) = (new(), new());
        Random random = new(seed);
        for (int i = 0; i < 20; i++)
        {
            (int first, int second) = (random.Next(nodes) - 1, random.Next(nodes) - 1);
            solver.Solve(first, ConductanceWorkspace.Reference, a);
            solver.Solve(second, ConductanceWorkspace.Reference, b);
            double expected = Entry(inverse, first, second);
            Assert.Equal(expected, solver.Between(a, b), 1e-10 * (Math.Abs(expected) + 1e-12));
        }
    }

    private static void CompareBridges(int seed)
    {
        (int nodes, (int From, int To, double Ohms)[] edges) = RandomNetworks.Make(seed);
        Resistors network = new(nodes, edges, allPairs: false);
        BridgeTree tree = new(nodes - 1, [.. edges.Select(e => e.From - 1)], [.. edges.Select(e => e.To - 1)]);
        foreach ((int from, int to, double ohms) in edges)
        {
            int beyond = tree.Beyond(from - 1, to - 1);
            double effective = network.Effective(from, to);
            bool[] reached = RandomNetworks.ReachedWithout(nodes, edges, (from, to));
            Assert.Equal(Array.Exists(reached, is_ => !is_), beyond != BridgeTree.None);
            Assert.Equal(beyond != BridgeTree.None, 1 - (effective / ohms) < 1e-9);
            Assert.All(Enumerable.Range(0, nodes), node => Assert.Equal(!reached[node], beyond != BridgeTree.None && tree.IsBeyond(beyond, node - 1)));
        }
    }

    private static double At(IList<double> values, int unknown) => unknown < 0 ? 0 : values[unknown];

    private static double Entry(Matrix<double> inverse, int a, int b) => a < 0 || b < 0 ? 0 : inverse[a, b];

    private static void Add(double[] values, int unknown, double amps)
    {
        if (unknown >= 0)
        {
            values[unknown] += amps;
        }
    }

    private static Matrix<double> Dense(int nodes, (int From, int To, double Ohms)[] edges, (int From, int To, double Siemens)[] changes)
    {
        Matrix<double> matrix = RandomNetworks.Dense(nodes, edges);
        foreach ((int from, int to, double siemens) in changes)
        {
            RandomNetworks.Stamp(matrix, from, to, siemens);
        }

        return matrix;
    }
}
