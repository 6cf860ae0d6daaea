using System.Text;
using UnitsNet;
using WireUp.Layouts;

namespace WireUp.Documents.Tests.Schedules.Exact;

public sealed class ContactTableTests
{
    [Fact]
    public void What_joins_what_is_told_for_every_kind_of_trackwork()
    {
        StringBuilder text = new();
        foreach (Piece piece in Pieces())
        {
            text.Append(piece.Id.Name).Append('\n');
            foreach (MovingContact contact in ContactTable.Of(TrackKit.Of("one", [piece])).Contacts)
            {
                text.Append("  ").Append(contact.Name).Append(", ").Append(contact.By).Append(", moved by ").Append(contact.MovedBy).Append('\n');
                foreach (ContactThrow row in contact.Throws) text.Append($"    {row.Name}: {string.Join(", ", row.Positions)} > {row.Joins}\n");
            }
        }

        ApprovedText.Matches(text.ToString(), "contacts.txt", "tests/WireUp.Documents.Tests/Drawings/Approved");
    }

    [Fact]
    public void The_two_frogs_of_a_slip_are_wired_to_contacts_at_its_other_ends()
    {
        Layout layout = TrackKit.Of("slip", [new Piece.Slip(new("S1"), true, FrogKind.Isolated) { Feed = FrogFeed.Contact }], "w 1 S1.a1");
        string[] wires = [.. Schedule.Of(layout).Wires.Where(wire => wire.Kind == WireKind.Frog).Select(wire => $"{wire.Id} {wire.From} > {wire.To}")];
        Assert.Equal(
            [
                "S1:frog-west S1 contact of frog-west, common > S1/frog-west", "S1:frog-west:1 S1 contact of frog-west, 1 > S1.a1/left",
                "S1:frog-west:2 S1 contact of frog-west, 2 > S1.a1/right", "S1:frog-east S1 contact of frog-east, common > S1/frog-east",
                "S1:frog-east:1 S1 contact of frog-east, 1 > S1.a1/right", "S1:frog-east:2 S1 contact of frog-east, 2 > S1.a1/left",
            ],
            wires);
    }

    [Fact]
    public void A_switch_is_told_position_by_position_with_the_feeders_and_gaps_it_changes()
    {
        Layout track = TrackKit.Of("block", [], "lead 1 block 2");
        Layout layout = track with
        {
            Wiring = new()
            {
                Switches = [new(new("B1"), ["cab-a", "off"])],
                Feeders =
                [
                    new("f1", new(new("block"), 1), "east", "P1", new Wire.Metric(0.5), Length.FromMeters(0.3)) { When = new Setting(new("B1"), "cab-a") },
                ],
                Gaps = [new(new GapPlace.InSection(new(new("lead"), 0.5)), RailSet.Left) { BridgedWhen = new Setting(new("B1"), "cab-a") }],
            },
        };
        Assert.Equal(
            ["B1.cab-a: connects feeder f1 of east to block@1000 mm; bridges the gap at lead@500 mm, left rail", "B1.off: "],
            ContactTable.Of(layout).Settings.Select(setting => $"{setting.When}: {string.Join("; ", setting.Effects)}"));
        Assert.Equal("P1, through B1.cab-a", Schedule.Of(layout).Wires.First(wire => wire.Id == "f1/A").From);
    }

    [Fact]
    public void A_copper_clad_turnout_has_a_cut_for_every_zone_and_says_which_are_open()
    {
        Piece.Turnout turnout = new(new("T1"), TurnoutHand.Left, FrogKind.Live) { CopperClad = true, Uncut = TieZones.FrogLeft | TieZones.Beyond };
        FoilCut[] cuts = [.. FoilCuts.Of(TrackKit.Of("ties", [turnout]))];
        Assert.Equal(5, cuts.Length);
        Assert.Equal(["at the frog, to the left seen from the points", "beyond the frog"], cuts.Where(cut => !cut.IsCut).Select(cut => cut.Where));
        Assert.Equal(3, FoilCuts.Of(TrackKit.Of("ties", [turnout with { Frog = FrogKind.Insulated }])).Length);
    }

    [Fact]
    public void A_feeder_of_a_bridge_or_of_the_ring_under_it_is_named_as_such()
    {
        Assert.Equal("TT bridge@150 mm/left", FeederTo(BridgeFeed.Wires));
        Assert.Equal("TT ring/left", FeederTo(BridgeFeed.SplitRing));

        static string FeederTo(BridgeFeed feed)
        {
            Layout layout = TrackKit.Of("table", [new Piece.Turntable(new("TT"), 8, Length.FromMeters(0.3)) { Feed = feed }], "lead 1 TT.t1");
            Feeder feeder = new("f1", new(new("TT"), 0.15), "pit", "P1", new Wire.Metric(0.5), Length.FromMeters(0.3));
            return Schedule.Of(layout with { Wiring = new() { Feeders = [feeder] } }).Wires.First(wire => wire.Id == "f1/A").To;
        }
    }

    private static IEnumerable<Piece> Pieces() =>
    [
        new Piece.Turnout(new("blades"), TurnoutHand.Left, FrogKind.Live),
        new Piece.Turnout(new("contact"), TurnoutHand.Right, FrogKind.Isolated) { Feed = FrogFeed.Contact },
        new Piece.Turnout(new("changeover"), TurnoutHand.Wye, FrogKind.Isolated) { Feed = FrogFeed.Sensor },
        new Piece.Turnout(new("power-routing"), TurnoutHand.Left, FrogKind.Insulated) { PowerRouting = true },
        new Piece.Turnout(new("stub"), TurnoutHand.Left, FrogKind.Insulated) { Stub = true },
        new Piece.MultiTurnout(new("three-way"), 3, FrogKind.Live) { Feed = FrogFeed.Contact },
        new Piece.Crossing(new("same-phase"), Angle.FromDegrees(30), FrogKind.Live) { Feed = FrogFeed.Contact },
        new Piece.Crossing(new("opposite-phase"), Angle.FromDegrees(30), FrogKind.Live) { Feed = FrogFeed.Contact, OppositePhase = true },
        new Piece.Slip(new("double-slip"), true, FrogKind.Isolated) { Feed = FrogFeed.Contact },
        new Piece.Slip(new("single-slip"), false, FrogKind.Live) { Feed = FrogFeed.Contact, Drive = SlipDrive.Route },
        new Piece.Scissors(new("scissors"), FrogKind.Isolated) { Feed = FrogFeed.Contact },
        new Piece.Turntable(new("split-ring"), 12, Length.FromMeters(0.3)) { Feed = BridgeFeed.SplitRing },
    ];
}
