using UnitsNet;
using WireUp.Circuits.Sessions;
using WireUp.Circuits.Tests.Support;
using WireUp.Layouts;

namespace WireUp.Circuits.Tests.Exact;

/// <summary>Sessions whose outcome can be worked out with pencil and paper.</summary>
public sealed class SessionTests
{
    private const double Hours10 = 36_000;

    [Fact]
    public void A_train_that_never_stops_spends_its_time_in_districts_by_their_length()
    {
        // 3 m of 10 m: 0.3 of the time, exactly but for the unfinished lap at the end of ten hours (10 m at least at 0.0957 m/s: 105 s).
        SessionRailway railway = Rings.Railway(Rings.Layout(1, 3, 7, Rings.Engines(1, 0.4, 0.4, 0.4)), Rings.NeverStopping);
        SessionOutcome session = new SessionWorkspace(railway, seed: 5, session: 0, Hours10).Run();
        Assert.Equal(1 - 0.3, session.Shares[0].At(0), 0.003);
        Assert.Equal(0.3 * 400_000, session.Shares[0].MeanMicroamperes, 0.003 * 400_000);
        Assert.Equal(0.7 * 400_000, session.Shares[1].MeanMicroamperes, 0.003 * 400_000);
    }

    [Fact]
    public void Trains_that_never_meet_are_in_a_district_as_a_binomial_count()
    {
        // Five trains, each on a ring of its own, each 0.3 of its time in the first district, none knowing of the others.
        const int trains = 5, sessions = 60;
        const double p = 0.3;
        SessionRailway railway = Rings.Railway(Rings.Layout(trains, 3, 7, Rings.LongTrains(trains, 0.4)), Rings.NeverStopping);
        PooledCurrentWorkspace pooled = Pool(railway, sessions, series: 0);
        double upTo = 0;
        for (int count = 0; count <= trains; count++)
        {
            upTo += Choose(trains, count) * Math.Pow(p, count) * Math.Pow(1 - p, trains - count);
            Assert.Equal(upTo, pooled.UpTo(count * 400_000L), Math.Max(1e-9, 4 * pooled.ErrorAt(count * 400_000L)));
        }

        // Percentiles of the binomial distribution itself: F(1) = 0.528, F(2) = 0.837, F(3) = 0.969, F(4) = 0.998.
        Assert.Equal(1 * 400_000, pooled.Percentile(0.5).Value);
        Assert.Equal(3 * 400_000, pooled.Percentile(0.95).Value);
        Assert.Equal(4 * 400_000, pooled.Percentile(0.99).Value);
    }

    [Fact]
    public void Trains_of_unlike_rings_count_as_a_Poisson_binomial()
    {
        // Two trains, one with 0.3 and one with 0.3 of its time, in both boosters' sums: what the first has not, the second has.
        SessionRailway railway = Rings.Railway(Rings.Layout(2, 3, 7, Rings.LongTrains(2, 0.4)), Rings.NeverStopping);
        SessionOutcome session = new SessionWorkspace(railway, seed: 2, session: 0, Hours10).Run();
        for (long count = 0; count < 2; count++)
        {
            Assert.Equal(session.Shares[0].At(count * 400_000), 1 - session.Shares[1].At((1 - count) * 400_000), 1e-9);
        }
    }

    [Fact]
    public void Standing_starting_and_running_take_their_shares_of_a_round()
    {
        // A round: a stop of 75 s on average, a start of 3 s, and a trip. It leads from one even place of the ring over the joint that ends it to
        // another: one round on average, R·E(1/v), E(1/v) = ln(v2/v1)/(v2 − v1).
        const double ring = 10, sessions = 40;
        OperatingModel model = OperatingModel.Of("HO");
        SessionRailway railway = Rings.Railway(Rings.Layout(1, 4, 6, Rings.Engines(1, 0.4, 0.1, 0.9)));
        double trip = ring * Math.Log(model.Speed.Most / model.Speed.Least) / (model.Speed.Most - model.Speed.Least);
        double stop = (model.Dwell.Least + model.Dwell.Most) / 2;
        double expected = ((stop * 0.1) + (model.StartSeconds * 0.9) + ((trip - model.StartSeconds) * 0.4)) / (stop + trip);
        double mean = 0;
        for (int session = 0; session < sessions; session++)
        {
            SessionOutcome outcome = new SessionWorkspace(railway, seed: 11, session, Hours10).Run();
            mean += (outcome.Shares[0].MeanMicroamperes + outcome.Shares[1].MeanMicroamperes) / 1e6 / sessions;
        }

        // 40 sessions of some 200 rounds each: a standard error near 0.2 %.
        Assert.Equal(expected, mean, 0.01 * expected);
    }

