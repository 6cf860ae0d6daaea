using UnitsNet;

namespace WireUp.Layouts.Tests.Exact;

/// <summary>Where additions go in a text, shown whole: the file before, and the file after.</summary>
public sealed class AddingTextTests
{
    private const string Head = """
        wireup: 1
        name: Test
        longest-train: 1 m
        track:
          s: { length: 2 m }
          T: { turnout: left, frog: isolated }   # metal frog
          U:
            turnout: right
            frog: isolated
            # the contact is still to come
            frog-feed: none
        joined:
          - s > T.points
          - T.diverging > U.diverging

        """;

    private static readonly Supply Brick = new("brick", ElectricPotential.FromVolts(15), false, Power.FromWatts(90), SupplyClass.Limited);

    private static readonly Booster Main = new("main", ElectricPotential.FromVolts(14), ElectricCurrent.FromAmperes(5), ElectricResistance.FromOhms(0.1)) { Supply = "brick" };

    private static readonly District East = new("east", "main", ElectricCurrent.FromAmperes(4), ElectricResistance.FromOhms(0.05));

    private static readonly BusRun Run1 = new("main", "P1", Length.FromMeters(2), new Wire.Awg(12));

    private static readonly BusRun Run2 = new("P1", "P2", Length.FromMillimeters(850), new Wire.Awg(12));

    private static readonly BusRun Run3 = new("P1", "P3", Length.FromMeters(3), new Wire.Metric(2.5));

    private static readonly Feeder F1 = new("f1", new TrackPlace(new PieceId("s"), 0.5), "east", "P1", new Wire.Awg(20), Length.FromMillimeters(250));

    private static readonly Feeder F2 = new("f2", new TrackPlace(new PieceId("s"), 1.25), "east", "main", new Wire.Metric(0.5), Length.FromMeters(0.3)) { Swap = true };

    private static readonly Gap InJoint = new(new GapPlace.InJoint(new TrackEnd(new PieceId("T"), "points")), RailSet.Left);

    private static readonly Gap InSection = new(new GapPlace.InSection(new TrackPlace(new PieceId("s"), 0.1)), RailSet.Both);

    private static readonly Wiring Small = new()
    {
        Supplies = [Brick],
        Boosters = [Main],
        Districts = [East],
        Buses = [new Bus("east", [Run1])],
        Feeders = [F1],
        Gaps = [InJoint],
    };

    private static readonly Wiring Large = Small with { Buses = [new Bus("east", [Run1, Run2, Run3])], Feeders = [F1, F2], Gaps = [InJoint, InSection] };

    [Fact]
    public void Wiring_is_made_before_the_stock_when_there_is_none()
    {
        const string Stock = """

            # what runs
            stock: { moving-at-once: 2 }
            """;
        Assert.Equal(
            Head.TrimEnd('\n') + """


            wiring:
              supplies:
                brick: { output: 15 V dc, rating: 90 W, class: limited }
              boosters:
                main: { supply: brick, volts: 14 V, amps: 5 A, resistance: 100 mohm }
              districts:
                east: { booster: main, trip: 4 A, resistance: 50 mohm }
              bus:
                east: { wire: 12 AWG, runs: [ main > P1 2 m ] }
              feeders:
                f1: { at: s@500 mm, bus: P1, wire: 20 AWG, length: 250 mm }
              gaps:
                - { at: T.points, rails: left }

            """ + Stock,
            Added(Head + Stock, Small));
    }

    [Fact]
    public void Neighbours_comments_and_empty_keys_stay_where_they_are()
    {
        const string Wired = """
            wiring:   # as built
                supplies:
                    brick: { output: 15 V dc, rating: 90 W, class: limited }
                boosters:
                    main: { supply: brick, volts: 14 V, amps: 5 A, resistance: 100 mohm }   # under the yard
                districts: { east: { booster: main, trip: 4 A, resistance: 50 mohm } }
                bus:
                    east:
                        runs:
                        - main > P1 2 m 12 AWG   # along the wall
                        # nothing beyond yet
                        wire: 12 AWG
                feeders: { f1: { at: s@500 mm, bus: P1, wire: 20 AWG, length: 250 mm }, }
                gaps:
                    - at: T.points
                      rails: left   # hand-cut
                    # end of the gaps
            x-mine: [1, 2]
            """;
        Assert.Equal(
            Head + """
            wiring:   # as built
                supplies:
                    brick: { output: 15 V dc, rating: 90 W, class: limited }
                boosters:
                    main: { supply: brick, volts: 14 V, amps: 5 A, resistance: 100 mohm }   # under the yard
                districts: { east: { booster: main, trip: 4 A, resistance: 50 mohm } }
                bus:
                    east:
                        runs:
                        - main > P1 2 m 12 AWG   # along the wall
                        - P1 > P2 850 mm
                        - P1 > P3 3 m 2.5 mm2
                        # nothing beyond yet
                        wire: 12 AWG
                feeders: { f1: { at: s@500 mm, bus: P1, wire: 20 AWG, length: 250 mm }, f2: { at: s@1.25 m, bus: main, district: east, wire: 0.5 mm2, length: 300 mm, swap: true }, }
                gaps:
                    - at: T.points
                      rails: left   # hand-cut
                    - { at: s@100 mm, rails: both }
                    # end of the gaps
            x-mine: [1, 2]
            """,
            Added(Head + Wired, Large));
    }

