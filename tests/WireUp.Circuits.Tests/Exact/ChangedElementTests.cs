using WireUp.Circuits.Network;
using WireUp.Circuits.Network.WhatIfs;
using WireUp.Circuits.Tests.Support;
using WireUp.Layouts;
using WireUp.Rails;

namespace WireUp.Circuits.Tests.Exact;

/// <summary>
/// Lines so small that it can be written down what becomes of them when an element is opened, changed or added. Each rail has r = 0.05 Ω/m, a joint
/// 10 mΩ, booster and breaker together 0.15 Ω; feeders have none.
/// </summary>
public sealed class ChangedElementTests
{
    private const double Rail = 0.05, Joint = 0.01, Source = 0.15, Coin = 0.05;

    [Fact]
    public void Where_one_rail_of_a_joint_opens_the_track_beyond_is_dead_and_its_load_is_gone()
    {
        Case line = new(OneWay(), ("near", 1, 1), ("far", 3, 2), ("near", 2, 0), ("siding", 1, 0));
        int joint = line.JointAt("far", 0);
        Assert.Equal([15 - (3 * (Source + (2 * Rail))), 15 - (3 * (Source + (2 * Rail))) - (2 * ((8 * Rail) + (2 * Joint)))], line.Places.Volts[..2], Same);
        Assert.Equal(WhatIfOutcome.CutsOff, line.Prepared.Open(joint));
        Assert.Equal(WhatIfOutcome.CutsOff, line.General.Change([ElementChange.Open(joint)]));
        double volts = 15 - Source - (2 * Rail);
        line.Told([volts, 0, volts, 0], [Source + (2 * Rail), double.PositiveInfinity, Source + (4 * Rail), double.PositiveInfinity], both: true);
    }

    [Fact]
    public void A_joint_gone_bad_takes_current_times_resistance_from_what_lies_beyond_and_nothing_before_it()
    {
        Case line = new(OneWay(), ("near", 1, 1), ("far", 3, 2), ("siding", 1, 0));
        int joint = line.JointAt("far", 0);
        double near = 15 - (3 * (Source + (2 * Rail))), far = near - (2 * ((8 * Rail) + Joint));
        foreach (double ohms in (double[])[0.5, Joint, 0.001, 2])
        {
            Assert.Equal(WhatIfOutcome.Solved, line.Prepared.Set(joint, ohms));
            Assert.Equal(WhatIfOutcome.Solved, line.General.Change([ElementChange.Set(joint, ohms)]));
            line.Told(
                [near, far - (2 * ohms), 0],
                [Source + (2 * Rail), Source + (10 * Rail) + Joint + ohms, double.PositiveInfinity], both: true);
        }
    }

    [Fact]
    public void Where_one_rail_of_a_joint_opens_between_two_feeders_the_other_rail_is_fed_from_both_sides_still()
    {
        Case line = new(BothWays(), ("left", 2, 1.5), ("siding", 1, 0));
        double right = (3 * Rail) + (2 * Joint), other = 2 * Rail * right / ((2 * Rail) + right);
        line.Told([15 - (1.5 * (Source + (2 * other))), 0], [Source + (2 * other), double.PositiveInfinity], both: false);
        int joint = line.JointAt("mid", 0);
        Assert.Equal(WhatIfOutcome.Solved, line.Prepared.Open(joint));
        Assert.Equal(WhatIfOutcome.Solved, line.General.Change([ElementChange.Open(joint)]));
        double loop = Source + (2 * Rail) + other;
        line.Told([15 - (1.5 * loop), 0], [loop, double.PositiveInfinity], both: true);
    }

    [Fact]
    public void One_rail_opened_on_both_sides_of_a_length_of_track_takes_its_feed_and_the_rest_keeps_it()
    {
        Case line = new(BothWays(), ("left", 1, 1), ("mid", 0.5, 2), ("right", 1, 0));
        WhatIfOutcome outcome = line.General.Change([ElementChange.Open(line.JointAt("mid", 0)), ElementChange.Open(line.JointAt("mid", 1))]);
        Assert.Equal(WhatIfOutcome.CutsOff, outcome);

        // At 1 m of 5 m: one rail from one side, the other from both.
        double round = (4 * Rail) + (2 * Joint), loop = Source + Rail + (Rail * round / (Rail + round));
        Assert.Equal([true, false, true], Enumerable.Range(0, 3).Select(line.General.IsFed));
        Assert.Equal([15 - loop, 0], [line.General.Volts(0), line.General.Volts(1)], Same);
        Assert.Equal([loop, double.PositiveInfinity], [line.General.Ohms(0), line.General.Ohms(1)], Same);
        double[] now = new double[line.Model.Unknowns.Count];
        line.General.Potentials(line.Potentials, now);
        Assert.Equal(15 - loop, line.VoltsAt(0, now), 1e-9);
        Assert.Equal(line.General.Volts(2), line.VoltsAt(2, now), 1e-9);
    }

