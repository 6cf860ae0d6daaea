using UnitsNet;
using WireUp.Circuits.Sessions;
using WireUp.Circuits.Tests.Support;
using WireUp.Layouts;

namespace WireUp.Circuits.Tests.Exact;

/// <summary>How a train of 1 m takes track ahead of it: stem, turnout, short line, turnout, second line, turnout, a line of 5 m.</summary>
public sealed class TrainMovementTests
{
    private const double Turnout = 0.3, Short = 0.6;

    [Theory]
    [InlineData(0.6, 6)]
    [InlineData(0.9, 4)]
    public void Over_lines_that_are_too_short_it_goes_on_until_it_has_driven_twice_its_length(double second, int stretches)
    {
        // Behind the second line it has driven 0.3 + 0.6 + 0.3 + 0.6 m, less than 2 m, or 2.1 m.
        Yard yard = new(second);
        TrainWorkspace train = yard.Train(0, yard.Stem, legs: 3);
        yard.Sends(train);
        Assert.True(yard.Movement.CanGoOn(train));
        Assert.True(yard.Movement.GoOn(train));
        int[] taken = [train.Head, .. train.Granted];
        Assert.Equal(stretches, taken.Select(leg => yard.Track.Legs[leg].Stretch).Distinct().Count());
        Assert.All(taken, leg => Assert.Equal(0, yard.Movement.Occupancy.OwnerOf(leg)));
        Assert.Equal(Turnout, train.HeadLeft, 1e-12);
    }

    [Fact]
    public void Track_that_was_taken_ahead_is_free_again_when_it_turns_back()
    {
        Yard yard = new(0.6);
        TrainWorkspace train = yard.Train(0, yard.Stem, legs: 3);
        yard.Sends(train);
        yard.Movement.GoOn(train);
        int[] ahead = [.. train.Granted];
        int line = yard.Track.Legs[ahead[0]].Stretch;
        Assert.True(yard.Movement.Occupancy.IsOpposed(line ^ 1));
        yard.Movement.Face(train, pushed: true);
        Assert.Empty(train.Granted);
        Assert.All(ahead, leg => Assert.True(yard.Movement.Occupancy.IsFree(leg)));
        Assert.False(yard.Movement.Occupancy.IsOpposed(line ^ 1));
        Assert.True(train.IsPushed);
        Assert.Equal(0, train.HeadLeft, 1e-12);
        Assert.All(train.Path, leg => Assert.Equal(0, yard.Movement.Occupancy.OwnerOf(leg)));
    }

    [Theory]
    [InlineData("turnout")]
    [InlineData("against")]
    [InlineData("parked")]
    [InlineData("behind")]
    public void It_waits_before_what_is_occupied_but_closes_up_behind_a_train_that_runs_ahead(string where)
    {
        Yard yard = new(3);
        TrainWorkspace train = yard.Train(0, yard.Stem, legs: 3), other = where switch
        {
            "turnout" => yard.Train(1, yard.After(yard.Stem), legs: 1),
            "against" => yard.Train(1, yard.Second ^ 1, legs: 1),
            _ => yard.Train(1, yard.Second, legs: 1),
        };
        if (where == "parked")
        {
            yard.Movement.Parks(other, 1);
        }

        yard.Sends(train);
        Assert.Equal(where == "behind", yard.Movement.CanGoOn(train));
        Assert.Equal(where == "behind", yard.Movement.GoOn(train));
        Assert.Equal(where == "behind" ? 2 : 0, train.Granted.Select(leg => yard.Track.Legs[leg].Stretch).Distinct().Count(stretch => !yard.Track.Stretches[stretch].IsTrackwork));
        if (where == "parked")
        {
            yard.Movement.Parks(other, -1);
            Assert.True(yard.Movement.CanGoOn(train));
        }

        yard.Movement.LiftOff(other);
        Assert.Equal(where != "behind", yard.Movement.GoOn(train) && yard.Track.Stretches[yard.Track.Legs[train.Head].Stretch].IsTrackwork);
    }

