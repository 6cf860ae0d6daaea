using UnitsNet;
using WireUp.Layouts.Reference;

namespace WireUp.Layouts.Tests.Exact;

/// <summary>What the words of a file become.</summary>
public sealed class ReadingTests
{
    private const string Head = "wireup: 1\nname: Test\nlongest-train: 1 m\n";

    private const string Track = Head + """
        track:
          spur: { length: 1200 }
          T1: { turnout: right, frog: live, number: 6, length: 24 cm, dead-length: 1/2 in }
          loop: { length: 5.4 m, rail: { code: 100, alloy: brass }, path: [[0, 0], [900, -100 mm]] }
          W: { turnout: wye, frog: isolated, frog-feed: contact }
          X1: { crossing: 22.5 deg, length: 150 }
          end: { stop: true }
        joined:
          - spur > T1.points
          - T1.through > loop > T1.diverging
          - W.left > X1.a1
          - W.right > end

        """;

    [Fact]
    public void Pieces_are_what_their_keys_say()
    {
        Layout layout = Read(Track);
        Assert.Equal(new Piece.Section(new("spur"), Length.FromMeters(1.2)), layout.Track[0]);
        Assert.Equal(
            new Piece.Turnout(new("T1"), TurnoutHand.Right, FrogKind.Live) { Number = 6, Length = Length.FromMeters(0.24), DeadLength = Length.FromMeters(0.0127) },
            layout.Track[1]);
        Piece.Section loop = (Piece.Section)layout.Track[2];
        Assert.Equal((5.4, new RailMaterial(100, "brass", null)), (loop.Length.Meters, loop.Rail));
        Assert.Equal([new PlanPoint(0, 0), new PlanPoint(0.9, -0.1)], loop.Path);
        Piece.Turnout wye = (Piece.Turnout)layout.Track[3];
        Assert.Equal((TurnoutHand.Wye, FrogKind.Isolated, FrogFeed.Contact), (wye.Hand, wye.Frog, wye.Feed));
        Assert.Equal(["points", "left", "right"], wye.EndNames);
        Piece.Crossing crossing = (Piece.Crossing)layout.Track[4];
        Assert.Equal((22.5, FrogKind.Insulated, 0.15), (crossing.Angle.Degrees, crossing.Frog, crossing.Length!.Value.Meters));
        Assert.IsType<Piece.Stop>(layout.Track[5]);
    }

    [Fact]
    public void A_chain_passes_a_section_from_a_to_b() =>
        Assert.Equal(
            ["spur.b-T1.points", "T1.through-loop.a", "loop.b-T1.diverging", "W.left-X1.a1", "W.right-end.a"],
            Read(Track).Joints.Select(joint => $"{joint.First}-{joint.Second}"));

    [Theory]
    [InlineData("- spur > loop", "spur.b-loop.a")]
    [InlineData("- spur.a > loop", "spur.a-loop.a")]
    [InlineData("- spur > loop.b", "spur.b-loop.b")]
    [InlineData("- end > spur > loop", "end.a-spur.a spur.b-loop.a")]
    [InlineData("- spur>loop >  end", "spur.b-loop.a loop.b-end.a")]
    [InlineData("- loop > loop.a", "loop.b-loop.a")]
    [InlineData("- 'spur > loop'", "spur.b-loop.a")]
    [InlineData("- spur >\n    loop", "spur.b-loop.a")]
    public void The_tips_of_a_chain_say_which_end(string chain, string joints)
    {
        Layout layout = Read(Head + "track: { spur: { length: 1 m }, loop: { length: 2 m }, end: { stop: true } }\njoined:\n  " + chain + "\n");
        Assert.Equal(joints, string.Join(' ', layout.Joints.Select(joint => $"{joint.First}-{joint.Second}")));
    }

    [Fact]
    public void A_joint_may_be_described_from_either_end_and_is_kept_as_seen_from_its_first()
    {
        Layout layout = Read(Track + """
            joints:
              loop.a: { insulated: true, rails: left, kind: soldered }
              loop.b: { insulated: true, rails: left, resistance: 3 mohm }
              spur.b: soldered

            """);
        Assert.Equal(JointKind.Soldered, layout.Joints[0].Kind);
        Assert.Equal((RailSet.Right, JointKind.Soldered), (layout.Joints[1].Insulated, layout.Joints[1].Kind));
        Assert.Equal((RailSet.Left, JointKind.Joiner), (layout.Joints[2].Insulated, layout.Joints[2].Kind));
        Assert.Equal(0.003, layout.Joints[2].Resistance!.Value.Ohms);
    }

    [Fact]
    public void On_three_rail_track_both_ends_see_the_same_rails()
    {
        Layout layout = Read(Track + "control: three-rail\njoints: { loop.a: { insulated: true, rails: centre } }\n");
        Assert.Equal(RailSet.Left, layout.Joints[1].Insulated);
        Assert.True(layout.Joints[1].Insulated.Holds(RailSide.Centre));
        Assert.False(layout.Joints[1].Insulated.Holds(RailSide.Running));
    }