    [Fact]
    public void A_wire_soldered_round_one_of_two_opened_joints_feeds_the_track_between_them()
    {
        const double wire = 0.02;
        Case line = new(BothWays(), ("mid", 0.5, 2));
        int open = line.JointAt("mid", 0), other = line.JointAt("mid", 1);
        CircuitElement joint = line.Model.Circuit.Elements[open];
        WhatIfOutcome outcome = line.General.Change([ElementChange.Open(open), ElementChange.Add(joint.From, joint.To, wire), ElementChange.Open(other)]);
        Assert.Equal(WhatIfOutcome.Solved, outcome);
        double loop = Source + (2.5 * Rail) + wire + (((2.5 * Rail) + Joint) / 2);
        Assert.Equal(loop, line.General.Ohms(0), 1e-9);
        Assert.Equal(15 - (2 * loop), line.General.Volts(0), 1e-9);
        double[] now = new double[line.Model.Unknowns.Count];
        line.General.Potentials(line.Potentials, now);
        Assert.Equal(15 - (2 * loop), line.VoltsAt(0, now), 1e-9);
    }

    [Fact]
    public void A_coin_across_the_rails_divides_the_volts_with_the_way_to_it()
    {
        Case line = new(OneWay(), ("near", 1, 0), ("far", 3, 0), ("siding", 1, 0));
        Assert.Equal(WhatIfOutcome.Solved, line.General.Change([line.Across(1, Coin)]));
        double loop = Source + (10 * Rail) + (2 * Joint), near = Source + (2 * Rail), amps = 15 / (loop + Coin);
        line.Told([15 - (amps * near), amps * Coin, 0], [near * (loop - near + Coin) / (loop + Coin), loop * Coin / (loop + Coin), double.PositiveInfinity], both: false);

        Assert.Equal(WhatIfOutcome.Solved, line.General.Change([line.Across(1, 0)]));
        Assert.Equal(0, line.General.Volts(1), 1e-9);
        Assert.Equal(15 - (15 * near / loop), line.General.Volts(0), 1e-9);
    }

    [Fact]
    public void With_a_rail_in_common_both_boosters_feed_their_own_side_when_that_rail_opens()
    {
        PlanBuilder plan = new PlanBuilder().BareFeeds().Section("left", 2).Section("right", 3).Join("left.b", "right.a", RailSet.Right)
            .Booster("one").Booster("two", volts: 12).District("west", "one").District("east", "two")
            .Feeder("f1", "left", 0, "west", "one", metres: 0).Feeder("f2", "right", 3, "east", "two", metres: 0);
        Case both = new(plan, ("left", 1, 1), ("right", 1, 2));
        int common = Assert.Single(both.Joints);
        double left = Source + (2 * Rail), right = Source + (4 * Rail);
        both.Told([15 - left, 12 - (2 * right)], [left, right], both: false);
        Assert.Equal(WhatIfOutcome.CutsOff, both.Prepared.Open(common));
        Assert.Equal(WhatIfOutcome.CutsOff, both.General.Change([ElementChange.Open(common)]));
        both.Told([15 - left, 12 - (2 * right)], [left, right], both: true);

        // And the same with a coin on the right side, where 2 A flow besides.
        Assert.Equal(WhatIfOutcome.CutsOff, both.General.Change([ElementChange.Open(common), both.Across(1, Coin)]));
        both.Told([15 - left, (12 - (2 * right)) * Coin / (right + Coin)], [left, right * Coin / (right + Coin)], both: false);
    }

    [Fact]
    public void What_has_no_resistance_or_joins_separate_parts_is_not_answered()
    {
        Case line = new(OneWay(), ("near", 1, 1), ("siding", 1, 0), ("siding", 0.5, 0));
        int feeder = line.First(ElementKind.Feeder), rail = line.RailAt("siding", 0);
        Assert.Equal(WhatIfOutcome.NeedsNewModel, line.Prepared.Open(feeder));
        Assert.Equal(WhatIfOutcome.NeedsNewModel, line.General.Change([ElementChange.Open(feeder)]));
        Assert.Equal(WhatIfOutcome.NeedsNewModel, line.General.Change([ElementChange.Add(line.Asked[0].First, line.Asked[1].First, 1)]));

        // Inside track without a feed nothing comes of anything.
        Assert.Equal(WhatIfOutcome.Solved, line.General.Change([ElementChange.Add(line.Asked[1].First, line.Asked[2].First, 1), ElementChange.Open(rail)]));
        line.Told([15 - Source - (2 * Rail), 0, 0], [Source + (2 * Rail), double.PositiveInfinity, double.PositiveInfinity], both: false);
    }

