using System.Collections.Immutable;
using WireUp.Layouts;
using WireUp.Rails.Routes;

namespace WireUp.Rails.Tests.Exact;

/// <summary>Routes on a small railway: a balloon, a passing siding, a spur off the siding and a piece that nothing is joined to.</summary>
public sealed class RouteFinderTests
{
    private const string Text =
        """
        wireup: 1
        name: Routes
        longest-train: 1 m
        track:
          B: { turnout: left, length: 200 }
          balloon: { length: 5 m }
          line: { length: 2 m }
          W: { turnout: left, length: 200 }
          E: { turnout: right, length: 200 }
          main: { length: 3 m }
          siding-1: { length: 1 m }
          S: { turnout: left, length: 200 }
          siding-2: { length: 1 m }
          spur: { length: 1 m }
          spur-end: { stop: true }
          far: { length: 4 m }
          alone: { length: 1 m }
        joined:
          - B.through > balloon > B.diverging
          - B.points > line > W.points
          - W.through > main > E.through
          - W.diverging > siding-1 > S.points
          - S.through > siding-2 > E.diverging
          - S.diverging > spur > spur-end
          - E.points > far

        """;

    private static readonly Layout Railway = LayoutFile.Read(Text, "routes").Layout!;

    /// <summary>The same without the balloon, in which trains turn.</summary>
    private static readonly Layout Line =
        LayoutFile.Read(Text.Replace("  - B.through > balloon > B.diverging\n", "", StringComparison.Ordinal), "line").Layout!;

    [Theory]
    [InlineData("line > far", "line > W > siding-1 > S > siding-2 > E > far", 8.6)]
    [InlineData("line > main > far", "line > W > main > E > far", 9.4)]
    [InlineData("far > line", "far > E > siding-2 > S > siding-1 > W > line", 8.6)]
    [InlineData("line > spur-end", "line > W > siding-1 > S > spur", 4.4)]
    [InlineData("spur-end > line.a", "spur > S > siding-1 > W > line", 4.4)]
    [InlineData("main > balloon > main", "main > W > line > B > balloon > B > line > W > main", 15.8)]
    [InlineData("main", "main", 3)]
    [InlineData("main@1 m > main@0.25 m", "main", 0.75)]
    [InlineData("main@1 m > main.a", "main", 1)]
    [InlineData("main@2.5 m > far@1 m", "main > E > far", 1.7)]
    [InlineData("main@0.5 m > balloon", "main > W > line > B > balloon", 7.9)]
    [InlineData("W.points > E.points", "W > siding-1 > S > siding-2 > E", 2.6)]
    [InlineData("W", "W", 0.2)]
    [InlineData("line > balloon@4.9 m", "line > B > balloon", 2.3)] // in at end b; in at end a it would be 7.1 m
    [InlineData("line > balloon@0.1 m", "line > B > balloon", 2.3)] // in at end a
    public void The_shortest_way_past_the_named_stops_is_found(string asked, string pieces, double metres)
    {
        TrackRoute route = Assert.IsType<RouteSearch.Found>(Find(asked)).Route;
        Assert.Equal(pieces, route.ToString());
        Assert.Equal(metres, route.LengthMetres, 1e-12);
    }

    [Fact]
    public void Positions_follow_from_the_route()
    {
        TrackRoute route = Assert.IsType<RouteSearch.Found>(Find("main > balloon > siding-1")).Route;
        Assert.Equal(["B.diverging", "B.through", "W.diverging", "W.through"], route.Settings.Select(setting => setting.ToString()).Order(StringComparer.Ordinal));
    }

    [Fact]
    public void Places_along_a_section_run_in_the_direction_of_the_drive()
    {
        TrackRoute route = Assert.IsType<RouteSearch.Found>(Find("far@1 m > main@0.5 m")).Route;
        Assert.Equal((1.0, 0.0), (route.Steps[0].FromPlaceMetres, route.Steps[0].ToPlaceMetres));
        Assert.Null(route.Steps[1].FromPlaceMetres);
        Assert.Equal((3.0, 0.5), (route.Steps[2].FromPlaceMetres, route.Steps[2].ToPlaceMetres));
        Assert.Equal("E.through", Assert.Single(route.Settings).ToString());
    }

    [Theory]
    [InlineData("line > alone", "no train can drive from 'line' to 'alone' without changing direction")]
    [InlineData("spur > siding-2", "no train can drive from 'spur' to 'siding-2' without changing direction")]
    [InlineData("main > siding-1 > far", "no train can drive from 'main' to 'siding-1' without changing direction")]
    [InlineData("main > far > line", "coming to 'far' this way, no train can go on to 'line' without changing direction")]
    [InlineData("spur-end", "no train can drive through 'spur-end'")]
    public void A_route_that_cannot_be_driven_says_where(string asked, string message) =>
        Assert.Equal(message, Assert.IsType<RouteSearch.NoWay>(Find(asked, Line)).Message);

    [Fact]
    public void Every_open_way_belongs_to_one_lane()
    {
        ImmutableArray<TrackLane> lanes = TrackLane.Of(new(Railway), ImmutableSortedDictionary<PieceId, string>.Empty.Add(new("S"), "diverging"));
        Assert.Equal(
            ["far > E > main > W > line > B > balloon", "siding-1 > S > spur", "siding-2", "alone"],
            lanes.Select(lane => new TrackRoute(lane.Steps).ToString()));
        Assert.All(lanes, lane => Assert.False(lane.IsRing));
        Assert.All(lanes.SelectMany(lane => lane.Steps.Zip(lane.Steps.Skip(1))), pair =>
            Assert.Equal(pair.Second.Enter, new LayoutIndex(Railway).Opposite(pair.First.Leave!.Value)));
    }

    [Fact]
    public void A_lane_that_comes_back_to_where_it_began_is_a_ring()
    {
        Layout ring = LayoutFile.Read(
            """
            wireup: 1
            name: Ring
            longest-train: 1 m
            track: { one: { length: 1 m }, two: { length: 2 m } }
            joined: [ one > two > one.a ]
            """, "ring").Layout!;
        TrackLane lane = Assert.Single(TrackLane.Of(new(ring), ImmutableSortedDictionary<PieceId, string>.Empty));
        Assert.True(lane.IsRing);
        Assert.Equal(3, lane.LengthMetres);
    }

    [Fact]
    public void Of_several_positions_for_one_way_the_preferred_one_is_taken()
    {
        Layout crossing = LayoutFile.Read(
            """
            wireup: 1
            name: Slip
            longest-train: 1 m
            track: { in: { length: 1 m }, out: { length: 1 m }, S: { slip: double, frog: live } }
            joined: [ in > S.a1, S.a2 > out ]
            """, "slip").Layout!;
        foreach (DrivableWay way in TrackworkTable.Of(crossing.Track[2], crossing.Control).Ways.Where(way => way is { From: "a1", To: "a2" }))
        {
            ImmutableSortedDictionary<PieceId, string> preferred = ImmutableSortedDictionary<PieceId, string>.Empty.Add(new("S"), way.Position!);
            RouteSearch search = new RouteFinder(new(crossing), preferred).Find(LayoutWords.Route(crossing, "in > out").Value!.Value);
            Assert.Equal(way.Position, Assert.IsType<RouteSearch.Found>(search).Route.Steps[1].Position);
        }
    }

    private static RouteSearch Find(string route, Layout? layout = null) =>
        new RouteFinder(new(layout ?? Railway), ImmutableSortedDictionary<PieceId, string>.Empty).Find(LayoutWords.Route(layout ?? Railway, route).Value!.Value);
}
