using WireUp.Layouts;

namespace WireUp.Rails.Tests.Exact;

/// <summary>
/// Turnouts of every kind held to the handbook's answers: what its legs carry as it stands, and which gap prevents a short in which position.
/// Legs are P (left) and Q (right) seen from the points. Common practice, no published source; found by tracing rails by hand.
/// </summary>
public sealed class PointsVectorTests
{
    private static readonly string[] HeelGaps = ["left R", "right L"];

    private static Piece.Turnout Wye(FrogKind frog) => new(new("X"), TurnoutHand.Wye, frog);

    private static FedPiece Bench(Piece.Turnout turnout, string? fedEnds = null) => new(turnout, "points", fedEnds);

    private static FedPiece Toe(Piece.Turnout turnout) => Bench(turnout, fedEnds: "points");

    private static string Legs(FedPiece turnout, string? position, params string[] gaps) =>
        $"{turnout.End("left", position, gaps)} {turnout.End("right", position, gaps)}";

    [Theory]
    [InlineData("left R", "right")]
    [InlineData("right L", "left")]
    public void Live_turnout_needs_both_heel_gaps(string missing, string shortIn)
    {
        foreach (FrogFeed feed in new[] { FrogFeed.None, FrogFeed.Contact, FrogFeed.Sensor })
        {
            FedPiece turnout = Bench(Wye(FrogKind.Live) with { Feed = feed });
            Assert.Equal("", turnout.ShortIn(HeelGaps));
            Assert.Equal(shortIn, turnout.ShortWithout(missing, HeelGaps));
        }
    }

    [Fact]
    public void Live_turnout_fed_at_one_leg_only_shorts_when_set_for_the_other()
    {
        Assert.Equal("right", Bench(Wye(FrogKind.Live), "left").ShortIn());
        Assert.Equal("left", Bench(Wye(FrogKind.Live), "right").ShortIn());
    }

    [Theory]
    [InlineData("left R", "right")]
    [InlineData("right L", "left")]
    public void Isolated_frog_that_reaches_to_the_heel_needs_the_same_gaps_as_a_live_one(string missing, string shortIn)
    {
        FedPiece turnout = Bench(Wye(FrogKind.Isolated) with { HeelInFrog = true, Feed = FrogFeed.Contact });
        Assert.Equal("", turnout.ShortIn(HeelGaps));
        Assert.Equal(shortIn, turnout.ShortWithout(missing, HeelGaps));
    }

    [Fact]
    public void Isolated_frog_that_reaches_to_the_heel_and_that_nobody_feeds_shorts_the_two_legs_through_itself() =>
        Assert.Equal("left right", Bench(Wye(FrogKind.Isolated) with { HeelInFrog = true }).ShortIn());

    [Theory]
    [InlineData("left", "AB BB")]
    [InlineData("right", "AA AB")]
    [InlineData(null, "A- -B")]
    public void Isolated_frog_that_reaches_to_the_heel_makes_the_leg_that_is_not_set_dead(string? position, string legs) =>
        Assert.Equal(legs, Legs(Toe(Wye(FrogKind.Isolated) with { HeelInFrog = true, Feed = FrogFeed.Sensor }), position));

    [Theory]
    [InlineData(FrogFeed.None, "---")]
    [InlineData(FrogFeed.Contact, "BA-")]
    [InlineData(FrogFeed.Sensor, "BA-")]
    public void Isolated_frog_cut_at_both_sides_has_legs_that_are_always_live_and_a_frog_that_follows_what_feeds_it(FrogFeed feed, string frog)
    {
        FedPiece turnout = Toe(Wye(FrogKind.Isolated) with { Feed = feed });
        Assert.All(new[] { "left", "right", null }, position => Assert.Equal("AB AB", Legs(turnout, position)));
        Assert.Equal(frog, turnout.Carries("frog", "left") + turnout.Carries("frog", "right") + turnout.Carries("frog", null));
        Assert.Equal("", Bench(Wye(FrogKind.Isolated) with { Feed = feed }).ShortIn());
    }

    [Theory]
    [InlineData("left")]
    [InlineData("right")]
    [InlineData(null)]
    public void Insulated_bonded_turnout_has_both_legs_live_in_every_position(string? position)
    {
        Assert.Equal("AB AB", Legs(Toe(Wye(FrogKind.Insulated)), position));
        Assert.Equal("AB", Bench(Wye(FrogKind.Insulated), "right").End("points", position));
    }

    [Theory]
    [InlineData("left", "AB -B")]
    [InlineData("right", "A- AB")]
    [InlineData(null, "A- -B")]
    public void Insulated_power_routing_turnout_leaves_one_rail_of_the_other_leg_without_current(string? position, string legs)
    {
        Piece.Turnout turnout = Wye(FrogKind.Insulated) with { PowerRouting = true };
        Assert.Equal(legs, Legs(Toe(turnout), position));
        Assert.Equal("", Bench(turnout).ShortIn());
    }

