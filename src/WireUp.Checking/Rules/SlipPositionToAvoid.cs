using WireUp.Layouts;

namespace WireUp.Checking.Rules;

/// <summary>
/// A single slip whose frogs follow its points: with both points straight, as nobody would think twice to put them, its frogs are wrong for
/// either straight route. One whose frogs are driven from the wrong ends is told of by <see cref="SlipFrogsOfOwnEnd"/> alone.
/// </summary>
internal sealed class SlipPositionToAvoid : Rule
{
    internal override FindingDescriptor Descriptor { get; } =
        Describe.Physics("WU2006", Severity.Warning, "A single slip can be set so that its frogs are wrong for every route");

    internal override IEnumerable<Finding> Check(CheckContext context) =>
        from slip in context.Layout.Control == ControlSystem.ThreeRail ? [] : context.Layout.Track.OfType<Piece.Slip>()
        where slip is { Double: false, Drive: SlipDrive.OtherEnd, Feed: FrogFeed.Contact, Frog: not FrogKind.Insulated }
        select Say(
            $"With both points of {Words.Quote(slip.Id)} straight its frogs are wrong for a1-a2 and for b1-b2, and a train on either shorts at them.",
            $"Let the route drive the frogs of {Words.Quote(slip.Id)}, or keep its points from being straight both at once.",
            slip.Id.ToString());
}