    [Fact]
    public void The_defaults_hold_where_a_piece_or_joint_says_nothing_else()
    {
        Layout layout = Read(Track.Replace("frog: isolated, frog-feed: contact", "number: 4", StringComparison.Ordinal) + """
            defaults:
              rail: { code: 70, ohms-per-metre: 0.11 }
              joint: soldered
              frog: insulated
              resistance: { coin: 80 mohm }
              temperature: 68 degF
            joints: { spur.b: joiner }

            """);
        Assert.Equal(new RailMaterial(70, "nickel-silver", 0.11), layout.Defaults.Rail);
        Assert.Equal((0.08, 0.01), (layout.Defaults.Coin.Ohms, layout.Defaults.Joiner.Ohms));
        Assert.Equal(20, layout.Defaults.Temperature.DegreesCelsius, 12);
        Assert.Equal([JointKind.Joiner, JointKind.Soldered], layout.Joints.Select(joint => joint.Kind).Distinct());
        Assert.Equal(FrogKind.Insulated, ((Piece.Turnout)layout.Track[3]).Frog);
        Assert.Equal(new RailMaterial(100, "brass", null), ((Piece.Section)layout.Track[2]).Rail);
    }

    [Theory]
    [InlineData("{ ohms-per-metre: 0.05 }", 70, "steel", 0.05)]
    [InlineData("{ code: 83 }", 83, "steel", null)]
    [InlineData("{ alloy: brass }", 70, "brass", null)]
    [InlineData("{}", 70, "steel", 0.11)]
    public void A_rail_takes_what_it_does_not_say_from_the_defaults(string rail, int code, string alloy, double? ohmsPerMetre)
    {
        Layout layout = Read(Head + $"defaults: {{ rail: {{ code: 70, alloy: steel, ohms-per-metre: 0.11 }} }}\ntrack: {{ s: {{ length: 1 m, rail: {rail} }} }}\n");
        Assert.Equal(new RailMaterial(code, alloy, ohmsPerMetre), ((Piece.Section)layout.Track[0]).Rail);
    }

    [Fact]
    public void Wiring_hangs_together_by_name()
    {
        Wiring wiring = Read(Track + """
            wiring:
              supplies: { brick: { output: 16 V ac, rating: 90 VA, class: limited } }
              boosters:
                main: { supply: brick, volts: 14.5 V, amps: 5 A, resistance: 150 mohm, at: [0, -600] }
                far: { amps: 3 A, beside: loop@-100 }
              districts:
                east: { booster: main, trip: 4 A, reversing: true }
                west: { booster: far, trip: 2.5 A, resistance: 0.02 ohm }
              bus:
                east: { wire: 12 AWG, runs: [ P2 > P1 3.1 m, main > P1 2.0 m 2.5 mm2 ] }
              feeders:
                f1: { at: spur@0.6 m, bus: P2, wire: 20 AWG, length: 250 }
                f2: { at: loop@-1 m, bus: far, district: west, wire: 0.5 mm2, length: 300, swap: true }
              gaps:
                - { at: loop@100 }
                - { at: T1.diverging, rails: left }

            """).Wiring;
        Assert.Equal(
            new Supply("brick", ElectricPotential.FromVolts(16), true, Power.FromWatts(90), SupplyClass.Limited), Assert.Single(wiring.Supplies));
        Assert.Equal(
            new Booster("main", ElectricPotential.FromVolts(14.5), ElectricCurrent.FromAmperes(5), ElectricResistance.FromOhms(0.15)) { Supply = "brick", At = new(0, -0.6) },
            wiring.Boosters[0]);
        Assert.Equal(new TrackPlace(new("loop"), 5.3), wiring.Boosters[1].Beside);
        Assert.Equal((ScaleTable.Get("HO").CommandVolts, DeviceTable.BoosterResistance), (wiring.Boosters[1].Volts, wiring.Boosters[1].Resistance));
        Assert.Equal(
            new District("east", "main", ElectricCurrent.FromAmperes(4), DeviceTable.BreakerResistance) { Reversing = true }, wiring.Districts[0]);
        Assert.Equal(0.02, wiring.Districts[1].Resistance.Ohms);
        Assert.Equal(
            [new BusRun("P1", "P2", Length.FromMeters(3.1), new Wire.Awg(12)), new BusRun("main", "P1", Length.FromMeters(2), new Wire.Metric(2.5))],
            Assert.Single(wiring.Buses).Runs);
        Assert.Equal(
            [
                new Feeder("f1", new(new("spur"), 0.6), "east", "P2", new Wire.Awg(20), Length.FromMeters(0.25)),
                new Feeder("f2", new(new("loop"), 4.4), "west", "far", new Wire.Metric(0.5), Length.FromMeters(0.3)) { Swap = true },
            ],
            wiring.Feeders);
        Assert.Equal(
            [
                new Gap(new GapPlace.InSection(new(new("loop"), 0.1)), RailSet.Both),
                new Gap(new GapPlace.InJoint(new(new("T1"), "diverging")), RailSet.Left),
            ],
            wiring.Gaps);
    }