    [Theory]
    [InlineData("left", "AB")]
    [InlineData("right", "A-")]
    public void Insulated_power_routing_turnout_fed_at_its_heel_feeds_its_toe_in_its_own_position_only(string position, string toe) =>
        Assert.Equal(toe, Bench(Wye(FrogKind.Insulated) with { PowerRouting = true }, "left").End("points", position));

    [Theory]
    [InlineData(FrogKind.Insulated, "left", "AB --")]
    [InlineData(FrogKind.Insulated, "right", "-- AB")]
    [InlineData(FrogKind.Isolated, "left", "AB --")]
    [InlineData(FrogKind.Isolated, null, "-- --")]
    [InlineData(FrogKind.Live, "left", "AB B-")]
    [InlineData(FrogKind.Live, "right", "-A AB")]
    [InlineData(FrogKind.Live, null, "-- --")]
    public void Stub_turnout_feeds_the_leg_its_rails_meet(FrogKind frog, string? position, string legs) =>
        Assert.Equal(legs, Legs(Toe(Wye(frog) with { Stub = true }), position));

    [Theory]
    [InlineData(FrogKind.Insulated, false)]
    [InlineData(FrogKind.Isolated, false)]
    [InlineData(FrogKind.Isolated, true)]
    public void Stub_turnout_needs_gaps_only_where_its_frog_reaches_to_the_heel(FrogKind frog, bool heelInFrog)
    {
        FedPiece turnout = Bench(Wye(frog) with { Stub = true, HeelInFrog = heelInFrog, Feed = frog == FrogKind.Isolated ? FrogFeed.Contact : FrogFeed.None });
        Assert.Equal(heelInFrog ? "left right" : "", turnout.ShortIn());
        Assert.Equal("", turnout.ShortIn(HeelGaps));
    }

    [Fact]
    public void Live_stub_turnout_needs_both_heel_gaps()
    {
        FedPiece turnout = Bench(Wye(FrogKind.Live) with { Stub = true });
        Assert.Equal(("", "right", "left"), (turnout.ShortIn(HeelGaps), turnout.ShortWithout("left R", HeelGaps), turnout.ShortWithout("right L", HeelGaps)));
    }

    [Theory]
    [InlineData("left>right")]
    [InlineData("right>left")]
    public void Contact_that_leads_the_blades_of_a_live_turnout_shorts_while_they_move(string moment)
    {
        Piece.Turnout live = Wye(FrogKind.Live) with { Feed = FrogFeed.Contact, EarlyContact = true };
        Assert.True(Bench(live).IsShortWhileMoving(moment, HeelGaps));
        Assert.Equal("", Bench(live).ShortIn(HeelGaps));
        Assert.Contains(Bench(live).Analyse(HeelGaps).ByPosition, meeting => meeting.Turnouts.ContainsValue(moment));
        Assert.False(Bench(live with { EarlyContact = false }).IsShortWhileMoving(moment, HeelGaps));
    }

    [Fact]
    public void Contact_of_a_frog_that_no_blade_touches_cannot_short_however_early_it_is()
    {
        Piece.Turnout isolated = Wye(FrogKind.Isolated) with { Feed = FrogFeed.Contact, EarlyContact = true };
        Assert.Empty(TrackworkTable.Of(isolated, ControlSystem.Command).Moments);
        Piece.Turnout plastic = Wye(FrogKind.Insulated) with { Feed = FrogFeed.Contact, EarlyContact = true, PowerRouting = true };
        Assert.Empty(TrackworkTable.Of(plastic, ControlSystem.Command).Moments);
        Assert.Equal("-", Bench(plastic).Carries("frog", "left"));
    }

    [Fact]
    public void Contact_that_leads_the_moving_rails_of_a_live_stub_shorts_while_they_move() => Assert.True(
        Bench(Wye(FrogKind.Live) with { Stub = true, Feed = FrogFeed.Contact, EarlyContact = true }).IsShortWhileMoving("left>right", HeelGaps));

    public static TheoryData<FrogKind, TieZones, string> Foil => new()
    {
        { FrogKind.Live, TieZones.None, "" },
        { FrogKind.Live, TieZones.Switch, "left right" }, { FrogKind.Live, TieZones.Closure, "left right" },
        { FrogKind.Live, TieZones.FrogLeft, "left" }, { FrogKind.Live, TieZones.FrogRight, "right" },
        { FrogKind.Live, TieZones.FrogLeft | TieZones.FrogRight, "left right" }, { FrogKind.Live, TieZones.Beyond, "left right" },
        { FrogKind.Isolated, TieZones.None, "" },
        { FrogKind.Isolated, TieZones.Switch, "left right" }, { FrogKind.Isolated, TieZones.Closure, "left right" },
        { FrogKind.Isolated, TieZones.FrogLeft, "left" }, { FrogKind.Isolated, TieZones.FrogRight, "right" },
        { FrogKind.Isolated, TieZones.Beyond, "left right" },
        { FrogKind.Insulated, TieZones.FrogLeft | TieZones.FrogRight, "" }, { FrogKind.Insulated, TieZones.Beyond, "left right" },
    };