    [Fact]
    public void A_section_cut_into_districts_is_one_line_for_trains()
    {
        Layout layout = new PlanBuilder().Section("other", 2).Section("line", 8).Cut("line", 1).Cut("line", 3).Cut("line", 6)
            .Booster("b").District("one", "b").District("two", "b").Run("one", "b", "t", 1).Run("two", "b", "t", 1)
            .Feeder("f0", "other", 1, "one", "t").Feeder("f1", "line", 0.5, "one", "t").Feeder("f2", "line", 2, "two", "t").Feeder("f3", "line", 5, "one", "t").Feeder("f4", "line", 7, "two", "t")
            .Build();
        SessionTrack track = Rings.Railway(layout, Rings.NeverStopping).Track;
        Assert.Equal([2.0, 8.0], track.Lines.Select(line => track.Stretches[line].Metres));
        int[] along = [.. track.Stretches[track.Lines.Last()].Legs], back = [.. track.Stretches[track.Lines.Last() ^ 1].Legs];
        Assert.Equal([(0, 1.0), (1, 2.0), (0, 1.5), (0, 1.5), (1, 2.0)], along.Select(leg => (track.Legs[leg].District, track.Legs[leg].Metres)));
        Assert.Equal(along.Reverse().Select(leg => leg ^ 1), back);
    }

    [Fact]
    public void Where_districts_share_a_rail_a_train_is_in_that_of_leg_A()
    {
        Layout layout = new PlanBuilder().Section("line", 4).Cut("line", 2, RailSet.Left)
            .Booster("b").District("one", "b").District("two", "b").Run("one", "b", "t", 1).Run("two", "b", "t", 1)
            .Feeder("f1", "line", 1, "one", "t").Feeder("f2", "line", 3, "two", "t").Build();
        SessionTrack track = Rings.Railway(layout, Rings.NeverStopping).Track;
        Assert.Equal([(0, 2.0), (1, 2.0)], track.Stretches[track.Lines.Single()].Legs.Select(leg => (track.Legs[leg].District, track.Legs[leg].Metres)));
    }

    private sealed class Yard
    {
        private readonly int _goal;

        internal Yard(double second)
        {
            Layout layout = new PlanBuilder().Section("stem", 3).Turnout("T1", metres: Turnout).Section("short", Short).Turnout("T2", metres: Turnout)
                .Section("second", second).Turnout("T3", metres: Turnout).Section("long", 5)
                .Join("stem.b", "T1.points").Join("T1.through", "short.a").Join("short.b", "T2.points").Join("T2.through", "second.a")
                .Join("second.b", "T3.points").Join("T3.through", "long.a")
                .Booster("b").District("d", "b").Run("d", "b", "t", 1).Feeder("f", "stem", 1, "d", "t")
                .Runs(Rings.Engines(2, 1, 1, 1) with { Trains = [new("rake", ["engine"], 0, ElectricCurrent.Zero, Length.FromMeters(1))] }).Build();
            Railway = Rings.Railway(layout, OperatingModel.Of("HO"));
            Movement = new(Railway);
            int[] lines = [.. Track.Lines];
            (Stem, Second, _goal) = (lines[0], lines[2], lines[3]);
        }

        internal MovementWorkspace Movement { get; }

        internal SessionTrack Track => Railway.Track;

        internal int Stem { get; }

        internal int Second { get; }

        private SessionRailway Railway { get; }

        internal int After(int stretch) => Track.Stretches[stretch].Next[0];

        /// <summary>A train or, as number 1, a locomotive whose first wheel is at the end of a stretch.</summary>
        internal TrainWorkspace Train(int number, int stretch, int legs)
        {
            TrainWorkspace train = new(number, Railway.Stock.Units[number], Track);
            Movement.SetDown(train, [.. Track.Stretches[stretch].Legs.TakeLast(legs)], headLeft: 0);
            return train;
        }

        internal void Sends(TrainWorkspace train) => train.Aim(_goal, (Track.Stretches[_goal].Legs.Length - 1, 0.2), onGoal: false);
    }
}
