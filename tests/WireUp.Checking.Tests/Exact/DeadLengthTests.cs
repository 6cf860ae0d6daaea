using System.Collections.Immutable;
using UnitsNet;
using WireUp.Layouts;

namespace WireUp.Checking.Tests.Exact;

/// <summary>Lengths without current, against the engines that come there.</summary>
public sealed class DeadLengthTests
{
    private static readonly PieceId X = new("X");

    private static readonly Length Dead = Length.FromMillimeters(40);

    private static Locomotive Engine(string name, double millimetres) => new(
        name, ElectricCurrent.FromAmperes(0.3), ElectricCurrent.Zero, ElectricCurrent.FromAmperes(0.5), ElectricCurrent.FromAmperes(1), Length.FromMillimeters(millimetres), 1);

    private static Layout With(Layout layout, params Locomotive[] engines) => layout with { Stock = Stock.None with { Locomotives = [.. engines] } };

    private static ImmutableArray<Finding> Frogs(Piece piece, params Locomotive[] engines)
    {
        Layout layout = With(new PlanBuilder().Sections("main").Build(), engines);
        return [.. Checks.Of(layout with { Track = [.. layout.Track, piece] }).Where(finding => finding.Code == "WU2001")];
    }

    public static TheoryData<string, int> Kinds => new()
    {
        { "turnout", 1 }, { "three-way", 3 }, { "five-way", 10 }, { "crossing", 4 }, { "slip", 4 }, { "scissors", 8 },
    };

    private static Piece Of(string kind, FrogKind frog, FrogFeed feed) => kind switch
    {
        "turnout" => new Piece.Turnout(X, TurnoutHand.Left, frog) { Feed = feed, DeadLength = Dead },
        "three-way" => new Piece.MultiTurnout(X, 3, frog) { Feed = feed, DeadLength = Dead },
        "five-way" => new Piece.MultiTurnout(X, 5, frog) { Feed = feed, DeadLength = Dead },
        "crossing" => new Piece.Crossing(X, Angle.FromDegrees(15), frog) { Feed = feed, DeadLength = Dead },
        "slip" => new Piece.Slip(X, Double: true, frog) { Feed = feed, DeadLength = Dead },
        "scissors" => new Piece.Scissors(X, frog) { Feed = feed, DeadLength = Dead },
        _ => throw new ArgumentOutOfRangeException(nameof(kind), kind, "no such kind"),
    };

    [Theory]
    [MemberData(nameof(Kinds))]
    public void Frogs_that_nobody_feeds_are_dead_in_every_kind_of_trackwork(string kind, int frogs)
    {
        foreach (FrogKind frog in new[] { FrogKind.Insulated, FrogKind.Isolated })
        {
            Finding finding = Assert.Single(Frogs(Of(kind, frog, FrogFeed.None), Engine("shunter", 35)));
            Assert.Contains(frogs == 1 ? "The dead frog of \"X\"" : $"Each of the {frogs} dead frogs of \"X\"", finding.Message, StringComparison.Ordinal);
        }
    }

    [Theory]
    [MemberData(nameof(Kinds))]
    public void Frogs_on_a_contact_or_a_sensor_are_not_dead(string kind, int frogs)
    {
        Assert.True(frogs > 0);
        Assert.Empty(Frogs(Of(kind, FrogKind.Isolated, FrogFeed.Contact), Engine("shunter", 35)));
        Assert.Empty(Frogs(Of(kind, FrogKind.Isolated, FrogFeed.Sensor), Engine("shunter", 35)));
    }

    [Fact]
    public void Every_engine_that_stops_is_named_with_its_own_wheel_base_and_no_other()
    {
        Finding finding = Assert.Single(Frogs(Of("turnout", FrogKind.Isolated, FrogFeed.None), Engine("goods", 90), Engine("tram", 40), Engine("shunter", 25)));
        Assert.Contains("\"shunter\" and \"tram\", whose pick-up wheel base is 25 mm, 40 mm", finding.Message, StringComparison.Ordinal);
        Assert.DoesNotContain("goods", finding.Message, StringComparison.Ordinal);
        Assert.Empty(Frogs(Of("turnout", FrogKind.Isolated, FrogFeed.None), Engine("goods", 90), Engine("tram", 41)));
    }

    /// <summary>A rail cut twice, with that many metres between the gaps and the layout's shortest pick-up at 60 mm.</summary>
    private static Layout Cut(double metres, params Locomotive[] engines) => With(
        new PlanBuilder().Sections("west east").Chain("west > east").Feed("d", "west@1", "east@1")
            .Gap(string.Create(System.Globalization.CultureInfo.InvariantCulture, $"west@{2 - metres}"), RailSet.Left).Gap("west.b", RailSet.Left).Build(),
        engines);

    private static ImmutableArray<string> Told(Layout layout) =>
        [.. Checks.Of(layout).Where(finding => finding.Code is "WU2007" or "WU3010").Select(finding => $"{finding.Code} {finding.Severity}")];

    [Fact]
    public void Dead_stretch_is_advice_a_warning_or_an_error_as_it_stops_no_engine_some_or_all()
    {
        Locomotive[] engines = [Engine("shunter", 70), Engine("goods", 120)];
        Assert.Equal(["WU2007 Advice"], Told(Cut(0.05, engines)));
        Assert.Equal(["WU2007 Warning"], Told(Cut(0.1, engines)));
        Assert.Equal(["WU3010 Error"], Told(Cut(0.15, engines)));
        Assert.Equal(["WU3010 Error"], Told(Cut(0.25, Engine("goods", 250)))); // as long as the longest
    }

    [Fact]
    public void Dead_stretch_names_the_engines_that_stop_on_it()
    {
        Finding finding = Assert.Single(Checks.Of(Cut(0.1, Engine("shunter", 70), Engine("goods", 120))), finding => finding.Code == "WU2007");
        Assert.Contains("dead for 100 mm, which has no current for \"shunter\", whose pick-up wheel base is 70 mm", finding.Message, StringComparison.Ordinal);
        Assert.Equal(["west.b", "west@1.9 m"], finding.Places);
    }

    [Fact]
    public void Bridge_that_nothing_feeds_is_track_without_feed()
    {
        Layout layout = new PlanBuilder().Sections("lead").Feed("d", "lead@1").Build();
        PieceId table = new("TT");
        Layout with = layout with
        {
            Track = [.. layout.Track, new Piece.Turntable(table, 4, Length.FromMeters(0.3))],
            Joints = [new(new(new("lead"), "b"), new(table, "t1"))],
        };
        Finding finding = Assert.Single(Checks.Of(with), finding => finding.Code == "WU3010");
        Assert.Equal(["TT/left", "TT/right"], finding.Places);
        Layout fedByRoads = with with { Track = [.. layout.Track, new Piece.Turntable(table, 4, Length.FromMeters(0.3)) { Feed = BridgeFeed.Roads }] };
        Assert.DoesNotContain(Checks.Of(fedByRoads), finding => finding.Code == "WU3010");
    }
}