    [Theory]
    [MemberData(nameof(Foil))]
    public void Foil_left_uncut_shorts_always_or_in_one_position_as_its_zone_says(FrogKind frog, TieZones uncut, string shortIn)
    {
        Piece.Turnout turnout = Wye(frog) with { CopperClad = true, Uncut = uncut, Feed = frog == FrogKind.Isolated ? FrogFeed.Contact : FrogFeed.None };
        Assert.Equal(shortIn, Bench(turnout).ShortIn(HeelGaps));
        Assert.Equal("", Bench(turnout with { CopperClad = false }).ShortIn(HeelGaps));
    }

    [Theory]
    [MemberData(nameof(Foil))]
    public void Foil_left_uncut_is_told_zone_by_zone_and_not_again_under_another_name(FrogKind frog, TieZones uncut, string shortIn)
    {
        Piece.Turnout turnout = Wye(frog) with { CopperClad = true, Uncut = uncut, Feed = frog == FrogKind.Isolated ? FrogFeed.Contact : FrogFeed.None };
        PolarityReport report = Bench(turnout).Analyse(HeelGaps);
        string[] told = [.. report.FoilFaults.SelectMany(fault => fault.Positions.IsEmpty ? ["left", "right"] : fault.Positions).Distinct().Order()];
        Assert.Equal(shortIn, string.Join(' ', told));
        Assert.Equal(0, report.OddLoops.Length + report.FrogFaults.Length + report.Standing.Length + report.ByPosition.Length);
    }

    [Fact]
    public void Foil_that_ties_an_unfed_frog_to_a_stock_rail_shorts_under_a_train_set_for_the_leg_that_asks_for_the_other_rail()
    {
        FoilFault Fault(TieZones uncut) => Assert.Single(
            Bench(Wye(FrogKind.Isolated) with { CopperClad = true, Uncut = uncut }).Analyse(HeelGaps).FoilFaults);
        FoilFault left = Fault(TieZones.FrogLeft), right = Fault(TieZones.FrogRight), both = Fault(TieZones.FrogLeft | TieZones.FrogRight);
        Assert.Equal(("left", true), (Assert.Single(left.Positions), left.UnderWheels));
        Assert.Equal(("right", true), (Assert.Single(right.Positions), right.UnderWheels));
        Assert.True(both is { Positions.IsEmpty: true, UnderWheels: false });
    }

    [Fact]
    public void Foil_left_uncut_on_both_sides_of_an_isolated_frog_that_nobody_feeds_shorts_always() => Assert.Equal("left right", Bench(
        Wye(FrogKind.Isolated) with { CopperClad = true, Uncut = TieZones.FrogLeft | TieZones.FrogRight }).ShortIn());

    [Theory]
    [InlineData(TurnoutHand.Left, "diverging", "through")]
    [InlineData(TurnoutHand.Right, "through", "diverging")]
    public void Left_and_right_turnouts_are_the_wye_with_their_legs_named(TurnoutHand hand, string left, string right)
    {
        foreach (Piece.Turnout wye in EveryKind())
        {
            Trackwork expected = TrackworkTable.Of(wye, ControlSystem.Command);
            Trackwork row = TrackworkTable.Of(
                new Piece.Turnout(new("X"), hand, wye.Frog)
                {
                    Stub = wye.Stub,
                    PowerRouting = wye.PowerRouting,
                    HeelInFrog = wye.HeelInFrog,
                    Feed = wye.Feed,
                    EarlyContact = wye.EarlyContact,
                },
                ControlSystem.Command);
            string Named(string name) => string.Join('>', name.Split('>').Select(part => part == "left" ? left : part == "right" ? right : part));
            PieceNode Node(PieceNode node) => node with { Name = Named(node.Name) };
            Assert.Equal(expected.Fixed.Select(bond => bond with { From = Node(bond.From), To = Node(bond.To) }), row.Fixed);
            Assert.Equal(
                expected.Switched.Select(bond => bond with { From = Node(bond.From), To = Node(bond.To), Position = Named(bond.Position) }), row.Switched);
            Assert.Equal(expected.Moments.Select(Named), row.Moments);
            Assert.Equal(["through", "diverging"], row.Positions);
        }
    }

    private static IEnumerable<Piece.Turnout> EveryKind() =>
        from frog in new[] { FrogKind.Insulated, FrogKind.Isolated, FrogKind.Live }
        from feed in new[] { FrogFeed.None, FrogFeed.Contact, FrogFeed.Sensor }
        from flags in Enumerable.Range(0, 16)
        select Wye(frog) with
        {
            Feed = feed,
            Stub = (flags & 1) != 0,
            PowerRouting = (flags & 2) != 0,
            HeelInFrog = (flags & 4) != 0,
            EarlyContact = (flags & 8) != 0,
        };
}
