using WireUp.Layouts;

namespace WireUp.Rails.Tests.Exact;

/// <summary>Foil that is not cut, zone by zone, in a turnout to the right: its left leg is through.</summary>
public sealed class FoilFaultTests
{
    [Theory]
    [InlineData(FrogKind.Live, FrogFeed.None, TieZones.Switch, "Switch always")]
    [InlineData(FrogKind.Live, FrogFeed.None, TieZones.Closure, "Closure always")]
    [InlineData(FrogKind.Live, FrogFeed.None, TieZones.Beyond, "Beyond always")]
    [InlineData(FrogKind.Live, FrogFeed.None, TieZones.FrogLeft, "FrogLeft through")]
    [InlineData(FrogKind.Live, FrogFeed.None, TieZones.FrogRight, "FrogRight diverging")]
    [InlineData(FrogKind.Live, FrogFeed.None, TieZones.FrogLeft | TieZones.FrogRight, "FrogLeft, FrogRight always")]
    [InlineData(FrogKind.Live, FrogFeed.None, TieZones.Switch | TieZones.FrogLeft, "Switch always; FrogLeft through")]
    [InlineData(FrogKind.Isolated, FrogFeed.Contact, TieZones.FrogLeft, "FrogLeft through")]
    [InlineData(FrogKind.Isolated, FrogFeed.Contact, TieZones.FrogRight, "FrogRight diverging")]
    [InlineData(FrogKind.Isolated, FrogFeed.None, TieZones.FrogLeft, "FrogLeft through under wheels")]
    [InlineData(FrogKind.Isolated, FrogFeed.None, TieZones.FrogRight, "FrogRight diverging under wheels")]
    [InlineData(FrogKind.Isolated, FrogFeed.None, TieZones.FrogLeft | TieZones.FrogRight, "FrogLeft, FrogRight always")]
    [InlineData(FrogKind.Insulated, FrogFeed.None, TieZones.FrogLeft | TieZones.FrogRight, "")]
    [InlineData(FrogKind.Insulated, FrogFeed.None, TieZones.Switch, "Switch always")]
    [InlineData(FrogKind.Live, FrogFeed.None, TieZones.None, "")]
    public void Foil_that_is_not_cut_shorts_where_its_zone_says(FrogKind frog, FrogFeed feed, TieZones uncut, string told) =>
        Assert.Equal(told, Told(Turnout(frog, feed, uncut)));

    [Fact]
    public void Ties_without_foil_and_three_rail_track_have_nothing_to_cut()
    {
        Assert.Equal("", Told(Turnout(FrogKind.Live, FrogFeed.None, TieZones.Switch, copper: false)));
        Assert.Equal("", Told(Turnout(FrogKind.Live, FrogFeed.None, TieZones.Switch) with { Control = ControlSystem.ThreeRail }));
    }

    private static string Told(Layout layout) => string.Join("; ", Polarity.Analyse(RailGraph.Build(layout), cancellationToken: TestContext.Current.CancellationToken).FoilFaults
        .Select(fault => $"{fault.Zones} {(fault.Positions.IsEmpty ? "always" : string.Join('+', fault.Positions))}{(fault.UnderWheels ? " under wheels" : "")}"));

    private static Layout Turnout(FrogKind frog, FrogFeed feed, TieZones uncut, bool copper = true)
    {
        Layout layout = new PlanBuilder().Sections("toe left right").Feed("d", "toe@1", "left@1", "right@1").Build();
        PieceId turnout = new("T1");
        return layout with
        {
            Track = [.. layout.Track, new Piece.Turnout(turnout, TurnoutHand.Right, frog) { Feed = feed, CopperClad = copper, Uncut = uncut }],
            Joints =
            [
                new(new(new("toe"), "b"), new(turnout, "points")), new(new(turnout, "through"), new(new("left"), "a")),
                new(new(turnout, "diverging"), new(new("right"), "a")),
            ],
        };
    }
}
