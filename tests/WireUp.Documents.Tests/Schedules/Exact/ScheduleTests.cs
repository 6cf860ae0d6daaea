using UnitsNet;
using WireUp.Layouts;

namespace WireUp.Documents.Tests.Schedules.Exact;

public sealed class ScheduleTests
{
    [Fact]
    public void Every_line_of_bus_and_every_feeder_is_two_wires()
    {
        Schedule schedule = Schedule.Of(TestLayouts.Balloon);

        Assert.Equal(
            ["east:1/A", "east:1/B", "turn:1/A", "turn:1/B", "f1/A", "f1/B", "f2/A", "f2/B", "f3/A", "f3/B"],
            schedule.Wires.Select(wire => wire.Id));
    }

    [Fact]
    public void Leg_A_goes_to_the_left_rail_unless_the_feeder_is_swapped()
    {
        Layout balloon = TestLayouts.Balloon;
        Feeder swapped = balloon.Wiring.Feeders[0] with { Swap = true };
        Layout layout = balloon with { Wiring = balloon.Wiring with { Feeders = balloon.Wiring.Feeders.SetItem(0, swapped) } };

        Assert.Equal("spur@700 mm/left", To(balloon, "f1/A"));
        Assert.Equal("spur@700 mm/right", To(balloon, "f1/B"));
        Assert.Equal("spur@700 mm/right", To(layout, "f1/A"));
        Assert.Equal("spur@700 mm/left", To(layout, "f1/B"));

        static string To(Layout layout, string id) => Schedule.Of(layout).Wires.Single(wire => wire.Id == id).To;
    }

    [Theory]
    [InlineData(250, 330)] // 250 × 1.05 + 2 × 30 = 322.5, up to the next 10
    [InlineData(800, 900)] // 800 × 1.05 + 60 = 900 exactly: not rounded up to 910
    [InlineData(0, 60)]
    public void Cut_length_is_length_slack_and_ends_rounded_up(double lengthMillimetres, double cutMillimetres)
    {
        Layout balloon = TestLayouts.Balloon;
        Feeder feeder = balloon.Wiring.Feeders[0] with { Length = Length.FromMillimeters(lengthMillimetres) };
        Layout layout = balloon with { Wiring = balloon.Wiring with { Feeders = [feeder] } };

        ScheduledWire wire = Schedule.Of(layout).Wires.Single(wire => wire.Id == "f1/A");

        Assert.Equal(cutMillimetres, wire.CutLength.Millimeters, 1e-6);
    }

    [Fact]
    public void A_frog_with_a_contact_has_three_wires_that_follow_its_polarity_law()
    {
        ScheduledWire[] frog = [.. Schedule.Of(TestLayouts.Crossover).Wires.Where(wire => wire.Kind == WireKind.Frog)];

        // T1 is right-hand: set for through (its left leg) the frog has the polarity of the right stock rail, which is the left
        // rail looking out of the points; set for diverging, that of the left stock rail.
        Assert.Equal(["T1:frog", "T1:through", "T1:diverging"], frog.Select(wire => wire.Id));
        Assert.Equal(["T1/frog", "T1.points/left", "T1.points/right"], frog.Select(wire => wire.To));
        Assert.Equal(["VT", "BN", "RD"], frog.Select(wire => wire.Colour)); // north-1's left rail is A by convention
    }

    [Fact]
    public void Colours_of_the_layout_s_own_stand_on_wires_cut_list_shopping_list_and_labels()
    {
        Layout layout = TestLayouts.Balloon with { Papers = new() { LegA = "LB", LegAName = "outer", Letters = Papers.Usual.Letters.Add("LB", "light blue") } };
        Schedule schedule = Schedule.Of(layout);
        Assert.All(schedule.Wires, wire => Assert.Equal(wire.Leg == "A" ? "LB" : "BN", wire.Colour));
        Assert.Contains(CutList.Of(schedule, UnitsNet.Length.FromMeters(25)).Groups, group => group.Colour == "LB");
        Assert.Contains(ShoppingList.Of(layout, layout with { Wiring = Wiring.None }, schedule).Items, item => item.Item == "Stranded copper wire 2.5 mm², LB (light blue)");
        string labels = string.Join('|', LabelSheets.Pages(layout, schedule, new(UnitsNet.Length.FromMillimeters(63.5), UnitsNet.Length.FromMillimeters(38.1))).SelectMany(sheet => sheet.Texts).Select(text => text.Content));
        Assert.Contains("2.5 mm² LB", labels, StringComparison.Ordinal);
        Assert.Contains("A outer | B", labels, StringComparison.Ordinal);
    }

    [Fact]
    public void Wires_that_were_there_before_are_marked_and_not_cut_again()
    {
        Layout after = TestLayouts.Balloon;
        Layout before = after with { Wiring = after.Wiring with { Feeders = after.Wiring.Feeders[..2], Buses = after.Wiring.Buses[..1] } };

        Schedule schedule = Schedule.Of(after, before: before);

        Assert.Equal(
            ["turn:1/A", "turn:1/B", "f3/A", "f3/B"],
            schedule.ToDo.Select(wire => wire.Id));
    }
}
