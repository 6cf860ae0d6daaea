using WireUp.Layouts;
using WireUp.Rails;

namespace WireUp.Checking.Rules;

/// <summary>Where a border between two supplies is unfinished: one rail is cut and the rail opposite is not.</summary>
internal static class Border
{
    /// <summary>Names the uncut rail opposite a gap on the path, or else gives the general advice.</summary>
    internal static string Remedy(CheckContext context, RailMeeting meeting, string otherwise) =>
        Uncut(context, meeting) is { } rail ? $"Cut the rail {Words.Quote(rail)} too, opposite the gap that is there." : otherwise;

    private static string? Uncut(CheckContext context, RailMeeting meeting)
    {
        foreach (RailPoint point in meeting.Path)
        {
            bool isBeside = point switch
            {
                RailPoint.AtEnd { Rail: var rail } => context.Index.OpenRails(rail.End) is var open && open != RailSet.None && !open.Holds(rail.Side),
                RailPoint.Within within => IsBesideCut(context.Graph.StationAt(within.Place), within),
                _ => false,
            };
            if (isBeside)
            {
                return point.ToString();
            }
        }

        return null;
    }

    private static bool IsBesideCut(Station station, RailPoint.Within within) => within.Face == GapFace.None
        && (station.FirstTowardsA != station.FirstTowardsB || station.SecondTowardsA != station.SecondTowardsB);
}
