using System.Globalization;
using UnitsNet;
using WireUp.Circuits.Sessions;
using WireUp.Circuits.Tests.Support;
using WireUp.Layouts;
using WireUp.Rails;

namespace WireUp.Circuits.Tests.Properties;

/// <summary>What must not move the result of a session, and how sure it says it is.</summary>
public sealed class SessionPropertyTests
{
    [Fact]
    public void The_same_seed_gives_the_same_result_whatever_the_threads_and_the_culture()
    {
        RailGraph graph = RailGraph.Build(SampleFiles.Wired("home-yard.layout.yaml"));
        SessionOptions options = new() { Length = Duration.FromHours(1), MostSessions = 20 };
        SessionReport one = Run(graph, options with { Threads = 1 });
        CultureInfo before = Thread.CurrentThread.CurrentCulture, commas = (CultureInfo)CultureInfo.InvariantCulture.Clone();
        commas.NumberFormat.NumberDecimalSeparator = ",";
        try
        {
            Thread.CurrentThread.CurrentCulture = commas;
            Same(one, Run(graph, options with { Threads = 4 }));
        }
        finally
        {
            Thread.CurrentThread.CurrentCulture = before;
        }

        Assert.NotEqual(one.Districts[0].Mean, Run(graph, options with { Seed = 2 }).Districts[0].Mean);
    }

    [Fact]
    public void Other_names_give_the_same_result()
    {
        Stock stock = Rings.Engines(6, 0.4, 0.1, 0.6);
        SessionOptions options = new() { Length = Duration.FromHours(1), MostSessions = 20 };
        Same(Run(RailGraph.Build(Rings.Layout(3, 3, 7, stock)), options), Run(RailGraph.Build(Rings.Layout(3, 3, 7, stock, "zz")), options));
    }

    [Fact]
    public void The_order_of_joints_feeders_and_gaps_does_not_matter()
    {
        Layout layout = SampleFiles.Wired("tarrow-valley-as-built.layout.yaml");
        Layout turned = layout with
        {
            Joints = [.. layout.Joints.Reverse()],
            Wiring = layout.Wiring with { Feeders = [.. layout.Wiring.Feeders.Reverse()], Gaps = [.. layout.Wiring.Gaps.Reverse()] },
        };
        SessionOptions options = new() { Length = Duration.FromHours(1), LeastSessions = 2, MostSessions = 2 };
        Same(Run(RailGraph.Build(layout), options), Run(RailGraph.Build(turned), options));
    }

    [Fact]
    public void The_order_of_the_track_moves_it_no_more_than_chance_does()
    {
        Layout layout = SampleFiles.Wired("home-yard.layout.yaml");
        SessionOptions options = new() { Length = Duration.FromHours(1), LeastSessions = 60, MostSessions = 60 };
        SessionReport one = Run(RailGraph.Build(layout), options);
        SessionReport other = Run(RailGraph.Build(layout with { Track = [.. layout.Track.Reverse()] }), options);
        foreach ((SessionCurrent first, SessionCurrent second) in one.Districts.Zip(other.Districts))
        {
            double error = Math.Sqrt(Math.Pow(first.MeanError.Amperes, 2) + Math.Pow(second.MeanError.Amperes, 2));
            Assert.Equal(first.Mean.Amperes, second.Mean.Amperes, Math.Max(1e-9, 4 * error));
        }
    }

    [Fact]
    public void The_error_bar_holds_the_true_value_for_about_95_of_100_seeds()
    {
        // Three trains, each 0.3 of its time in the first district: mean 3 · 0.3 · 0.4 A, no train there 0.7³ of the time. 120 seeds of 20
        // sessions: of 120 intervals at 95 of 100 some 114 hold it, with a standard deviation of 2.4; 3 of those are allowed.
        const int seeds = 120, sessions = 20;
        SessionRailway railway = Rings.Railway(Rings.Layout(3, 3, 7, Rings.LongTrains(3, 0.4)), Rings.NeverStopping);
        double t = PooledCurrentWorkspace.Student95(sessions - 1);
        (int mean, int share) = (0, 0);
        for (int seed = 0; seed < seeds; seed++)
        {
            PooledCurrentWorkspace pooled = Pool(railway, (ulong)seed, sessions, 1800);
            mean += Math.Abs(pooled.MeanMicroamperes - (3 * 0.3 * 400_000)) <= t * pooled.MeanErrorMicroamperes ? 1 : 0;
            share += Math.Abs(pooled.UpTo(0) - Math.Pow(0.7, 3)) <= t * pooled.ErrorAt(0) ? 1 : 0;
        }

        Assert.InRange(mean, 107, 119);
        Assert.InRange(share, 107, 119);
    }

    [Fact]
    public void The_interval_of_a_percentile_holds_the_true_one_at_least_as_often_as_it_says()
    {
        // Five trains: F(2) = 0.837, F(3) = 0.969 of the binomial distribution, so that the 90th percentile is three of them; where current comes in
        // steps the interval holds it more often than 95 of 100.
        const int seeds = 60;
        SessionRailway railway = Rings.Railway(Rings.Layout(5, 3, 7, Rings.LongTrains(5, 0.4)), Rings.NeverStopping);
        int held = 0, wide = 0;
        for (int seed = 0; seed < seeds; seed++)
        {
            PercentileRange range = Pool(railway, (ulong)seed, 20, 1800).Percentile(0.9);
            held += range.Low <= 1_200_000 && 1_200_000 <= range.High ? 1 : 0;
            wide += range.Low < range.High ? 1 : 0;
        }

        Assert.InRange(held, 54, 60);
        Assert.InRange(wide, 0, 59);
    }

