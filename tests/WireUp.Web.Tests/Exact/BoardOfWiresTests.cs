using WireUp.Documents;
using WireUp.Layouts;
using WireUp.Web.Desk;

namespace WireUp.Web.Tests.Exact;

public sealed class BoardOfWiresTests
{
    private const string Wired = """

        wiring:
          boosters:
            main: { volts: 14.5 V, amps: 3 A, resistance: 0.12 ohm, beside: south-w@600 }
          districts:
            all: { booster: main, trip: 2 A, resistance: 0.05 ohm }
          bus:
            all: { wire: 14 AWG, runs: [ main > P1 0.6 m, P1 > P2 3.5 m ] }
          feeders:
            f1: { at: south-w@400, bus: P1, wire: 20 AWG, length: 250 }
            f2: { at: curve-e@600, bus: P2, wire: 20 AWG, length: 250 }

        """;

    [Fact]
    public void A_feeder_is_worked_on_at_the_board_where_it_meets_the_rails_and_bus_across_them()
    {
        Layout layout = LayoutFile.Read(RepoFiles.ReadText("sample-layouts/hill-and-corridors.layout.yaml") + Wired, "test").Layout!;
        BoardOfWires boards = BoardOfWires.Of(layout)!;
        Assert.Equal(
            ["Board east: f2", "Board west: f1", "Bus, across the boards: all"],
            Schedule.Of(layout).Wires.Select(wire => $"{boards.Heading(wire)}: {wire.Id.Split('/', ':')[0]}").Distinct().Order(StringComparer.Ordinal));
    }

    [Fact]
    public void A_layout_without_boards_has_no_headings_for_them() =>
        Assert.Null(BoardOfWires.Of(LayoutFile.Read(RepoFiles.ReadText("sample-layouts/home-yard.layout.yaml"), "test").Layout!));
}
