using System.Collections.Immutable;
using System.Globalization;
using WireUp.Circuits.Tests.Support;
using WireUp.Layouts;
using WireUp.Rails;

namespace WireUp.Circuits.Tests.Exact;

/// <summary>What a train that stands over a gap carries from one booster to the other.</summary>
public sealed class TrainsOverGapsTests
{
    private static readonly ImmutableSortedDictionary<PieceId, string> Normal = PowerOptions.Default.Turnouts;

    [Fact]
    public void Two_boosters_of_one_volt_apart_share_it_over_their_loops_and_the_train()
    {
        // Each side 0.1 + 0.2 ohm of source and 2 x 0.05 ohm of rail to the gap; the train 2 x 0.1 ohm: 1 V over 1 ohm.
        TrainOverGap train = Assert.Single(TrainsOverGaps.Of(RailGraph.Build(Pair(15, 14, RailSet.Both)), Normal));
        Assert.Equal(("a", "b", 1.0, 1.0), (train.District, train.OtherDistrict, Math.Round(train.Difference.Volts, 12), Math.Round(train.Current.Amperes, 12)));
    }

    [Fact]
    public void On_a_common_rail_the_other_rail_alone_carries_it()
    {
        // The uncut rail and the two wires joined to it carry the current back: its metre of 0.1 ohm, no matter how long the train.
        TrainOverGap train = Assert.Single(TrainsOverGaps.Of(RailGraph.Build(Pair(15, 14, RailSet.Left)), Normal));
        Assert.Equal(1 / ((2 * 0.3) + (2 * 0.05) + 0.1 + 0.1), train.Current.Amperes, 1e-12);
    }

    [Theory]
    [InlineData(15, 15, 0)]
    [InlineData(14, 15, -1)]
    public void Equal_boosters_leave_nothing_to_carry(double volts, double other, double difference)
    {
        TrainOverGap train = Assert.Single(TrainsOverGaps.Of(RailGraph.Build(Pair(volts, other, RailSet.Both)), Normal));
        Assert.Equal(difference, train.Difference.Volts, 1e-12);
        Assert.Equal(Math.Abs(difference), train.Current.Amperes, 1e-12);
    }

    [Fact]
    public void Districts_of_one_booster_and_opposite_polarities_are_left_out()
    {
        Layout one = new PlanBuilder().BareFeeds().Section("s", 2).Cut("s", 1)
            .Booster("x").District("a", "x").District("b", "x")
            .Feeder("f1", "s", 0.5, "a", "x").Feeder("f2", "s", 1.5, "b", "x").Build();
        Assert.Empty(TrainsOverGaps.Of(RailGraph.Build(one), Normal));
        Assert.Empty(TrainsOverGaps.Of(RailGraph.Build(Pair(15, 14, RailSet.Both, swap: true)), Normal));
    }

    [Fact]
    public void Of_each_two_districts_the_gap_with_most_current_is_kept_whichever_side_comes_first()
    {
        TrainOverGap one = Assert.Single(TrainsOverGaps.Of(RailGraph.Build(Pair(15, 14, RailSet.Both)), Normal));
        TrainOverGap turned = one with { District = "b", OtherDistrict = "a", Current = one.Current * 2 }, third = one with { OtherDistrict = "c" };
        Assert.Equal([turned, third], TrainsOverGaps.WorstOfEachPair([one, turned, third, one with { District = "c", OtherDistrict = "a", Current = one.Current / 2 }]));
    }

    [Theory]
    [MemberData(nameof(Seeds))]
    public void A_simulator_finds_the_same_current_through_the_same_train(int seed)
    {
        (Layout layout, _) = RandomPlans.Make(seed);
        RailGraph graph = RailGraph.Build(layout);
        string netlist = SpiceNetlist.Write(graph, PowerOptions.Default);
        foreach (TrainOverGap train in TrainsOverGaps.Of(graph, Normal))
        {
            (string Near, string Far)[] rails = Rails(layout, train.At, netlist);
            string bridged = netlist.Replace(".op\n", string.Concat(rails.Select((rail, i) =>
                string.Create(CultureInfo.InvariantCulture, $"Rtrain{i} {rail.Near} {rail.Far} 0.1\n"))) + ".op\n", StringComparison.Ordinal);
            IReadOnlyDictionary<string, double> volts = Ngspice.OperatingPoint(bridged);
            double amps = rails.Max(rail => Math.Abs(volts[rail.Near] - volts[rail.Far]) / 0.1);
            Assert.Equal(amps, train.Current.Amperes, 1e-6 * (1 + amps));
        }
    }

    /// <summary>The first forty random layouts that have such a gap inside a section.</summary>
    public static TheoryData<int> Seeds { get; } = [.. Enumerable.Range(1, 2000).Where(seed =>
        TrainsOverGaps.Of(RailGraph.Build(RandomPlans.Make(seed).Layout), Normal) is { IsEmpty: false } found
        && found.All(train => train.At is GapPlace.InSection && IsOnePart(seed))).Take(40)];

    /// <summary>Separate circuits have a node 0 each in our netlist and one in the simulator's: a bridge between them would be another circuit.</summary>
    private static bool IsOnePart(int seed)
    {
        Network.NodalModel model = Network.NodalModel.Of(Network.CircuitBuilder.Build(RailGraph.Build(RandomPlans.Make(seed).Layout), Normal));
        return model.Circuit.Sources.Select(source => model.Unknowns.Part(source.Minus)).Distinct().Count() == 1;
    }

    private static (string Near, string Far)[] Rails(Layout layout, GapPlace at, string netlist)
    {
        TrackPlace place = ((GapPlace.InSection)at).Place;
        Dictionary<string, string> nodes = netlist.Split('\n').Where(line => line.StartsWith("* place ", StringComparison.Ordinal))
            .ToDictionary(line => line["* place ".Length..line.LastIndexOf(' ')], line => line[(line.LastIndexOf(' ') + 1)..]);
        RailGraph graph = RailGraph.Build(layout);
        Station station = graph.Stations(place.Section).First(one => one.Metres == place.MetresFromA
            && (one.FirstTowardsA != one.FirstTowardsB || one.SecondTowardsA != one.SecondTowardsB));
        string Node(int node) => nodes[graph.Nodes[node].ToString()!];
        return [.. new[] { (station.FirstTowardsA, station.FirstTowardsB), (station.SecondTowardsA, station.SecondTowardsB) }
            .Where(pair => pair.Item1 != pair.Item2).Select(pair => (Node(pair.Item1), Node(pair.Item2)))];
    }

    private static Layout Pair(double volts, double otherVolts, RailSet gap, bool swap = false) => new PlanBuilder().BareFeeds()
        .Section("s", 1, 0.1).Cut("s", 0.5, gap)
        .Booster("x", volts, 0.1).Booster("y", otherVolts, 0.1)
        .District("a", "x", 0.2).District("b", "y", 0.2)
        .Feeder("f1", "s", 0, "a", "x", 0).Feeder("f2", "s", 1, "b", "y", 0, swap).Build();
}