    [Fact]
    public void Twice_the_sessions_halve_the_variance()
    {
        // Variance of the mean over 120 seeds with 10 and with 20 sessions. The ratio of two such variances has a standard deviation of about
        // 2 · √(2/119 + 2/119) = 0.37 around 2; three of those are allowed. What is said of the error goes by √2.
        const int seeds = 120;
        SessionRailway railway = Rings.Railway(Rings.Layout(3, 3, 7, Rings.LongTrains(3, 0.4)), Rings.NeverStopping);
        PooledCurrentWorkspace[] few = [.. Enumerable.Range(0, seeds).Select(seed => Pool(railway, (ulong)seed, 10, 900))];
        PooledCurrentWorkspace[] many = [.. Enumerable.Range(0, seeds).Select(seed => Pool(railway, (ulong)seed + 1000, 20, 900))];
        Assert.InRange(Variance(few) / Variance(many), 0.9, 3.1);
        double said = few.Average(pooled => pooled.MeanErrorMicroamperes) / many.Average(pooled => pooled.MeanErrorMicroamperes);
        Assert.Equal(Math.Sqrt(2), said, 0.1);
        Assert.Equal(Math.Sqrt(Variance(many)), many.Average(pooled => pooled.MeanErrorMicroamperes), 0.2 * Math.Sqrt(Variance(many)));
    }

    [Fact]
    public void Students_t_is_that_of_an_independent_library()
    {
        for (int degrees = 9; degrees < 500; degrees += 5)
        {
            double other = MathNet.Numerics.Distributions.StudentT.InvCDF(0, 1, degrees, 0.975);
            Assert.Equal(other, PooledCurrentWorkspace.Student95(degrees), 2e-4 * other);
        }
    }

    [Fact]
    public void Random_numbers_are_even()
    {
        // Chi-square over 100 cells: mean 99, standard deviation 14; five of those are allowed. Neighbouring sessions are not alike.
        SeededStreamWorkspace chance = new(1, 0);
        int[] counts = new int[100];
        for (int i = 0; i < 100_000; i++)
        {
            counts[chance.Below(100)]++;
        }

        Assert.InRange(counts.Sum(count => Math.Pow(count - 1000, 2) / 1000), 30, 170);
        Assert.Equal(1000, Enumerable.Range(0, 1000).Select(session => new SeededStreamWorkspace(1, session).Next()).Distinct().Count());
    }

    [Fact]
    public void A_simulation_that_is_stopped_gives_what_is_known_so_far()
    {
        using CancellationTokenSource stop = new();
        SessionOptions options = new() { Length = Duration.FromHours(1), ToleratedPart = Ratio.Zero, ToleratedError = ElectricCurrent.Zero };
        RailGraph graph = RailGraph.Build(SampleFiles.Wired("home-yard.layout.yaml"));
        SessionAnswer answer = SessionAnalysis.Run(graph, options, new StopAfter(stop, 20), stop.Token);
        SessionReport report = Assert.IsType<SessionAnswer.Simulated>(answer).Report;
        Assert.True(report.WasStopped);
        Assert.False(report.IsSure);
        Same(Run(graph, options with { MostSessions = report.Sessions }), report);
    }

    private static SessionReport Run(RailGraph graph, SessionOptions options) =>
        Assert.IsType<SessionAnswer.Simulated>(SessionAnalysis.Run(graph, options)).Report;

    private static void Same(SessionReport one, SessionReport other)
    {
        Assert.Equal(one.Sessions, other.Sessions);
        Assert.Equal(one.Traffic with { LeftOver = [], NotMadeUp = [] }, other.Traffic with { LeftOver = [], NotMadeUp = [] });
        foreach ((SessionCurrent first, SessionCurrent second) in one.Districts.Concat(one.Boosters).Append(one.Railway).Zip(other.Districts.Concat(other.Boosters).Append(other.Railway)))
        {
            Assert.Equal((first.Name, first.Mean, first.MeanError, first.Largest), (second.Name, second.Mean, second.MeanError, second.Largest));
            Assert.Equal(first.Percentiles, second.Percentiles);
            Assert.Equal(first.Shares, second.Shares);
            Assert.Equal(first.FirstSession, second.FirstSession);
        }
    }

    private static PooledCurrentWorkspace Pool(SessionRailway railway, ulong seed, int sessions, double seconds)
    {
        PooledCurrentWorkspace pooled = new();
        for (int session = 0; session < sessions; session++)
        {
            pooled.Add(new SessionWorkspace(railway, seed, session, seconds).Run().Shares[0]);
        }

        return pooled;
    }

    private static double Variance(PooledCurrentWorkspace[] pools)
    {
        double mean = pools.Average(pooled => pooled.MeanMicroamperes);
        return pools.Sum(pooled => Math.Pow(pooled.MeanMicroamperes - mean, 2)) / (pools.Length - 1);
    }

    private sealed class StopAfter(CancellationTokenSource stop, int sessions) : IProgress<SessionProgress>
    {
        public void Report(SessionProgress value)
        {
            if (value.Sessions >= sessions)
            {
                stop.Cancel();
            }
        }
    }
}
