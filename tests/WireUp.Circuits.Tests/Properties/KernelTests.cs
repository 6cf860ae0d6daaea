using CsCheck;
using MathNet.Numerics.LinearAlgebra;
using WireUp.Circuits.Numerics;
using WireUp.Circuits.Tests.Support;

namespace WireUp.Circuits.Tests.Properties;

/// <summary>The numeric core against dense algebra, and laws that hold in every network.</summary>
public sealed class KernelTests
{
    [Fact]
    public void Solutions_and_selected_inverse_agree_with_dense_algebra() =>
        Gen.Int[0, 1_000_000].Sample(CompareWithDense, iter: 300, threads: 1, seed: "0000KmKpRGZ1");

    [Fact]
    public void Effective_resistance_times_conductance_adds_up_to_nodes_less_one() =>
        Gen.Int[0, 1_000_000].Sample(
            seed =>
            {
                (int nodes, (int, int, double)[] edges) = RandomNetworks.Make(seed);
                Assert.Equal(nodes - 1, new Resistors(nodes, edges, allPairs: false).Foster(), 1e-9 * nodes);
            },
            iter: 200,
            threads: 1,
            seed: "0000KmKpRGZ1");

    [Fact]
    public void Many_right_hand_sides_give_the_same_as_one_after_the_other() =>
        Gen.Int[0, 1_000_000].Sample(
            seed =>
            {
                (int nodes, (int, int, double)[] edges) = RandomNetworks.Make(seed);
                Resistors network = new(nodes, edges, allPairs: false, vertexOf: unknown => unknown / 2);
                double[][] sides = [.. Enumerable.Range(0, 11).Select(side => Enumerable.Range(0, nodes - 1).Select(i => Math.Cos(i + (3 * side) + seed)).ToArray())];
                double[][] expected = [.. sides.Select(side => network.Solve(side))];
                new ManySolveWorkspace(network.Workspace).Solve(sides);
                for (int side = 0; side < sides.Length; side++)
                {
                    double most = expected[side].Max(Math.Abs);
                    Assert.All(Enumerable.Range(0, nodes - 1), i => Assert.Equal(expected[side][i], sides[side][i], 1e-11 * most));
                }
            },
            iter: 100,
            threads: 1,
            seed: "0000KmKpRGZ1");

    [Fact]
    public void Targets_found_again_each_time_give_the_same_as_those_remembered()
    {
        (int nodes, (int, int, double)[] edges) = RandomNetworks.Make(4711);
        Resistors remembered = new(nodes, edges), again = new(nodes, edges, mostPairs: 0);
        Assert.True(remembered.Pattern.IsIndexed);
        Assert.False(again.Pattern.IsIndexed);
        for (int a = 0; a < nodes; a++)
        {
            for (int b = 0; b < nodes; b++)
            {
                Assert.Equal(remembered.Effective(a, b), again.Effective(a, b));
            }
        }
    }

    [Fact]
    public void A_second_factorisation_forgets_the_first()
    {
        (int nodes, (int From, int To, double Ohms)[] edges) = RandomNetworks.Make(99);
        Resistors network = new(nodes, edges);
        double before = network.Effective(0, nodes - 1);
        int[] from = [.. edges.Select(e => e.From - 1)], to = [.. edges.Select(e => e.To - 1)];
        int[] slots = network.Workspace.Slots(from, to);
        Assert.IsType<FactorOutcome.Solved>(network.Workspace.Factor(slots, [.. edges.Select(e => 0.5 / e.Ohms)]));
        network.Workspace.SelectInverse();
        Assert.Equal(2 * before, network.Effective(0, nodes - 1), before * 1e-12);
    }

    [Fact]
    public void A_node_tied_to_nothing_is_named()
    {
        // Nodes 3 and 4 hang together but on nothing else.
        Resistors network = new(5, [(0, 1, 1), (1, 2, 1), (3, 4, 1)], allPairs: false);
        int unknown = Assert.IsType<FactorOutcome.NotDefinite>(network.Outcome).Unknown;
        Assert.InRange(unknown, 2, 3);
    }

    [Fact]
    public void Conductances_twenty_powers_of_ten_apart_keep_their_digits()
    {
        // 1 Ω from node 2 to the reference, 10⁻¹⁰ Ω from 1 to 2, 10¹⁰ Ω from 1 to the reference: nearly all of it is node 2's ohm.
        Resistors network = new(3, [(2, 0, 1), (1, 2, 1e-10), (1, 0, 1e10)]);
        double expected = 1 / ((1 / (1 + 1e-10)) + 1e-10);
        Assert.Equal(expected, network.Effective(1, 0), expected * 4e-16);
    }

    private static void CompareWithDense(int seed)
    {
        (int nodes, (int From, int To, double Ohms)[] edges) = RandomNetworks.Make(seed);
        bool paired = seed % 2 == 0;
        Resistors network = new(nodes, edges, allPairs: seed % 3 == 0, vertexOf: paired ? unknown => unknown / 2 : null);
        Assert.IsType<FactorOutcome.Solved>(network.Outcome);
        Matrix<double> inverse = RandomNetworks.Dense(nodes, edges).Inverse();

        double[] amps = [.. Enumerable.Range(0, nodes - 1).Select(i => Math.Sin(i + seed))];
        Vector<double> expected = inverse * Vector<double>.Build.DenseOfArray(amps);
        double[] actual = network.Solve(amps);
        double scale = expected.AbsoluteMaximum();
        Assert.All(Enumerable.Range(0, nodes - 1), i => Assert.Equal(expected[i], actual[i], 1e-9 * scale));
        foreach ((int from, int to, _) in edges)
        {
            CompareEntry(network, inverse, from - 1, from - 1);
            CompareEntry(network, inverse, to - 1, to - 1);
            CompareEntry(network, inverse, from - 1, to - 1);
        }
    }

    private static void CompareEntry(Resistors network, Matrix<double> inverse, int a, int b)
    {
        double expected = a < 0 || b < 0 ? 0 : inverse[a, b];
        Assert.Equal(expected, network.Workspace.Inverse(a, b), 1e-10 * (Math.Abs(expected) + 1e-12));
    }
}
