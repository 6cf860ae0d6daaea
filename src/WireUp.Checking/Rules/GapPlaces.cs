using WireUp.Rails;

namespace WireUp.Checking.Rules;

/// <summary>The name of the place where a gap is, the same for both rails.</summary>
internal static class GapPlaces
{
    internal static string Of(CheckContext context, GapMeeting meeting) => meeting.Near switch
    {
        RailPoint.Within within => within.Place.ToString(),
        RailPoint.AtEnd end => context.Index.JointAt(end.Rail.End)!.First.ToString(),
        _ => meeting.Near.ToString()!,
    };
}
