using WireUp.Circuits.Numerics;
using WireUp.Circuits.Tests.Support;

namespace WireUp.Circuits.Tests.Exact;

/// <summary>Networks with classical answers, changed without a new factorisation; and what hangs on one conductance alone.</summary>
public sealed class ChangedNetworkTests
{
    public static TheoryData<string, int, double> EdgeTransitive => new()
    {
        // Every edge carries R = (nodes − 1)/edges; opened, R/(1 − R) is left; with another ohm beside it, R/(1 + R).
        { "cube", 8, 7.0 / 12 },
        { "Petersen", 10, 3.0 / 5 },
        { "octahedron", 6, 5.0 / 12 },
        { "dodecahedron", 20, 19.0 / 30 },
    };

    [Theory]
    [MemberData(nameof(EdgeTransitive))]
    public void Edges_opened_and_doubled_one_by_one_leave_what_the_closed_form_says(string name, int nodes, double effective)
    {
        (int From, int To, double Ohms)[] edges = [.. Graph(name)];
        UpdateWorkspace update = new(new Resistors(nodes, edges).Workspace, 2);
        foreach ((int from, int to, _) in edges)
        {
            update.Keep(0);
            int port = update.Add(from - 1, to - 1);
            Assert.Equal((from - 1, to - 1), (update.From(port), update.To(port)));
            Assert.Equal(effective, update.Ohms(port, port), 1e-12);
            Assert.Equal(effective - 1, update.Pivot(port, -1), 1e-12);
            update.Change(port, -1);
            Assert.Equal(effective / (1 - effective), update.Ohms(port, port), 1e-12);
            update.Keep(1);
            update.Change(port, 1);
            Assert.Equal(effective / (1 + effective), update.Ohms(port, port), 1e-12);
            update.Change(port, 0);
            Assert.Equal(0, update.Ohms(port, port), 1e-15);
        }
    }

    [Fact]
    public void A_ring_with_one_edge_opened_is_a_line_and_with_a_chord_a_bridge()
    {
        // Six ohms in a ring, an ampere from node 0 round to node 3: 1.5 V. Without the edge 0-1 all of it goes the other way: 3 V.
        Resistors ring = new(6, NamedGraphs.Ring(6));
        double[] before = ring.Solve(0, 0, -1, 0, 0);
        UpdateWorkspace update = new(ring.Workspace, 4);
        int across = update.Add(-1, 2), edge = update.Add(-1, 0), chord = update.Add(1, 4);
        Reset();
        Assert.Equal([1.5, 0.5, -0.5], [update.Volts(across), update.Volts(edge), update.Volts(chord)], Same);

        update.Change(edge, -1);
        Assert.Equal([3, 3, 3, -2], [update.Volts(across), update.Ohms(across, across), update.Volts(edge), update.Ohms(across, chord)], Same);

        // A wire from node 2 to node 5 of that line 0-5-4-3-2-1: an ohm to them, then one beside two.
        update.Change(chord, 0);
        Assert.Equal([5.0 / 3, 5.0 / 3, 0], [update.Volts(across), update.Ohms(across, across), update.Volts(chord)], Same);
        double[] amps = new double[2];
        update.Currents(amps);
        double[] change = ring.Solve(amps[0], -amps[1], 0, 0, amps[1]);
        Assert.Equal([-1, -1, -5.0 / 3, -4.0 / 3, -1], before.Zip(change, (was, more) => was + more), Same);

        // An ohm as the chord of the whole ring: a bridge of 2, 1, 1 and 2 ohms with one across.
        update.Keep(3);
        Reset();
        update.Change(chord, 1);
        Assert.Equal([1.4, 1.4], [update.Volts(across), update.Ohms(across, across)], Same);

        void Reset() => (update.Volts(across), update.Volts(edge), update.Volts(chord)) = (-before[2], -before[0], before[1] - before[4]);
    }

    [Fact]
    public void Two_conductances_between_the_same_unknowns_are_no_bridge()
    {
        BridgeTree tree = new(2, [-1, 0, 0], [0, 1, 1]);
        Assert.Equal(0, tree.Beyond(0, -1));
        Assert.Equal(BridgeTree.None, tree.Beyond(0, 1));
        Assert.True(tree.IsBeyond(0, 1));
        Assert.False(tree.IsBeyond(0, -1));
    }

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void A_ring_on_a_lead_with_a_stub_on_it_has_the_lead_and_the_stub_as_its_bridges(bool turned)
    {
        // Reference - 0 - (ring 1, 2, 3) and 2 - 4 - 5; another lead to 6; 7 hangs on nothing.
        int[] from = [-1, 0, 1, 2, 3, 2, 4, -1], to = [0, 1, 2, 3, 1, 4, 5, 6];
        BridgeTree tree = turned ? new(8, [.. to.Reverse()], [.. from.Reverse()]) : new(8, from, to);
        (int, int, int)[] bridges = [(-1, 0, 0), (0, 1, 1), (2, 4, 4), (4, 5, 5), (-1, 6, 6)];
        foreach ((int near, int far, int beyond) in bridges)
        {
            Assert.Equal((beyond, beyond), (tree.Beyond(near, far), tree.Beyond(far, near)));
        }

        Assert.All(new[] { (1, 2), (2, 3), (3, 1) }, edge => Assert.Equal(BridgeTree.None, tree.Beyond(edge.Item1, edge.Item2)));
        Assert.Equal([0, 1, 2, 3, 4, 5], Beyond(0));
        Assert.Equal([1, 2, 3, 4, 5], Beyond(1));
        Assert.Equal([4, 5], Beyond(4));
        Assert.Equal([5], Beyond(5));
        Assert.Equal([6], Beyond(6));

        IEnumerable<int> Beyond(int bridge) => Enumerable.Range(-1, 8).Where(unknown => tree.IsBeyond(bridge, unknown));
    }

    private static bool Same(double one, double other) => Math.Abs(one - other) < 1e-12;

    private static IEnumerable<(int From, int To, double Ohms)> Graph(string name) => name switch
    {
        "cube" => NamedGraphs.Cube(),
        "Petersen" => NamedGraphs.Petersen(),
        "octahedron" => NamedGraphs.Octahedron(),
        _ => NamedGraphs.Dodecahedron(),
    };
}
