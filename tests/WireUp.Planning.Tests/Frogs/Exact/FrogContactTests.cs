using UnitsNet;
using WireUp.Layouts;
using WireUp.Planning.Frogs;
using WireUp.Planning.Tests.Reversing;

namespace WireUp.Planning.Tests.Frogs.Exact;

public sealed class FrogContactTests
{
    private static Layout With(FrogKind frog, double deadMillimetres) => Track.Of("", "toe > T1.points", "T1.through > main") with
    {
        Track =
        [
            .. Track.Of("toe 2; main 2").Track,
            new Piece.Turnout(new("T1"), TurnoutHand.Right, frog) { DeadLength = Length.FromMillimeters(deadMillimetres) },
        ],
    };

    [Theory]
    [InlineData(59, 0)]
    [InlineData(60, 1)]
    public void An_isolated_frog_as_long_as_the_shortest_pick_up_gets_a_contact(double deadMillimetres, int contacts)
    {
        var plan = FrogPlanner.Plan(With(FrogKind.Isolated, deadMillimetres));
        Assert.Equal(contacts, plan.Contacts.Length);
        Assert.Equal(contacts, plan.Proposals.Count(proposal => proposal.Kind == ProposalKind.FrogContact));
    }

    [Fact]
    public void A_plastic_frog_can_have_no_contact() => Assert.Empty(FrogPlanner.Plan(With(FrogKind.Insulated, 100)).Contacts);

    [Fact]
    public void The_contact_is_in_the_layout_that_follows()
    {
        var layout = With(FrogKind.Isolated, 100);
        var after = FrogPlanner.Plan(layout).ApplyTo(layout);
        Assert.Equal(FrogFeed.Contact, after.Track.OfType<Piece.Turnout>().Single().Feed);
        Assert.Empty(FrogPlanner.Plan(after).Contacts);
    }

    private static Layout Around(Piece piece) => Track.Of("p 2; q 2; r 2; s 2", "p > X.a1", "X.a2 > q", "r > X.b1", "X.b2 > s") is var layout
        ? layout with { Track = [.. layout.Track, piece] }
        : layout;

    [Fact]
    public void The_contacts_of_a_slip_are_driven_from_the_other_end()
    {
        var plan = FrogPlanner.Plan(Around(new Piece.Slip(new("X"), Double: true, FrogKind.Isolated) { DeadLength = Length.FromMillimeters(80) }));
        var proposal = Assert.Single(plan.Proposals, one => one.Kind == ProposalKind.FrogContact);
        Assert.Contains("the frog at the other end", proposal.Reason, StringComparison.Ordinal);
        Assert.Contains("motor at a2 and b2 that of frog-west", proposal.Reason, StringComparison.Ordinal);
    }

    [Fact]
    public void A_crossing_where_nothing_moves_gets_an_electronic_changeover()
    {
        var layout = Around(new Piece.Crossing(new("X"), Angle.FromDegrees(30), FrogKind.Isolated) { DeadLength = Length.FromMillimeters(80) });
        var after = FrogPlanner.Plan(layout).ApplyTo(layout);
        Assert.Equal(FrogFeed.Sensor, after.Track.OfType<Piece.Crossing>().Single().Feed);
    }

    [Fact]
    public void Live_frogs_of_a_slip_that_nothing_feeds_are_as_long_as_the_rails_from_them()
    {
        var slip = new Piece.Slip(new("X"), Double: false, FrogKind.Live) { Length = Length.FromMillimeters(250), DeadLength = Length.FromMillimeters(20) };
        Assert.Equal(["X"], FrogPlanner.Plan(Around(slip)).Contacts.Select(piece => piece.Name));
        Assert.Empty(FrogPlanner.Plan(Around(slip with { Feed = FrogFeed.Contact })).Contacts);
    }

    [Fact]
    public void Every_kind_with_an_isolated_frog_longer_than_the_pick_up_gets_a_contact()
    {
        var long80 = Length.FromMillimeters(80);
        Piece[] pieces =
        [
            new Piece.Turnout(new("X"), TurnoutHand.Wye, FrogKind.Isolated) { DeadLength = long80 },
            new Piece.MultiTurnout(new("X"), 3, FrogKind.Isolated) { DeadLength = long80 },
            new Piece.Crossing(new("X"), Angle.FromDegrees(30), FrogKind.Isolated) { DeadLength = long80 },
            new Piece.Slip(new("X"), Double: true, FrogKind.Isolated) { DeadLength = long80 },
            new Piece.Scissors(new("X"), FrogKind.Isolated) { DeadLength = long80 },
        ];
        Assert.All(pieces, piece => Assert.Single(FrogPlanner.Plan(Track.Of("p 2") with { Track = [piece] }).Contacts));
    }
}
