using WireUp.Layouts;

namespace WireUp.Rails.Tests.Exact;

/// <summary>Which places of a section become stations of the graph; a thousandth of a millimetre is the same place.</summary>
public sealed class StationTests
{
    [Theory]
    [InlineData("", "0 2")]
    [InlineData("0.5 1.5", "0 0.5 1.5 2")]
    [InlineData("0", "0 2")] // the ends are stations already
    [InlineData("2", "0 2")]
    [InlineData("0.0000001 1.9999999", "0 2")]
    [InlineData("1 1.0000001", "0 1 2")]
    [InlineData("1 1.00001", "0 1 1.00001 2")]
    public void Places_asked_for_are_stations_once(string places, string stations) =>
        Assert.Equal(stations, Told(Graph(new PlanBuilder().Sections("s"), places)));

    [Fact]
    public void A_gap_and_a_feeder_at_one_place_are_one_station_cut_on_the_rails_of_the_gap()
    {
        RailGraph graph = new PlanBuilder().Sections("s").Gap("s@1", RailSet.Left).Feed("d", "s@1").Graph();
        Assert.Equal("0 1 2", Told(graph));
        Station middle = graph.Stations(new("s"))[1];
        Assert.NotEqual(middle.FirstTowardsA, middle.FirstTowardsB);
        Assert.Equal(middle.SecondTowardsA, middle.SecondTowardsB);
    }

    [Fact]
    public void Gaps_of_either_rail_at_one_place_cut_both()
    {
        RailGraph graph = new PlanBuilder().Sections("s").Gap("s@1", RailSet.Left).Gap("s@1", RailSet.Right).Graph();
        Assert.Equal("0 1 2", Told(graph));
        Station middle = graph.Stations(new("s"))[1];
        Assert.True(middle.FirstTowardsA != middle.FirstTowardsB && middle.SecondTowardsA != middle.SecondTowardsB);
    }

    [Fact]
    public void Rails_lie_between_neighbouring_stations_with_their_lengths()
    {
        RailGraph graph = Graph(new PlanBuilder().Sections("s"), "0.5");
        Assert.Equal(
            [(RailSide.Left, 0, 0.5), (RailSide.Left, 0.5, 1.5), (RailSide.Right, 0, 0.5), (RailSide.Right, 0.5, 1.5)],
            graph.Links.OfType<RailLink.Rail>().Select(rail => (rail.Side, rail.StartMetres, rail.LengthMetres)).Order());
    }

    [Theory]
    [InlineData(-0.001)]
    [InlineData(2.001)]
    public void A_place_outside_of_its_section_is_refused(double metres) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => RailGraph.Build(new PlanBuilder().Sections("s").Build(), [new(new("s"), metres)]));

    [Fact]
    public void A_place_that_nobody_asked_for_is_no_station()
    {
        RailGraph graph = Graph(new PlanBuilder().Sections("s"), "0.5");
        Assert.Equal(0.5, graph.StationAt(new(new("s"), 0.5)).Metres);
        Assert.Throws<KeyNotFoundException>(() => graph.StationAt(new(new("s"), 0.7)));
    }

    private static RailGraph Graph(PlanBuilder plan, string places) => RailGraph.Build(
        plan.Build(),
        [.. places.Split(' ', StringSplitOptions.RemoveEmptyEntries).Select(place => new TrackPlace(new("s"), double.Parse(place, System.Globalization.CultureInfo.InvariantCulture)))]);

    private static string Told(RailGraph graph) =>
        string.Join(' ', graph.Stations(new("s")).Select(station => station.Metres.ToString("0.######", System.Globalization.CultureInfo.InvariantCulture)));
}
