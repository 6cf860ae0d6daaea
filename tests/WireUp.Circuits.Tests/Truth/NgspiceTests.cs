using System.Collections.Immutable;
using UnitsNet;
using WireUp.Benchmarks;
using WireUp.Circuits.Network;
using WireUp.Circuits.Numerics;
using WireUp.Circuits.Tests.Support;
using WireUp.Layouts;
using WireUp.Rails;

namespace WireUp.Circuits.Tests.Truth;

/// <summary>An independent simulator solves the netlists that we write: every node must come out the same.</summary>
public sealed class NgspiceTests
{
    /// <summary>Relative to the node's voltage; voltages below a millivolt are compared to a nanovolt.</summary>
    private const double Relative = 1e-6;

    /// <summary>Among 45,000 nodes at up to 16 V some lie within nanovolts of the reference: below 50 mV compared to 50 nV.</summary>
    private const double LeastVoltsOfMany = 0.05;

    public static TheoryData<int> Seeds => [.. Enumerable.Range(1, 100)];

    public static TheoryData<string> Samples => SampleFiles.Names;

    [Theory]
    [MemberData(nameof(Seeds))]
    public void Every_node_of_a_random_layout_agrees(int seed)
    {
        (Layout layout, PowerOptions options) = RandomPlans.Make(seed);
        Compare(layout, options, NetlistLoads.Given);
    }

    [Theory]
    [MemberData(nameof(Seeds))]
    public void Every_node_of_a_random_layout_of_all_kinds_of_trackwork_agrees(int seed)
    {
        (Layout layout, PowerOptions options) = RandomTrackwork.Make(seed);
        Compare(layout, options, NetlistLoads.Given);
    }

    [Theory]
    [MemberData(nameof(Seeds))]
    public void Every_node_of_a_random_layout_with_loads_that_answer_to_their_volts_agrees(int seed)
    {
        (Layout layout, PowerOptions options) = RandomPlans.MakeWithDemands(seed);
        if (PowerAnalysis.Solve(layout, options, TestContext.Current.CancellationToken).Problems.IsEmpty)
        {
            Compare(layout, options, NetlistLoads.Given);
        }
        else
        {
            // Nothing but loads beyond what can be had may stand in the way; the exact tests show that these are refused rightly.
            Assert.All(
                PowerAnalysis.Solve(layout, options, TestContext.Current.CancellationToken).Problems,
                problem => Assert.IsType<CircuitProblem.NoOperatingPoint>(problem));
        }
    }

    [Theory]
    [MemberData(nameof(Samples))]
    public void Every_node_of_a_sample_agrees_under_its_design_load(string file)
    {
        Layout layout = SampleFiles.Wired(file);
        Compare(layout, PowerOptions.Default, NetlistLoads.SpreadDesign);
        Compare(layout, LoadsInEverySection(layout), NetlistLoads.Given);
    }

    [Fact]
    public void Every_node_of_a_generated_layout_of_ten_thousand_pieces_agrees() =>
        Compare(LayoutGenerator.Make(10_000), PowerOptions.Default, NetlistLoads.SpreadDesign, LeastVoltsOfMany);

    [Fact]
    public void Places_of_the_report_are_found_in_the_netlist_by_their_names()
    {
        (Layout layout, PowerOptions options) = RandomPlans.Make(3);
        PowerReport report = PowerAnalysis.Solve(layout, options, TestContext.Current.CancellationToken);
        string netlist = SpiceNetlist.Write(RailGraph.Build(layout, options.Places), options);
        ImmutableDictionary<string, string> nodes = Places(netlist);
        IReadOnlyDictionary<string, double> volts = Ngspice.OperatingPoint(netlist);
        foreach (PlaceVolts place in report.Places.Where(place => place.Volts.Volts != 0 && nodes.ContainsKey($"{place.At}/left")))
        {
            double between = volts[nodes[$"{place.At}/left"]] - volts[nodes[$"{place.At}/right"]];
            Close(between, place.Volts.Volts, place.At.ToString());
        }
    }

    [Theory]
    [InlineData("cab-a")]
    [InlineData("cab-b")]
    public void Every_node_of_a_block_with_a_selector_agrees(string position)
    {
        PowerOptions set = new()
        {
            Turnouts = ImmutableSortedDictionary<PieceId, string>.Empty.Add(new("B1"), position),
            Loads = [new(new(new("s"), 3), ElectricCurrent.FromAmperes(0.7))],
        };
        Compare(TwoCabs.Block(), set, NetlistLoads.Given);
    }

    private static void Compare(Layout layout, PowerOptions options, NetlistLoads which, double leastVolts = 1e-3)
    {
        RailGraph graph = RailGraph.Build(layout, options.Places);
        NodalModel model = NodalModel.Of(CircuitBuilder.Build(graph, options.Turnouts));
        Assert.IsType<FactorOutcome.Solved>(model.Outcome);
        TrackSurvey survey = new(model, model.Potentials([]));
        double[] ours = which == NetlistLoads.Given
            ? new PlacedCase(model, survey, options).Potentials
            : new DesignCase(model, survey, DesignLoad.Of(layout), options).Potentials;

        string netlist = SpiceNetlist.Write(graph, options, which);
        IReadOnlyDictionary<string, double> theirs = Ngspice.OperatingPoint(netlist);
        ImmutableDictionary<string, string> nodes = Places(netlist);
        int compared = 0;
        for (int node = 0; node < model.Circuit.NodeCount; node++)
        {
            if (model.Unknowns.Of(node) != Unknowns.Unfed)
            {
                string name = model.Circuit.NameOf(node);
                Close(theirs[nodes[name]], model.PotentialOf(node, ours), name, leastVolts);
                compared++;
            }
        }

        Assert.True(compared > 4);
    }

    private static PowerOptions LoadsInEverySection(Layout layout) => new()
    {
        Loads = [.. layout.Track.OfType<Piece.Section>().Select((section, i) =>
            new PlacedLoad(new(section.Id, section.Length.Meters / 3), ElectricCurrent.FromAmperes(0.02 + (0.01 * (i % 5)))))],
    };

    private static ImmutableDictionary<string, string> Places(string netlist) => netlist.Split('\n')
        .Where(line => line.StartsWith("* place ", StringComparison.Ordinal))
        .Select(line => (Place: line["* place ".Length..line.LastIndexOf(' ')], Node: line[(line.LastIndexOf(' ') + 1)..]))
        .ToImmutableDictionary(pair => pair.Place, pair => pair.Node);

    private static void Close(double expected, double actual, string place, double leastVolts = 1e-3)
    {
        double allowed = Relative * Math.Max(Math.Abs(expected), leastVolts);
        Assert.True(Math.Abs(expected - actual) <= allowed, $"{place}: simulator {expected:R} V, ours {actual:R} V");
    }
}