    [Theory]
    [InlineData("wiring:", "wiring:\n  gaps:\n    - { at: T.points, rails: left }")]
    [InlineData("wiring:   # none yet", "wiring:   # none yet\n  gaps:\n    - { at: T.points, rails: left }")]
    [InlineData("wiring: ~", "wiring: { gaps: [ { at: T.points, rails: left } ] }")]
    [InlineData("wiring: null   # none", "wiring: { gaps: [ { at: T.points, rails: left } ] }   # none")]
    [InlineData("wiring: {}", "wiring: { gaps: [ { at: T.points, rails: left } ] }")]
    [InlineData("wiring: { gaps }", "wiring: { gaps: [ { at: T.points, rails: left } ] }")]
    [InlineData("wiring: { gaps: }", "wiring: { gaps: [ { at: T.points, rails: left } ] }")]
    [InlineData("wiring: { \"gaps\": [] }", "wiring: { \"gaps\": [ { at: T.points, rails: left } ] }")]
    [InlineData("wiring: { gaps: [ # none\n  ] }", "wiring: { gaps: [ { at: T.points, rails: left } # none\n  ] }")]
    [InlineData("wiring:\n  x-note: |\n    some words\n\n    # more\nx-end: 1", "wiring:\n  x-note: |\n    some words\n\n    # more\n  gaps:\n    - { at: T.points, rails: left }\nx-end: 1")]
    [InlineData("wiring:\n  x-note:\n", "wiring:\n  x-note:\n  gaps:\n    - { at: T.points, rails: left }\n")]
    [InlineData("wiring: { x-note }", "wiring: { x-note, gaps: [ { at: T.points, rails: left } ] }")]
    [InlineData("wiring: { x-note: }", "wiring: { x-note: , gaps: [ { at: T.points, rails: left } ] }")]
    [InlineData("wiring: { x-note: 1, }", "wiring: { x-note: 1, gaps: [ { at: T.points, rails: left } ], }")]
    [InlineData("wiring:\r\n  gaps:\r\n", "wiring:\r\n  gaps:\r\n    - { at: T.points, rails: left }\r\n")]
    public void An_empty_place_is_filled(string before, string after) =>
        Assert.Equal(Head + after, Added(Head + before, Wiring.None with { Gaps = [InJoint] }));

    [Fact]
    public void A_long_list_of_runs_goes_on_below_its_first_item()
    {
        BusRun[] many = [.. Enumerable.Range(2, 9).Select(i => new BusRun("P1", $"P{i}", Length.FromMeters(i), new Wire.Awg(12)))];
        string text = LayoutFile.Write(LayoutFile.Read(Head, "test").Layout! with { Wiring = Small });
        string added = Added(text, Small with { Buses = [new Bus("east", [Run1, .. many])] });
        Assert.EndsWith(
            "    east: { wire: 12 AWG, runs: [ main > P1 2 m, P1 > P2 2 m, P1 > P3 3 m, P1 > P4 4 m, P1 > P5 5 m,\n"
            + "                                  P1 > P6 6 m, P1 > P7 7 m, P1 > P8 8 m, P1 > P9 9 m, P1 > P10 10 m ] }\n", added[..added.IndexOf("  feeders", StringComparison.Ordinal)], StringComparison.Ordinal);
    }

    [Fact]
    public void A_contact_is_added_to_the_turnout_it_feeds()
    {
        LayoutDocument document = LayoutDocument.Open(Head, "test");
        Layout before = document.Reading.Layout!;
        Layout after = before with
        {
            Track = [.. before.Track.Select(piece => piece is Piece.Turnout turnout ? turnout with { Feed = FrogFeed.Contact } : piece)],
        };
        string expected = Head
            .Replace("frog: isolated }   # metal", "frog: isolated, frog-feed: contact }   # metal", StringComparison.Ordinal)
            .Replace("frog-feed: none", "frog-feed: contact", StringComparison.Ordinal);
        Assert.Equal(expected, document.WithAdded(after).Text);
    }

    [Fact]
    public void Taking_away_is_refused()
    {
        LayoutDocument document = LayoutDocument.Open(Head, "test").WithWiring(Small);
        Assert.Throws<ArgumentException>(() => document.WithWiring(Small with { Gaps = [] }));
        Assert.Throws<ArgumentException>(() => document.WithWiring(Small with { Feeders = [] }));
        Assert.Throws<ArgumentException>(() => document.WithWiring(Small with { Buses = [new Bus("east", [])] }));
    }

    [Fact]
    public void Changing_what_is_built_is_refused()
    {
        LayoutDocument document = LayoutDocument.Open(Head, "test").WithWiring(Small);
        Assert.Throws<ArgumentException>(() => document.WithWiring(Small with { Feeders = [F1 with { Swap = true }] }));
    }

    [Fact]
    public void An_addition_that_contradicts_the_file_is_refused()
    {
        LayoutDocument document = LayoutDocument.Open(Head, "test").WithWiring(Small);
        Wiring nowhere = Small with { Feeders = [F1, F1 with { Name = "f9", Tap = "P9" }] };
        Assert.Contains("P9", Assert.Throws<ArgumentException>(() => document.WithWiring(nowhere)).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void A_document_with_errors_takes_no_additions() =>
        Assert.Throws<InvalidOperationException>(() => LayoutDocument.Open("name: x", "test").WithWiring(Small));

    private static string Added(string text, Wiring wiring) => LayoutDocument.Open(text, "test").WithWiring(wiring).Text;
}
