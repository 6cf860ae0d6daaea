using UnitsNet;
using WireUp.Circuits.Network;
using WireUp.Circuits.Numerics;
using WireUp.Circuits.Tests.Support;
using WireUp.Layouts;
using WireUp.Rails;

namespace WireUp.Circuits.Tests.Properties;

/// <summary>What is said of every place between the nodes, against circuits in which those places are nodes.</summary>
public sealed class PlaceTests
{
    private const int PlacesASection = 23;

    public static TheoryData<int> Seeds => [.. Enumerable.Range(1001, 60)];

    public static TheoryData<int> PlainSeeds => RandomPlans.PlainSeeds;

    [Theory]
    [MemberData(nameof(Seeds))]
    public void Resistance_between_nodes_is_what_an_ampere_drawn_there_shows(int seed)
    {
        (Layout layout, _) = RandomPlans.Make(seed);
        (NodalModel model, TrackSurvey survey) = Survey(layout, []);
        foreach (LiveSegment live in survey.Live)
        {
            TrackSegment segment = model.Circuit.Segments[live.Segment];
            TrackPlace place = segment.At(0.37);
            double drop = Math.Abs(Volts(layout, place, 0) - Volts(layout, place, 1));
            Close(drop, live.Ohms.At(0.37), 1e-9);
            Assert.True(live.Ohms.C2 <= 1e-12, "the parabola must open downward");
        }
    }

    [Theory]
    [MemberData(nameof(PlainSeeds))]
    public void No_place_is_worse_than_the_worst_place_reported(int seed)
    {
        (Layout layout, _) = RandomPlans.Make(seed);
        PowerReport report = PowerAnalysis.Solve(layout, PowerOptions.Default, TestContext.Current.CancellationToken);
        (NodalModel model, TrackSurvey survey) = Survey(layout, EverySection(layout));
        DesignCase design = new(model, survey, DesignLoad.Of(layout), PowerOptions.Default);
        double coin = layout.Defaults.Coin.Ohms;
        foreach (LiveSegment live in survey.Live)
        {
            DistrictPower district = report.Districts.Single(d => d.District == model.Circuit.Districts[live.District].District.Name);
            double volts = design.Volts(live).At(0), fault = live.OpenVolts(0) / (live.Ohms.At(0) + coin);
            Assert.True(volts >= district.LowestVolts.Volts.Volts - 1e-9, $"{volts} V below {district.LowestVolts.Volts}");
            Assert.True(fault >= district.LowestFault.FaultCurrent.Amperes - 1e-9, $"{fault} A below {district.LowestFault.FaultCurrent}");
        }
    }

    [Theory]
    [MemberData(nameof(PlainSeeds))]
    public void Further_stations_change_nothing(int seed)
    {
        (Layout layout, _) = RandomPlans.Make(seed);
        PowerReport few = PowerAnalysis.Solve(layout, PowerOptions.Default, TestContext.Current.CancellationToken);
        PowerReport many = PowerAnalysis.Solve(layout, new() { Probes = [.. EverySection(layout)] }, TestContext.Current.CancellationToken);
        Assert.Equal(few.Districts.Select(d => d.District), many.Districts.Select(d => d.District));
        Assert.All(few.Districts.Zip(many.Districts), pair =>
        {
            Close(pair.First.LowestVolts.Volts.Volts, pair.Second.LowestVolts.Volts.Volts, 1e-9);
            Close(pair.First.LowestFault.FaultCurrent.Amperes, pair.Second.LowestFault.FaultCurrent.Amperes, 1e-9);
        });
    }

    [Fact]
    public void Extremes_of_a_parabola_and_of_a_line_over_it_are_those_of_dense_sampling()
    {
        Random random = new(20250101);
        for (int i = 0; i < 2000; i++)
        {
            double Draw() => (2 * random.NextDouble()) - 1;
            Parabola parabola = new(3.5 + Draw(), Draw(), Draw());
            (double y0, double y1) = (2 + Draw(), Draw());
            double[] t = [.. Enumerable.Range(0, 2001).Select(k => k / 2000.0)];
            Close(t.Max(parabola.At), parabola.At(parabola.Highest()), 1e-6);
            Close(t.Min(parabola.At), parabola.At(parabola.Lowest()), 1e-6);
            double Ratio(double x) => (y0 + (y1 * x)) / (parabola.At(x) + 0.05);
            double least = Ratio(parabola.LowestRatio(y0, y1, 0.05));
            Close(t.Min(Ratio), least, 1e-6);
            Assert.True(least <= t.Min(Ratio) + 1e-15);
        }
    }

    private static (NodalModel Model, TrackSurvey Survey) Survey(Layout layout, IEnumerable<TrackPlace> places)
    {
        NodalModel model = NodalModel.Of(CircuitBuilder.Build(RailGraph.Build(layout, places), PowerOptions.Default.Turnouts));
        return (model, new TrackSurvey(model, model.Potentials([])));
    }

    private static double Volts(Layout layout, TrackPlace place, double amps)
    {
        PowerOptions options = new() { Loads = [new(place, ElectricCurrent.FromAmperes(amps))], Probes = [place] };
        return PowerAnalysis.Solve(layout, options, TestContext.Current.CancellationToken).Places[0].Volts.Volts;
    }

    private static IEnumerable<TrackPlace> EverySection(Layout layout) => layout.Track.OfType<Piece.Section>()
        .SelectMany(section => PlanBuilder.PlacesAlong(section.Id.Name, section.Length.Meters, PlacesASection));

    private static void Close(double expected, double actual, double relative) =>
        Assert.Equal(expected, actual, relative * (1 + Math.Abs(expected)));
}
