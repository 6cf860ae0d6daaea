using UnitsNet;
using WireUp.Layouts;

namespace WireUp.Documents.Tests.Schedules.Exact;

public sealed class ListTests
{
    [Fact]
    public void Pieces_go_into_the_first_coil_with_room_longest_first()
    {
        // 6, 5, 4, 3, 2 into coils of 10: 6+4, 5+3+2. Both coils are full: nothing is left.
        CutGroup group = Assert.Single(CutList.Of(Wires(2, 5, 3, 6, 4), Length.FromMeters(10)).Groups);

        Assert.Equal(["6 4", "5 3 2"], group.Coils.Select(coil => string.Join(' ', coil.Pieces.Select(piece => piece.CutLength.Meters))));
        Assert.All(group.Coils, coil => Assert.Equal(0, coil.Left.Meters, 1e-9));
        Assert.Equal(20, group.Total.Meters, 1e-9);
    }

    [Fact]
    public void A_piece_longer_than_a_coil_gets_a_length_of_its_own()
    {
        CutGroup group = Assert.Single(CutList.Of(Wires(12, 1), Length.FromMeters(10)).Groups);

        Assert.Equal([12, 1], group.Coils.Select(coil => coil.Used.Meters));
        Assert.Equal([0, 9], group.Coils.Select(coil => coil.Left.Meters));
    }

    [Fact]
    public void The_shopping_list_counts_devices_by_rating_and_parts_with_spare()
    {
        Layout layout = TestLayouts.Balloon;
        ShoppingList list = ShoppingList.Of(layout, null, Schedule.Of(layout));

        Assert.Equal(1, Quantity("Supply, enclosed and certified, 15 V DC, 90 W, energy-limited"));
        Assert.Equal(1, Quantity("Booster, 14.5 V, 5 A"));
        Assert.Equal(1, Quantity("Breaker, set to trip at 4 A"));
        Assert.Equal(1, Quantity("Auto-reverser with breaker, set to trip at 2.5 A"));
        Assert.Equal(3, Quantity("Insulated rail joiner")); // 2 rails and 10 %, rounded up
        Assert.Equal(2, Quantity("Insulating filler for a saw cut"));
        Assert.Equal(5, Quantity("Tap joining 0.5 mm² to 1.5 mm²")); // 2 feeders × 2 legs and 10 %
        Assert.Equal(3, Quantity("Tap joining 0.5 mm² to 2.5 mm²"));
        Assert.Equal(1, Quantity("Stranded copper wire 2.5 mm², RD (red)")); // 0.90 m and 10 %: 0.99 m
        Assert.Equal(20, Quantity("Wire label"));

        int Quantity(string item) => list.Items.Single(row => row.Item == item).Quantity;
    }

    [Fact]
    public void Nothing_is_bought_for_what_is_built()
    {
        Layout layout = TestLayouts.Balloon;
        Assert.Empty(ShoppingList.Of(layout, layout, Schedule.Of(layout, before: layout)).Items);
    }

    private static Schedule Wires(params double[] metres) => new([
        .. metres.Select((length, i) => new ScheduledWire($"w{i}", WireKind.Bus, "d", "x", "y", new Wire.Metric(1.5))
        {
            Leg = "A",
            Colour = "RD",
            Length = Length.FromMeters(length),
            CutLength = Length.FromMeters(length),
        }),
    ]);
}
