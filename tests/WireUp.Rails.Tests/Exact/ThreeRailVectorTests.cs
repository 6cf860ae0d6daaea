using UnitsNet;
using WireUp.Layouts;

namespace WireUp.Rails.Tests.Exact;

/// <summary>Three-rail track: centre conductors, and running rails that every axle joins. Common practice, no published source.</summary>
public sealed class ThreeRailVectorTests
{
    private static readonly Angle Thirty = Angle.FromDegrees(30);

    public static TheoryData<string, string> CentreNets => new()
    {
        { "turnout", "diverging points through" }, { "three-way", "left points right through" }, { "crossing", "a1 a2|b1 b2" },
        { "single slip", "a1 a2 b1 b2" }, { "double slip", "a1 a2 b1 b2" }, { "scissors", "a1 a2 b1 b2" }, { "section", "a b" },
    };

    private static Piece Of(string kind, FrogKind frog = FrogKind.Live) => kind switch
    {
        "turnout" => new Piece.Turnout(new("X"), TurnoutHand.Left, frog) { Feed = FrogFeed.Contact, EarlyContact = true },
        "three-way" => new Piece.MultiTurnout(new("X"), 3, frog),
        "crossing" => new Piece.Crossing(new("X"), Thirty, frog) { Feed = FrogFeed.Contact },
        "single slip" => new Piece.Slip(new("X"), Double: false, frog) { Feed = FrogFeed.Contact },
        "double slip" => new Piece.Slip(new("X"), Double: true, frog) { Feed = FrogFeed.Contact },
        "scissors" => new Piece.Scissors(new("X"), frog) { Feed = FrogFeed.Contact },
        _ => new Piece.Section(new("X"), Length.FromMeters(1)),
    };

    [Theory]
    [MemberData(nameof(CentreNets))]
    public void Centre_conductors_of_a_piece_are_one_and_those_of_crossing_tracks_are_apart(string kind, string nets)
    {
        foreach (FrogKind frog in Enum.GetValues<FrogKind>())
        {
            Trackwork row = TrackworkTable.Of(Of(kind, frog), ControlSystem.ThreeRail);
            Assert.Equal(nets, Nets(row, RailSide.Centre));
            Assert.Equal(string.Join(' ', nets.Split('|', ' ').Order()), Nets(row, RailSide.Running));
            Assert.Empty(row.Switched);
            Assert.Empty(row.Moments);
            Assert.Empty(row.Useless);
            Assert.DoesNotContain(row.Fixed, bond => bond.From.Side != bond.To.Side);
        }
    }

    [Fact]
    public void Running_rails_of_a_bridge_touch_the_road_it_stands_at_and_its_centre_does_so_through_wipers_only()
    {
        foreach (BridgeFeed feed in Enum.GetValues<BridgeFeed>())
        {
            Trackwork row = TrackworkTable.Of(new Piece.Turntable(new("X"), 4, Length.FromMeters(0.3)) { Feed = feed }, ControlSystem.ThreeRail);
            string[] touching = [.. row.Switched.Where(bond => bond.Position == "t2").Select(bond => $"{bond.From.Name} {bond.To.Name}").Order()];
            string[] running = ["t2 head/running", "t4 tail/running"];
            Assert.Equal(feed == BridgeFeed.Roads ? ["t2 head/centre", running[0], "t4 tail/centre", running[1]] : running, touching);
            Assert.Equal(feed == BridgeFeed.Roads ? 0 : 8, row.Wheels.Length);
            Assert.Empty(row.Fixed);
        }
    }

    private static string Nets(Trackwork row, RailSide side)
    {
        List<SortedSet<string>> nets = [];
        foreach (FixedBond bond in row.Fixed.Where(bond => bond.From.Side == side))
        {
            SortedSet<string> joined = [bond.From.Name, bond.To.Name, .. nets.Where(net => net.Contains(bond.From.Name) || net.Contains(bond.To.Name)).SelectMany(net => net)];
            nets.RemoveAll(joined.Overlaps);
            nets.Add(joined);
        }

        return string.Join('|', nets.Select(net => string.Join(' ', net)).Order(StringComparer.Ordinal));
    }
}