    [Fact]
    public void An_unknown_bears_the_name_of_the_rail_that_it_stands_for()
    {
        Case line = new(OneWay(), ("near", 1, 0), ("far", 3, 0));
        foreach (int node in line.Asked.SelectMany(place => new[] { place.First, place.Second }))
        {
            Assert.Equal(line.Model.Circuit.NameOf(node), line.Model.NameOfUnknown(line.Model.Unknowns.Of(node)));
        }
    }

    private static bool Same(double one, double other) => one.Equals(other) || Math.Abs(one - other) < 1e-9;

    /// <summary>2 m and 3 m, fed at the beginning; and a siding that nobody feeds.</summary>
    private static PlanBuilder OneWay() => new PlanBuilder().BareFeeds().Section("near", 2).Section("far", 3).Section("siding", 2)
        .Join("near.b", "far.a").Booster("main").District("east", "main").Feeder("f1", "near", 0, "east", "main", metres: 0);

    /// <summary>2 m, 1 m and 2 m, fed at both ends.</summary>
    private static PlanBuilder BothWays() => new PlanBuilder().BareFeeds().Section("left", 2).Section("mid", 1).Section("right", 2).Section("siding", 2)
        .Join("left.b", "mid.a").Join("mid.b", "right.a").Booster("main").District("east", "main")
        .Feeder("f1", "left", 0, "east", "main", metres: 0).Feeder("f2", "right", 2, "east", "main", metres: 0);

    private sealed class Case
    {
        internal Case(PlanBuilder plan, params (string Section, double Metres, double Amps)[] places)
        {
            Layout layout = plan.Build();
            Graph = RailGraph.Build(layout, places.Select(place => new TrackPlace(new(place.Section), place.Metres)));
            Model = NodalModel.Of(CircuitBuilder.Build(Graph, PowerOptions.Default.Turnouts));
            Model.SelectInverse();
            Asked = [.. places.Select(place => (Station: StationAt(place.Section, place.Metres), place.Amps)).Select(at => new AskedPlace(at.Station.FirstTowardsB, at.Station.SecondTowardsB, at.Amps))];
            Potentials = Model.Potentials(Asked.Where(place => place.Amps > 0).Select(place => new NodeLoad(place.First, place.Second, place.Amps)));
            Places = new(Model, Potentials, Asked);
            (Prepared, General) = (new(Model, Places), new(Model, Places, 4));
        }

        internal NodalModel Model { get; }

        internal double[] Potentials { get; }

        internal AskedPlace[] Asked { get; }

        internal AskedPlaces Places { get; }

        internal PreparedWhatIfWorkspace Prepared { get; }

        internal WhatIfWorkspace General { get; }

        internal IEnumerable<int> Joints => All(element => element.Kind == ElementKind.Joint);

        private RailGraph Graph { get; }

        internal int First(ElementKind kind) => All(element => element.Kind == kind).First();

        /// <summary>The joint of one rail at an end of a section.</summary>
        internal int JointAt(string section, double metres) => At(ElementKind.Joint, section, metres);

        internal int RailAt(string section, double metres) => At(ElementKind.Rail, section, metres);

        internal ElementChange Across(int place, double ohms) => ElementChange.Add(Asked[place].First, Asked[place].Second, ohms);

        internal double VoltsAt(int place, double[] potentials) => Model.VoltsBetween(Asked[place].First, Asked[place].Second, potentials);

        /// <summary>What is told of every place, by the general way or by both.</summary>
        internal void Told(double[] volts, double[] ohms, bool both)
        {
            int[] all = [.. Enumerable.Range(0, Asked.Length)];
            Assert.Equal(ohms.Select(double.IsFinite), all.Select(General.IsFed));
            Assert.Equal(volts, all.Select(General.Volts), Same);
            Assert.Equal(ohms, all.Select(General.Ohms), Same);
            if (both)
            {
                Assert.Equal(volts, Prepared.Volts.ToArray(), Same);
                Assert.Equal(ohms, Prepared.Ohms.ToArray(), Same);
            }
        }

        private Station StationAt(string section, double metres) => Graph.StationAt(new(new(section), metres));

        private int At(ElementKind kind, string section, double metres)
        {
            Station station = StationAt(section, metres);
            return All(element => element.Kind == kind && (element.From == station.FirstTowardsB || element.To == station.FirstTowardsB)).Single();
        }

        private IEnumerable<int> All(Func<CircuitElement, bool> wanted) => Enumerable.Range(0, Model.Circuit.Elements.Length).Where(i => wanted(Model.Circuit.Elements[i]));
    }
}
