using System.Collections.Immutable;
using WireUp.Layouts;

namespace WireUp.Planning.Frogs;

/// <summary>A place where a rail that is one with a frog could be parted from what lies beyond: in the joint of an end of the piece.</summary>
/// <param name="Frog">The frog.</param>
/// <param name="From">The rail that comes from it, looking out of the piece.</param>
/// <param name="Beyond">The rail that it meets.</param>
internal sealed record HeelGap(FollowingConductor Frog, FollowingRail From, RailEnd Beyond)
{
    /// <summary>The rail that comes from the frog.</summary>
    public RailEnd Rail => From.Rail;

    /// <summary>The piece.</summary>
    public Piece Piece => Frog.Piece;

    /// <summary>The gap as the layout records it.</summary>
    public Gap Gap => new(new GapPlace.InJoint(Rail.End), Rail.Side == RailSide.Left ? RailSet.Left : RailSet.Right);

    /// <summary>
    /// Every such place that is joined and not parted yet, in order of piece and of the trackwork table. Where two frogs meet heel to
    /// heel on the same rail, one place stands for both.
    /// </summary>
    internal static ImmutableArray<HeelGap> All(LayoutIndex index)
    {
        List<HeelGap> found = [];
        foreach (FollowingConductor frog in index.Layout.Track.OrderBy(piece => piece.Id).SelectMany(piece => FollowingConductor.Of(piece, index.Layout.Control)))
        {
            foreach (FollowingRail from in frog.Rails)
            {
                if (index.Opposite(from.Rail.End) is { } opposite && !index.OpenRails(from.Rail.End).Holds(from.Rail.Side))
                {
                    HeelGap gap = new(frog, from, new(opposite, from.Rail.Side.Across()));
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