    [Fact]
    public void Stock_says_what_it_knows_and_takes_the_rest_from_the_scale()
    {
        Layout layout = Read(Track + """
            scale: N
            shortest-pickup: 35
            stock:
              moving-at-once: 2
              locomotives: { mallet: { running: 0.3 A, count: 2 }, switcher: { pickup: 1 in } }
              trains: { ore drag: { locomotives: [mallet, mallet], lit-cars: 1, length: 1 m } }

            """);
        ScaleRow scale = ScaleTable.Get("N");
        Locomotive mallet = layout.Stock.Locomotives[0];
        Assert.Equal((0.3, 2, 0.035), (mallet.Running.Amperes, mallet.Count, mallet.Pickup.Meters));
        Assert.Equal((scale.Stopped, scale.Starting, scale.Stalled), (mallet.Stopped, mallet.Starting, mallet.Stalled));
        Assert.Equal((0.0254, 1), (layout.Stock.Locomotives[1].Pickup.Meters, layout.Stock.Locomotives[1].Count));
        Train train = Assert.Single(layout.Stock.Trains);
        Assert.Equal(("ore drag", 1, scale.LitCar, 1.0), (train.Name, train.LitCars, train.LitCarCurrent, train.Length.Meters));
        Assert.Equal(["mallet", "mallet"], train.Locomotives);
        Assert.Equal(2, layout.Stock.MovingAtOnce);
    }

    [Fact]
    public void The_longest_of_the_trains_stands_in_for_a_longest_train_that_is_not_stated()
    {
        string file = Track.Replace("longest-train: 1 m\n", "", StringComparison.Ordinal) + "stock: { trains: { a: { length: 2 m }, b: { length: 3 m }, c: { length: 1 m } } }\n";
        Assert.Equal(3, Read(file).LongestTrain.Meters);
    }

    [Fact]
    public void A_file_that_says_little_has_the_usual_values()
    {
        Layout layout = Read(Track);
        Assert.Equal(("HO", ControlSystem.Command, 0.06), (layout.Scale, layout.Control, layout.ShortestPickup.Meters));
        Assert.Equal((5.0, 1.0), (layout.MaxDrop.Percent, layout.MaxFeederDistance.Meters));
        Assert.Equal(new LayoutDefaults(), layout.Defaults);
        Assert.Equal((Wiring.None, Stock.None), (layout.Wiring, layout.Stock));
    }

    [Fact]
    public void Bare_numbers_are_in_the_unit_of_the_file_wherever_it_is_named()
    {
        Layout layout = Read("wireup: 1\nname: x\nlongest-train: 36\ntrack: { s: { length: 40, path: [[0, 0], [40, 0]] } }\nunits: in\n");
        Assert.Equal((0.9144, 1.016), (layout.LongestTrain.Meters, ((Piece.Section)layout.Track[0]).Length.Meters));
        Assert.Equal(1.016, ((Piece.Section)layout.Track[0]).Path[1].X);
    }

    [Fact]
    public void Wishes_and_spots_are_read()
    {
        Layout layout = Read(Track + "districts-wanted: { yard: [spur, T1] }\nspots: { no-feeder: [loop], no-gap: [spur, loop] }\n");
        Assert.Equal(("yard", 2), (layout.DistrictsWanted[0].Name, layout.DistrictsWanted[0].Pieces.Length));
        Assert.Equal([new PieceId("loop")], layout.NoFeeder);
        Assert.Equal([new PieceId("spur"), new PieceId("loop")], layout.NoGap);
    }

    [Fact]
    public void Blocks_are_read_with_and_without_their_keys()
    {
        BlockWish all = Read(Track + "wishes: { blocks: {} }\n").Wishes.Blocks!;
        Assert.True(all is { Track.IsEmpty: true, Length: null, BothRails: false });
        BlockWish some = Read(Track + "wishes: { blocks: { track: [loop], length: 1.5 m, rails: both } }\n").Wishes.Blocks!;
        Assert.Equal([new PieceId("loop")], some.Track);
        Assert.Equal((1.5, true), (some.Length!.Value.Meters, some.BothRails));
    }

    [Fact]
    public void Districts_to_keep_apart_ways_round_and_stops_are_read()
    {
        Layout layout = Read(Track + "wishes: { apart: [[spur, loop], [[T1, spur], loop]], way-round: true, accessories: 1.5 A }\nspots: { stops: [loop] }\n");
        Assert.Equal([[new PieceId("spur")], [new PieceId("loop")]], layout.Wishes.Apart[0].Tracks);
        Assert.Equal([[new PieceId("T1"), new PieceId("spur")], [new PieceId("loop")]], layout.Wishes.Apart[1].Tracks);
        Assert.True(layout.Wishes.WayRound);
        Assert.Equal(1.5, layout.Wishes.Accessories!.Value.Amperes);
        Assert.Equal([new PieceId("loop")], layout.Stops);
    }

    private static Layout Read(string text)
    {
        LayoutReading reading = LayoutFile.Read(text, "test");
        Assert.Equal([], reading.Problems.Select(problem => problem.ToString()));
        return reading.Layout!;
    }
}
