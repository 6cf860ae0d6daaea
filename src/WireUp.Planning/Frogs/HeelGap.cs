using System.Collections.Immutable;
using WireUp.Layouts;

namespace WireUp.Planning.Frogs;

/// <summary>A place where a live frog's inner rail could be parted from what lies beyond: in the joint of a leg.</summary>
/// <param name="Turnout">The live turnout.</param>
/// <param name="Rail">The inner rail, looking out of the leg: the right rail of the left leg, the left rail of the right leg.</param>
/// <param name="Beyond">The rail that it meets.</param>
internal sealed record HeelGap(Piece.Turnout Turnout, RailEnd Rail, RailEnd Beyond)
{
    /// <summary>The leg set against this one, in which position the frog carries the polarity of the other rail.</summary>
    public string OtherLeg => Rail.End.Name == Turnout.LeftLeg ? Turnout.RightLeg : Turnout.LeftLeg;

    /// <summary>The gap as the layout records it.</summary>
    public Gap Gap => new(new GapPlace.InJoint(Rail.End), Rail.Side == RailSide.Left ? RailSet.Left : RailSet.Right);

    /// <summary>
    /// Every such place that is joined and not parted yet, in order of turnout and leg. Where two live turnouts meet heel to heel
    /// on the same rail, one place stands for both.
    /// </summary>
    internal static ImmutableArray<HeelGap> All(LayoutIndex index)
    {
        List<HeelGap> found = [];
        IEnumerable<Piece.Turnout> live = index.Layout.Track.OfType<Piece.Turnout>().Where(turnout => turnout.Frog == FrogKind.Live);
        foreach (Piece.Turnout turnout in live.OrderBy(turnout => turnout.Id))
        {
            RailEnd ofLeftLeg = new(turnout.End(turnout.LeftLeg), RailSide.Right);
            RailEnd ofRightLeg = new(turnout.End(turnout.RightLeg), RailSide.Left);
            foreach (RailEnd rail in new[] { ofLeftLeg, ofRightLeg })
            {
                if (index.Opposite(rail.End) is { } opposite && !index.OpenRails(rail.End).Holds(rail.Side))
                {
                    HeelGap gap = new(turnout, rail, new(opposite, rail.Side.Across()));
                    if (!found.Any(other => other.Rail == gap.Beyond))
                    {
                        found.Add(gap);
                    }
                }
            }
        }

        return [.. found];
    }
}
