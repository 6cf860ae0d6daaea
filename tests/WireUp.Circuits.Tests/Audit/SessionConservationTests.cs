using WireUp.Circuits.Sessions;
using WireUp.Circuits.Tests.Support;
using WireUp.Layouts;
using WireUp.Rails;

namespace WireUp.Circuits.Tests.Audit;

/// <summary>At every instant of a session: all current is in some district, and no two trains are on one place.</summary>
public sealed class SessionConservationTests
{
    private const double Hour = 3600;

    public static TheoryData<string> Samples => SampleFiles.Names;

    [Theory]
    [MemberData(nameof(Samples))]
    public void Districts_carry_what_all_trains_draw_and_trains_keep_apart(string file)
    {
        Layout layout = SampleFiles.Wired(file);
        SessionRailway railway = new(RailGraph.Build(layout));
        Assert.SkipUnless(railway.Track.Lines.Any(), "no track that a train can run on");
        SessionWorkspace session = new(railway, seed: 4, session: 0, Hour);
        int steps = 0;
        do
        {
            Look(railway, session);
            steps++;
        }
        while (session.Step());
        Assert.True(steps > 5);
    }

    private static void Look(SessionRailway railway, SessionWorkspace session)
    {
        long[] amps = new long[railway.BoosterOf.Length + railway.Boosters.Length + 1];
        Dictionary<int, int> onCell = [];
        foreach (TrainWorkspace train in session.Trains.Where(train => train.State != TrainDoing.Away))
        {
            foreach (int leg in train.Path)
            {
                Assert.True(onCell.TryAdd(railway.Track.Legs[leg].Cell, train.Number), $"two trains on one place, or one twice, at {session.Now} s");
            }

            // Where it is now, measured from its last wheel along the legs under it.
            double rolled = train.State == TrainDoing.Running && double.IsNaN(train.HeldSince) ? train.Speed * (session.Now - train.At) : 0;
            double tail = train.Path.Sum(leg => railway.Track.Legs[leg].Metres) - train.HeadLeft - train.Unit.Metres + rolled;
            Assert.InRange(tail, -1e-6, railway.Track.Legs[train.Path[0]].Metres + 1e-6);
            for (int i = 0; i < train.Unit.Consumers.Length; i++)
            {
                double place = tail + (train.IsPushed ? train.Unit.Consumers[i].Metres : train.Unit.Metres - train.Unit.Consumers[i].Metres);
                Assert.Contains(train.Districts[i], DistrictsAt(railway, train, place));
                amps[train.Districts[i]] += train.Drawn[i];
                amps[railway.BoosterOf.Length + railway.BoosterOf[train.Districts[i]]] += train.Drawn[i];
                amps[^1] += train.Drawn[i];
                Assert.Contains(train.Drawn[i], Allowed(train, train.Unit.Consumers[i]));
            }
        }

        for (int series = 0; series < amps.Length; series++)
        {
            Assert.Equal(amps[series], session.Meter.Now(series));
        }
    }

    private static int[] Allowed(TrainWorkspace train, Consumer consumer) =>
        train.State == TrainDoing.Running ? [consumer.Starting, consumer.Running] : [consumer.Standing];

    /// <summary>The district of a place of a train's path, and at a border both.</summary>
    private static HashSet<int> DistrictsAt(SessionRailway railway, TrainWorkspace train, double place)
    {
        HashSet<int> found = [];
        double from = 0;
        foreach (TrackLeg leg in train.Path.Select(leg => railway.Track.Legs[leg]))
        {
            if (place >= from - 1e-6 && place <= from + leg.Metres + 1e-6)
            {
                found.Add(leg.District);
            }

            from += leg.Metres;
        }

        return found;
    }
}
