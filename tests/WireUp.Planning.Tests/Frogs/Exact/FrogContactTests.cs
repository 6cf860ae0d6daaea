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
}
