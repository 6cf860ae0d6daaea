using UnitsNet;
using WireUp.Circuits.Sessions;
using WireUp.Circuits.Tests.Support;
using WireUp.Layouts;
using WireUp.Rails;

namespace WireUp.Circuits.Tests.Exact;

/// <summary>Trains that chance brings together, against closed forms, every case, and simulated sessions.</summary>
public sealed class CoincidentLoadTests
{
    // n equal engines that always move: binomial. Two on half of the track: both with 1/4. On a part p at least one with 1 − (1 − p)²,
    // which is 0.0100 at p = 0.0050126; both with p², which is 0.01 at p = 0.1.
    [Theory]
    [InlineData(2, 0.5, 1.0)]
    [InlineData(2, 0.11, 1.0)]
    [InlineData(2, 0.09, 0.5)]
    [InlineData(2, 0.0051, 0.5)]
    [InlineData(2, 0.0049, 0)]
    [InlineData(1, 1, 0.5)]
    public void Equal_engines_that_always_move_are_binomial(int engines, double share, double amps) =>
        Assert.Equal(amps, Load(new Kind("a", engines, 0.5, 0.5)).For(share).Amperes, 1e-9);

    // One engine of two moves: on all track each moves with 1/2, so both with 1/4 by chance; but there is one operator.
    [Fact]
    public void No_more_is_drawn_than_by_as_many_moving_as_there_are_operators() =>
        Assert.Equal(0.6, Load(1, new Kind("a", 2, 0.5, 0.1)).For(1).Amperes, 1e-9);

    [Fact]
    public void It_is_what_counting_every_case_gives()
    {
        Kind[] kinds = [new("a", 2, 0.8, 0.1), new("b", 1, 0.45, 0.12), new("c", 3, 0.25, 0.1)];
        double[] runs = [0.8, 0.8, 0.45, 0.25, 0.25, 0.25], stands = [0.1, 0.1, 0.12, 0.1, 0.1, 0.1];
        CoincidentLoad load = Load(3, kinds);
        foreach (double share in (double[])[0.02, 0.1, 0.3, 0.6])
        {
            List<(double Amps, double Chance)> cases = [(0, 1)];
            for (int i = 0; i < runs.Length; i++)
            {
                cases = [.. cases.SelectMany(each => new[]
                {
                    (each.Amps, each.Chance * (1 - share)),
                    (each.Amps + runs[i], each.Chance * share / 2),
                    (each.Amps + stands[i], each.Chance * share / 2),
                })];
            }

            double amps = load.For(share).Amperes, most = 0.8 + 0.8 + 0.45 + (3 * 0.1);
            double notMore = cases.Where(each => each.Amps <= amps + 1e-9).Sum(each => each.Chance);
            double less = cases.Where(each => each.Amps <= amps - 0.01 + 1e-9).Sum(each => each.Chance);
            Assert.True(notMore >= 0.99 - 1e-12 || Math.Abs(amps - most) < 1e-9);
            Assert.True(less < 0.99);
        }
    }

    [Theory]
    [InlineData("home-yard.layout.yaml")]
    [InlineData("tarrow-valley.layout.yaml")]
    [InlineData("three-rail.layout.yaml")]
    public void It_grows_with_the_track_and_the_largest_share_is_the_last_that_keeps_the_limit(string sample)
    {
        Layout layout = SampleFiles.Wired(sample);
        CoincidentLoad load = CoincidentLoad.Of(layout)!;
        double[] amps = [.. Enumerable.Range(0, 101).Select(percent => load.For(percent / 100.0).Amperes)];
        Assert.Equal(amps.Order(), amps);
        Assert.True(amps[^1] <= DesignLoad.Of(layout).Working.Amperes + 1e-9);
        ElectricCurrent limit = ElectricCurrent.FromAmperes(amps[^1] / 2);
        double share = load.MostShare(limit);
        Assert.True(load.For(share) <= limit);
        Assert.True(load.For(share + 0.001) > limit);
    }

    [Fact]
    public void Under_direct_control_trains_do_not_meet() => Assert.Null(CoincidentLoad.Of(SampleFiles.Wired("two-cabs.layout.yaml")));

    /// <summary>The sessions know where trains go and who waits for whom; the rule knows the length of track only, and must not be less by more than a tenth.</summary>
    [Fact]
    public void It_is_not_less_than_sessions_of_the_club_bring()
    {
        Layout layout = SampleFiles.Wired("tarrow-valley-as-built.layout.yaml");
        CoincidentLoad load = CoincidentLoad.Of(layout)!;
        SessionOptions options = new() { LeastSessions = 30, MostSessions = 30 };
        SessionReport report = Assert.IsType<SessionAnswer.Simulated>(SessionAnalysis.Run(
            RailGraph.Build(layout), options, cancellation: TestContext.Current.CancellationToken)).Report;
        Assert.NotEmpty(report.Districts);
        Assert.All(report.Districts.Concat(report.Boosters), each =>
        {
            double rule = load.For(each.Track / report.Railway.Track).Amperes, seen = each.Percentile99.Current.Amperes;
            Assert.True(rule >= 0.9 * seen, $"{each.Name}: rule {rule} A, sessions {seen} A");
        });
    }

    private static CoincidentLoad Load(params Kind[] kinds) => Load(null, kinds);

    private static CoincidentLoad Load(int? moving, params Kind[] kinds) => CoincidentLoad.Of(SampleFiles.Wired("home-yard.layout.yaml") with
    {
        Stock = new()
        {
            MovingAtOnce = moving,
            Locomotives = [.. kinds.Select(kind => new Locomotive(
                kind.Name, Amps(kind.Running), Amps(kind.Standing), Amps(kind.Running), Amps(kind.Running), Length.FromMillimeters(60), kind.Count))],
        },
    })!;

    private static ElectricCurrent Amps(double amps) => ElectricCurrent.FromAmperes(amps);

    private sealed record Kind(string Name, int Count, double Running, double Standing);
}
