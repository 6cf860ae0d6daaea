using WireUp.Layouts;

namespace WireUp.Checking.Rules;

/// <summary>A slip whose frogs are switched by the points at their own end: right on the straight routes, wrong on the slip roads.</summary>
internal sealed class SlipFrogsOfOwnEnd : Rule
{
    internal override FindingDescriptor Descriptor { get; } =
        Describe.Physics("WU2005", Severity.Error, "The frogs of a slip follow the points at their own end");

    internal override IEnumerable<Finding> Check(CheckContext context) =>
        from slip in context.Layout.Control == ControlSystem.ThreeRail ? [] : context.Layout.Track.OfType<Piece.Slip>()
        where slip is { Drive: SlipDrive.OwnEnd, Feed: FrogFeed.Contact, Frog: not FrogKind.Insulated }
        select Say(
            $"The frogs of {Words.Quote(slip.Id)} follow the points at their own end, so a train that takes {Routes(slip)} shorts at them.",
            $"Exchange the wires of the two frogs of {Words.Quote(slip.Id)}: the points at the other end must drive each.",
            slip.Id.ToString());

    private static string Routes(Piece.Slip slip) => slip.Double
        ? "either slip road, a1-b2 or b1-a2,"
        : "the slip road a1-b2";
}
