using WireUp.Documents.Book;
using WireUp.Layouts;

namespace WireUp.Documents.Tests.Book.Exact;

/// <summary>A sheet for each board of the benchwork.</summary>
public sealed class BoardChapterTests
{
    // Two boards meet at x = 2000; the line runs over both 500 mm from their lower edge, the corridor 300 mm from it.
    private static readonly Layout Boards = TestLayouts.Read("""
        wireup: 1
        name: Two boards at Pale Moor
        scale: HO
        units: mm
        longest-train: 1 m
        shortest-pickup: 60
        track:
          one: { length: 1600, path: [[300, 500], [1900, 500]] }
          T1: { turnout: left, number: 6, length: 200, frog: isolated, frog-feed: contact }
          two: { length: 1600, path: [[2100, 500], [3700, 500]] }
          spur: { length: 1600, path: [[2100, 522], [2500, 600], [3690, 600]] }
        joined:
          - one > T1.points
          - T1.through > two
          - T1.diverging > spur
        benchwork:
          boards:
            west: [[100, 100], [2000, 100], [2000, 900], [100, 900]]
            east: [[2000, 100], [4000, 100], [4000, 900], [2000, 900]]
          corridors:
            joist: { path: [[200, 300], [3900, 300]] }
        wiring:
          supplies:
            brick: { output: 15 V dc, rating: 90 W, class: limited }
          boosters:
            main: { supply: brick, volts: 14.5 V, amps: 5 A, resistance: 0.15 ohm, at: [500, 300] }
          districts:
            all: { booster: main, trip: 4 A, resistance: 0.05 ohm }
          bus:
            all: { wire: 2.5 mm2, runs: [ main > P1 0.5 m, P1 > P2 2 m ] }
          feeders:
            f1: { at: one@0.7 m, bus: P1, wire: 0.5 mm2, length: 250 }
            f2: { at: two@0.9 m, bus: P2, wire: 0.5 mm2, length: 250 }
            f3: { at: one@1.2 m, bus: P2, wire: 0.5 mm2, length: 250 }
          gaps:
            - { at: T1.points, rails: left }
            - { at: two@1 m, rails: both }
        """);

    private static readonly BoardMap Map = BoardMap.Of(new(TestPlans.Of(Boards), new(), TestContext.Current.CancellationToken));

    [Fact]
    public void Every_feeder_gap_and_booster_is_on_the_sheet_of_the_board_under_it()
    {
        (BoardParts west, BoardParts east) = (Map.PartsOn("west"), Map.PartsOn("east"));
        Assert.Equal(["f1", "f3"], west.Feeders.Select(feeder => feeder.Name));
        Assert.Equal(["f2"], east.Feeders.Select(feeder => feeder.Name));
        Assert.Equal(["main"], west.Boosters);
        Assert.Empty(east.Boosters);
        Assert.Equal(["main", "P1"], west.Points.Select(point => point.Point));
        Assert.Equal(["P2"], east.Points.Select(point => point.Point));
        Assert.Equal(Boards.Wiring.Gaps[0], Assert.Single(west.Gaps).Gap);
        Assert.Equal(Boards.Wiring.Gaps[1], Assert.Single(east.Gaps).Gap);
        Assert.Equal(Schedule.Of(Boards).Wires.Where(wire => wire.Kind == WireKind.Frog).Select(wire => wire.Id), west.FrogWires.Concat(east.FrogWires).Select(wire => wire.Id));
        Assert.Equal(3, west.FrogWires.Length + east.FrogWires.Length);
    }

    [Fact]
    public void A_line_of_bus_is_shared_out_between_the_boards_where_it_crosses_their_joint()
    {
        // P1 is below x = 1000, P2 below x = 3000: the run of 2 m crosses at x = 2000, its middle.
        BusOnBoard west = Assert.Single(Map.PartsOn("west").Bus), east = Assert.Single(Map.PartsOn("east").Bus);
        Assert.Equal(("all:1", "all:1"), (west.Line, east.Line));
        Assert.Equal(0.5 + 1, west.Metres, 6);
        Assert.Equal(1, east.Metres, 6);
        Assert.Equal(["east"], west.AlsoOn);
        Assert.Equal(["west"], east.AlsoOn);
    }

    [Fact]
    public void Holes_are_measured_from_the_edges_of_their_own_board()
    {
        Scene sheet = Sheet("east");
        string[] row = Row(sheet, "f2/A");

        // two@900 mm lies at x = 3000, y = 500; the left rail 8.25 mm above. The board reaches from x = 2000 to 4000 and from y = 100.
        Assert.Equal(["f2/A", "left", "1000", "408", "1000", "two@900 mm"], row);
    }

    [Fact]
    public void A_feeder_tapped_on_another_board_says_so()
    {
        Assert.Contains("P2 (board east)", Sheet("west").Texts.Select(text => text.Content));
        Assert.DoesNotContain(Sheet("east").Texts, text => text.Content.Contains("(board", StringComparison.Ordinal));
    }

    [Fact]
    public void What_lies_on_no_board_is_named_once()
    {
        Layout narrow = Boards with { Benchwork = Boards.Benchwork with { Boards = [Boards.Benchwork.Boards[0]] } };
        Scene page = Assert.Single(TestBook.Pages(TestPlans.Of(narrow)), page => page.Texts.Any(text => text.Content == "Board west" && text.Style == BookStyle.Heading));
        string text = string.Join(' ', page.Texts.Where(line => line.Style == BookStyle.Body).Select(line => line.Content));
        Assert.Contains("On no board, and on no sheet of a board: f2, ", text, StringComparison.Ordinal);
        Assert.Contains(", P2.", text, StringComparison.Ordinal);
    }

    [Fact]
    public void Every_part_of_the_sample_with_boards_is_on_exactly_one_of_them()
    {
        Layout sample = TestLayouts.Sample("hill-and-corridors");
        Layout wired = sample with { Wiring = RoughWiring.Plan(sample).After.Wiring };
        BoardMap map = BoardMap.Of(new(TestPlans.Of(wired), new(), TestContext.Current.CancellationToken));
        BoardParts[] parts = [.. wired.Benchwork.Boards.Select(board => map.PartsOn(board.Name))];
        Assert.NotEmpty(wired.Wiring.Feeders);
        Assert.Equal(wired.Wiring.Feeders.Select(feeder => feeder.Name).Order(), parts.SelectMany(part => part.Feeders).Select(feeder => feeder.Name).Order());
        Assert.Equal(wired.Wiring.Gaps.Length, parts.Sum(part => part.Gaps.Length));
        Assert.Equal(wired.Wiring.Buses.Sum(bus => bus.Runs.Sum(run => run.Length.Meters)), parts.Sum(part => part.Bus.Sum(bus => bus.Metres)), 6);
    }

    private static Scene Sheet(string board) =>
        Assert.Single(TestBook.Pages(TestPlans.Of(Boards)), page => page.Texts.Any(text => text.Content == $"Board {board}" && text.Style == BookStyle.Heading));

    private static string[] Row(Scene page, string name) => [.. page.Texts.Where(text => text.At.Y == page.Texts.Last(other => other.Content == name).At.Y).OrderBy(text => text.At.X).Select(text => text.Content)];
}
