using System.Collections.Immutable;
using UnitsNet;
using WireUp.Circuits.Network;
using WireUp.Circuits.Tests.Support;
using WireUp.Circuits.Trains;
using WireUp.Layouts;
using WireUp.Rails;

namespace WireUp.Circuits.Tests.Properties;

/// <summary>The search for the worst places of trains against trying every placement on a grid, and against the circuit with those loads on it.</summary>
public sealed class WorstTrainsSearchTests
{
    private const double GridMetres = 0.2, SpacingMetres = 0.3;

    public static TheoryData<int> Seeds => [.. RandomPlans.PlainSeeds.Select(row => row.Data).Take(40)];

    public static TheoryData<string> Samples => SampleFiles.Names;

    [Theory]
    [MemberData(nameof(Seeds))]
    public void No_placement_on_a_grid_is_worse_than_the_bound_nor_much_worse_than_the_one_found(int seed)
    {
        Layout layout = RandomPlans.Make(seed).Layout;
        ImmutableArray<TrainDemand> trains = Trains(seed);
        NodalModel model = NodalModel.Of(CircuitBuilder.Build(RailGraph.Build(layout), PowerOptions.Default.Turnouts));
        StandingTrack track = new(model, new TrackSurvey(model, model.Potentials([])).Live, PowerOptions.Default.Turnouts);
        TrainSet set = new(track, trains, SpacingMetres);
        Dictionary<string, double> worst = EveryPlacement(track, set, model);
        WorstTrainsReport report = Find(RailGraph.Build(layout), trains);
        foreach ((string district, double volts) in worst)
        {
            DistrictTrains found = report.Districts.Single(one => one.District == district);
            double drop = found.AtLeast.Volts;
            Assert.True(volts >= found.LeastVolts.Volts - 1e-9, $"{district}: {volts} V below the bound of {found.LeastVolts.Volts} V");
            Assert.True(found.LowestVolts.Volts <= volts + (0.02 * drop), $"{district}: found {found.LowestVolts.Volts} V, grid {volts} V");
            Assert.True(found.LeastVolts <= found.LowestVolts);
            Assert.False(found.IsSearchCut);
        }
    }

    [Theory]
    [MemberData(nameof(Seeds))]
    public void The_circuit_with_those_loads_on_it_gives_the_volts_told(int seed) => SolveAgain(RandomPlans.Make(seed).Layout, [.. Trains(seed).Select(Dark)]);

    [Theory]
    [MemberData(nameof(Samples))]
    public void Every_sample_solved_with_those_loads_on_it_gives_the_volts_told(string file)
    {
        Layout layout = SampleFiles.Wired(file);
        SolveAgain(layout, [.. TrainDemand.Of(layout, 3).Select(Dark)]);
    }

    [Theory]
    [MemberData(nameof(Seeds))]
    public void More_trains_never_raise_the_lowest_volts(int seed)
    {
        Layout layout = RandomPlans.Make(seed).Layout;
        ImmutableArray<TrainDemand> trains = Trains(seed);
        WorstTrainsReport fewer = Find(RailGraph.Build(layout), [trains[0]]), more = Find(RailGraph.Build(layout), trains);
        foreach (DistrictTrains district in fewer.Districts)
        {
            Assert.True(more.Districts.Single(one => one.District == district.District).LeastVolts.Volts <= district.LowestVolts.Volts + 1e-9);
        }
    }

