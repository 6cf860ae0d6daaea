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

    // At P1 three runs and a feeder meet: a strip of four ways for each leg. At Q2 a run of another size begins: a pair of terminals. P2, P3
    // and Q1 are plain taps.
    [Fact]
    public void Terminal_strips_are_bought_two_by_two_by_their_number_of_ways()
    {
        LayoutReading reading = LayoutFile.Read(
            """
            wireup: 1
            name: Fork
            longest-train: 1 m
            track: { s: { length: 9 m } }
            wiring:
              boosters: { main: { amps: 5 A } }
              districts: { d: { booster: main, trip: 3 A }, e: { booster: main, trip: 3 A } }
              bus:
                d: { wire: 1.5 mm2, runs: [ main > P1 2 m, P1 > P2 2 m, P1 > P3 2 m ] }
                e: { wire: 2.5 mm2, runs: [ main > Q1 2 m, Q1 > Q2 1 m, Q2 > Q3 1 m 1.5 mm2 ] }
              feeders:
                f1: { at: s@1 m, bus: P1, wire: 0.5 mm2, length: 250 }
                f2: { at: s@2 m, bus: P2, wire: 0.5 mm2, length: 250 }
                f3: { at: s@3 m, bus: P3, wire: 0.5 mm2, length: 250 }
                f4: { at: s@5 m, bus: Q1, wire: 0.5 mm2, length: 250 }
                f5: { at: s@6 m, bus: Q3, wire: 0.5 mm2, length: 250 }
            """,
            "fork");
        Layout layout = reading.Layout!;
        ShoppingItem[] terminals = [.. ShoppingList.Of(layout, null, Schedule.Of(layout)).Items.Where(item => item.Item.StartsWith("Terminal", StringComparison.Ordinal))];
        Assert.Equal([("Terminal strip, 4 ways", 2), ("Terminal block, two-way, for bus wire", 1)], terminals.Select(item => (item.Item, item.Quantity)));
        Assert.StartsWith("one a leg at P1;", terminals[0].Note, StringComparison.Ordinal);
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