    [Fact]
    public void Lit_cars_and_locomotives_draw_where_they_are_along_the_train()
    {
        // A train 2 m long, its locomotive leading, four lit cars 0.24 to 1.7 m behind: at no time is it all in a district of 1 m.
        Stock stock = Rings.Engines(1, 0.4, 0.4, 0.4) with
        {
            Trains = [new("rake", ["engine"], 4, ElectricCurrent.FromAmperes(0.1), Length.FromMeters(2))],
        };
        SessionRailway railway = Rings.Railway(Rings.Layout(1, 1, 9, stock), Rings.NeverStopping);
        TrainUnit unit = Assert.Single(railway.Stock.Units);
        Assert.Equal([0.03, 0.3025, 0.7875, 1.2725, 1.7575], unit.Consumers.Select(consumer => consumer.Metres), (a, b) => Math.Abs(a - b) < 1e-12);
        TimeShares first = new SessionWorkspace(railway, seed: 3, session: 0, Hours10).Run().Shares[0];

        // The locomotive with two cars behind it: from car 2 coming in at 0.7875 m until the locomotive leaves at 1.03 m: 0.2425 of 10 m.
        Assert.Equal(600_000, first.Microamperes[^1]);
        Assert.Equal(0.02425, 1 - first.At(599_999), 0.001);
        Assert.Equal(0.1 * 800_000, first.MeanMicroamperes, 0.003 * 800_000);
    }

    [Fact]
    public void A_single_length_of_track_is_run_from_end_to_end()
    {
        Layout layout = new PlanBuilder().Section("line", 6).Booster("b").District("d", "b").Run("d", "b", "t", 1).Feeder("f", "line", 3, "d", "t")
            .Runs(Rings.Engines(1, 0.4, 0.1, 0.6)).Build();
        SessionOutcome session = new SessionWorkspace(Rings.Railway(layout), seed: 1, session: 0, Hours10).Run();
        Assert.True(session.Trips > 200);
        Assert.Equal(0, session.Waits);
        Assert.Equal(0, session.Lifted);
        Assert.Equal([100_000L, 400_000L, 600_000L], session.Shares[0].Microamperes);
    }

    [Fact]
    public void A_train_as_long_as_its_track_makes_no_trips_and_is_lifted_off_now_and_then_as_in_a_jam()
    {
        Layout layout = new PlanBuilder().Section("line", 6).Booster("b").District("d", "b").Run("d", "b", "t", 1).Feeder("f", "line", 3, "d", "t")
            .Runs(Rings.LongTrains(1, 0.4)).Build();
        SessionOutcome session = new SessionWorkspace(Rings.Railway(layout), seed: 1, session: 0, Hours10).Run();
        Assert.Equal(0, session.Trips);
        Assert.True(session.Lifted > 0);
        Assert.Equal(0.4e6, session.Shares[0].MeanMicroamperes, 1e-6);
    }

    [Fact]
    public void Where_six_locomotives_jam_three_short_tracks_one_is_lifted_off_now_and_then_and_it_goes_on()
    {
        // Three dead ends meet at a turnout; when each has a locomotive beside the turnout nothing can move any more.
        Layout layout = new PlanBuilder().Section("stem", 2).Turnout("T", metres: 0.3).Section("one", 1.2).Section("two", 1.2)
            .Join("stem.b", "T.points").Join("T.through", "one.a").Join("T.diverging", "two.a")
            .Booster("b").District("d", "b").Run("d", "b", "t", 1).Feeder("f", "stem", 1, "d", "t")
            .Runs(Rings.Engines(6, 0.4, 0.1, 0.6)).Build();
        SessionOutcome session = new SessionWorkspace(Rings.Railway(layout), seed: 1, session: 0, Hours10).Run();
        Assert.True(session.Trips > 100);
        Assert.True(session.Waits > 0);
        Assert.True(session.Lifted > 0);
        Assert.Empty(session.LeftOver);
    }

    private static PooledCurrentWorkspace Pool(SessionRailway railway, int sessions, int series)
    {
        PooledCurrentWorkspace pooled = new();
        for (int session = 0; session < sessions; session++)
        {
            pooled.Add(new SessionWorkspace(railway, seed: 7, session, 10_800).Run().Shares[series]);
        }

        return pooled;
    }

    private static double Choose(int n, int k) => k == 0 ? 1 : Choose(n, k - 1) * (n - k + 1) / k;
}