    /// <summary>Every choice of grid places and directions for all trains; the lowest volts at any train of each district.</summary>
    private static Dictionary<string, double> EveryPlacement(StandingTrack track, TrainSet set, NodalModel model)
    {
        StandingTrain[] all = [.. from lane in Enumerable.Range(0, track.Lanes.Length)
                                  from span in track.Lanes[lane].Spans
                                  where span.Live != LaneSpan.Hole
                                  from i in Enumerable.Range(0, (int)Math.Ceiling(span.Length / GridMetres) + 1)
                                  from onward in new[] { true, false }
                                  select new StandingTrain(0, lane, Math.Min(span.From + (i * GridMetres), span.To), onward, span.Live)];
        Dictionary<LiveSpot, TransferColumn> columns = all.Select(track.SpotOf).Distinct().ToDictionary(spot => spot, track.Column);

        // Volts by which each train at each place lowers each place.
        double[][][] drops = [.. Enumerable.Range(0, set.Trains.Count).Select(k => all.Select(victim => all
            .Select(one => set.Loads(one with { Train = k }).Sum(load => load.Amps * columns[track.SpotOf(victim)].At(load.Spot))).ToArray()).ToArray())];
        Dictionary<string, double> worst = new(StringComparer.Ordinal);
        Stack<int> chosen = [];
        Place([]);
        return worst;

        void Place(List<StandingTrain> standing)
        {
            if (standing.Count == set.Trains.Count)
            {
                int[] at = [.. chosen.Reverse()];
                for (int victim = 0; victim < at.Length; victim++)
                {
                    LiveSpot spot = track.SpotOf(all[at[victim]]);
                    double volts = track.OpenVolts(spot);
                    for (int k = 0; k < at.Length; k++)
                    {
                        volts -= drops[k][at[victim]][at[k]];
                    }

                    string district = model.Circuit.Districts[track.Live[spot.Live].District].District.Name;
                    worst[district] = Math.Min(volts, worst.GetValueOrDefault(district, double.PositiveInfinity));
                }

                return;
            }

            for (int i = 0; i < all.Length; i++)
            {
                StandingTrain train = all[i] with { Train = standing.Count };
                if (set.Fits(train, standing))
                {
                    standing.Add(train);
                    chosen.Push(i);
                    Place(standing);
                    chosen.Pop();
                    standing.RemoveAt(standing.Count - 1);
                }
            }
        }
    }

    private static void SolveAgain(Layout layout, ImmutableArray<TrainDemand> trains)
    {
        foreach (DistrictTrains district in Find(RailGraph.Build(layout), trains).Districts)
        {
            // A little off a gap it is clear which side is meant.
            StandingTrainPower[] standing = [.. district.Trains.Where(train => train.At.MetresFromA > 0 && !IsGap(layout, train.At))];
            if (standing.Length < district.Trains.Length)
            {
                continue;
            }

            PowerOptions options = new()
            {
                Loads = [.. standing.Select(train => new PlacedLoad(train.At, trains.First(one => one.Name == train.Train).Engines))],
            };
            PowerReport report = PowerAnalysis.Solve(layout, options, TestContext.Current.CancellationToken);
            for (int i = 0; i < standing.Length; i++)
            {
                Assert.Equal(Math.Abs(standing[i].Volts.Volts), Math.Abs(report.Places[i].Volts.Volts), 1e-6);
            }
        }
    }

    private static bool IsGap(Layout layout, TrackPlace place) => layout.Wiring.Gaps.Any(gap =>
        gap.At is GapPlace.InSection { Place: var at } && at.Section == place.Section && Math.Abs(at.MetresFromA - place.MetresFromA) < 1e-6);

    private static ImmutableArray<TrainDemand> Trains(int seed)
    {
        Random random = new(seed);
        return [.. Enumerable.Range(0, 2).Select(i => new TrainDemand(
            $"train {i}", ElectricCurrent.FromAmperes(Math.Round(0.2 + random.NextDouble(), 2)), seed % 3 == 0 ? 4 : 0, ElectricCurrent.FromAmperes(0.08),
            Length.FromMeters(Math.Round(0.1 + (0.6 * random.NextDouble()), 2))))];
    }

    private static TrainDemand Dark(TrainDemand train, int number) => train with { Name = $"train {number}", LitCars = 0 };

    private static WorstTrainsReport Find(RailGraph graph, ImmutableArray<TrainDemand> trains) =>
        WorstTrains.Find(graph, PowerOptions.Default, trains, Length.FromMeters(SpacingMetres), TestContext.Current.CancellationToken);
}
