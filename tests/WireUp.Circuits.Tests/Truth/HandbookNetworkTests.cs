using WireUp.Circuits.Tests.Support;

namespace WireUp.Circuits.Tests.Truth;

/// <summary>Worked examples of T. R. Kuphaldt, Lessons in Electric Circuits, volume I, and classical networks with exact answers.</summary>
public sealed class HandbookNetworkTests
{
    [Fact]
    public void Unbalanced_bridge_has_the_printed_voltages()
    {
        // 24 V between nodes 1 and 0; the source's current goes in at node 1.
        Resistors bridge = new(4, [(1, 2, 150), (1, 3, 50), (2, 3, 100), (2, 0, 300), (3, 0, 250)]);
        double[] volts = bridge.Solve(0.136092, 0, 0);
        Close(24.000, volts[0], 1e-4);
        Close(17.655, volts[1], 1e-4);
        Close(19.310, volts[2], 1e-4);
        Close(24 / 0.136092, bridge.Effective(1, 0), 1e-5);
    }

    [Fact]
    public void Two_sources_and_five_resistors_have_the_printed_voltages()
    {
        // 10 V behind 2 Ω at node 1, −4 V behind 1 Ω at node 2: as currents 5 A and −4 A beside their resistances.
        Resistors network = new(3, [(1, 0, 2), (1, 0, 4), (1, 2, 2.5), (2, 0, 5), (2, 0, 1)]);
        double[] volts = network.Solve(5, -4);
        Close(3.809524, volts[0], 1e-6);
        Close(-1.547619, volts[1], 1e-6);
    }

    [Fact]
    public void Polyhedra_have_their_classical_resistances()
    {
        ByDistance(8, NamedGraphs.Cube(), 7.0 / 12, 3.0 / 4, 5.0 / 6);
        ByDistance(10, NamedGraphs.Petersen(), 3.0 / 5, 4.0 / 5);
        ByDistance(6, NamedGraphs.Octahedron(), 5.0 / 12, 1.0 / 2);
        ByDistance(12, NamedGraphs.Icosahedron(), 11.0 / 30, 7.0 / 15, 1.0 / 2);
        ByDistance(20, NamedGraphs.Dodecahedron(), 19.0 / 30, 9.0 / 10, 16.0 / 15, 17.0 / 15, 7.0 / 6);
    }

    [Theory]
    [InlineData(2)]
    [InlineData(5)]
    [InlineData(17)]
    public void Complete_graphs_have_two_over_n(int n) =>
        ByDistance(n, NamedGraphs.Complete(n), 2.0 / n);

    [Theory]
    [InlineData(3)]
    [InlineData(8)]
    [InlineData(31)]
    public void Rings_have_k_times_n_less_k_over_n(int n)
    {
        Resistors ring = new(n, NamedGraphs.Ring(n));
        for (int k = 1; k < n; k++)
        {
            Close((double)k * (n - k) / n, ring.Effective(0, k), 1e-12);
        }
    }

    [Fact]
    public void The_grid_of_nine_has_its_corner_resistances()
    {
        Resistors grid = new(9, NamedGraphs.Grid3());
        Close(1.5, grid.Effective(0, 8), 1e-12);
        Close(1.25, grid.Effective(0, 2), 1e-12);
    }

    [Fact]
    public void Ladders_run_through_ratios_of_Fibonacci_numbers()
    {
        double[] expected = [2, 5.0 / 3, 13.0 / 8, 34.0 / 21, 89.0 / 55, 233.0 / 144];
        for (int stages = 1; stages <= expected.Length; stages++)
        {
            // Node 1 is the input; each stage is 1 Ω onward and 1 Ω down.
            var edges = Enumerable.Range(1, stages).SelectMany(i => new[] { (i, i + 1, 1.0), (i + 1, 0, 1.0) });
            Close(expected[stages - 1], new Resistors(stages + 2, edges).Effective(1, 0), 1e-12);
        }
    }

    private static void ByDistance(int n, IEnumerable<(int From, int To, double Ohms)> edges, params double[] expected)
    {
        int[] distance = NamedGraphs.Distances(n, edges);
        Assert.Equal(expected.Length, distance.Max());
        Resistors network = new(n, edges);
        for (int node = 1; node < n; node++)
        {
            Close(expected[distance[node] - 1], network.Effective(0, node), 1e-12);
        }
    }

    private static void Close(double expected, double actual, double relative) =>
        Assert.Equal(expected, actual, Math.Abs(expected) * relative);
}
