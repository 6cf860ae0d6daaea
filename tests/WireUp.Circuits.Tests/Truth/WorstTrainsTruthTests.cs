using System.Collections.Immutable;
using WireUp.Circuits.Tests.Support;
using WireUp.Circuits.Trains;
using WireUp.Layouts;
using WireUp.Rails;

namespace WireUp.Circuits.Tests.Truth;

/// <summary>An independent simulator solves the samples with trains at their worst places: each must get what was told.</summary>
public sealed class WorstTrainsTruthTests
{
    [Theory]
    [InlineData("home-yard.layout.yaml", 4)]
    [InlineData("tarrow-valley-as-built.layout.yaml", 3)]
    [InlineData("tarrow-valley-as-built.layout.yaml", 8)]
    [InlineData("programming-spur.layout.yaml", 2)]
    [InlineData("two-cabs.layout.yaml", 2)]
    public void Volts_at_every_engine_agree(string file, int count)
    {
        Layout layout = SampleFiles.Wired(file);
        ImmutableArray<TrainDemand> trains = [.. TrainDemand.Of(layout, count).Select((train, i) => train with { Name = $"train {i}", LitCars = 0 })];
        WorstTrainsReport report = WorstTrains.Find(RailGraph.Build(layout), PowerOptions.Default, trains, null, TestContext.Current.CancellationToken);
        int compared = 0;
        foreach (DistrictTrains district in report.Districts)
        {
            PowerOptions options = new()
            {
                Loads = [.. district.Trains.Select(train => new PlacedLoad(train.At, trains.First(one => one.Name == train.Train).Engines))],
            };
            string netlist = SpiceNetlist.Write(RailGraph.Build(layout, options.Places), options);
            IReadOnlyDictionary<string, double> volts = Ngspice.OperatingPoint(netlist);
            if (!district.Trains.All(train => Node(netlist, layout, train.At, "left") is not null))
            {
                continue;
            }

            foreach (StandingTrainPower train in district.Trains)
            {
                double between = volts[Node(netlist, layout, train.At, "left")!] - volts[Node(netlist, layout, train.At, "right")!];
                Assert.Equal(Math.Abs(train.Volts.Volts), Math.Abs(between), 1e-6 * (1 + Math.Abs(train.Volts.Volts)));
                compared++;
            }
        }

        Assert.True(compared >= count, $"only {compared} places compared");
    }

    /// <summary>The node of a rail at a place, at an end by the end's name; null at a gap, where it has two.</summary>
    private static string? Node(string netlist, Layout layout, TrackPlace place, string side)
    {
        double length = layout.Track.OfType<Piece.Section>().Single(section => section.Id == place.Section).Length.Meters;
        string name = place.MetresFromA < 1e-9 ? $"{place.Section}.a" : place.MetresFromA > length - 1e-9 ? $"{place.Section}.b" : place.ToString();
        return netlist.Split('\n')
            .Where(line => line.StartsWith($"* place {name}/{side} ", StringComparison.Ordinal))
            .Select(line => line[(line.LastIndexOf(' ') + 1)..])
            .FirstOrDefault();
    }
}
