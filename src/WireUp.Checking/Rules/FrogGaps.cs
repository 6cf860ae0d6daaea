using WireUp.Layouts;
using WireUp.Rails;

namespace WireUp.Checking.Rules;

/// <summary>Where the gaps of a live frog go.</summary>
internal static class FrogGaps
{
    /// <summary>Both inner rails beyond the frog: the right rail of the left leg and the left rail of the right leg.</summary>
    internal static string Both(CheckContext context, PieceId turnout)
    {
        Piece.Turnout piece = (Piece.Turnout)context.Index.Piece(turnout);
        RailEnd left = new(piece.End(piece.LeftLeg), RailSide.Right), right = new(piece.End(piece.RightLeg), RailSide.Left);
        return $"Cut gaps in the rails {Words.Quote(left)} and {Words.Quote(right)}, just beyond the frog.";
    }

    /// <summary>The one inner rail through which a path leaves the first live frog on it, or null where it passes none.</summary>
    internal static RailEnd? First(RailMeeting meeting)
    {
        for (int i = 0; i < meeting.Path.Length; i++)
        {
            if (meeting.Path[i] is RailPoint.Inside inside)
            {
                IEnumerable<RailPoint> beside = new[] { i - 1, i + 1 }
                    .Where(k => k >= 0 && k < meeting.Path.Length).Select(k => meeting.Path[k]);
                return beside.OfType<RailPoint.AtEnd>()
                    .Where(point => point.Piece == inside.Owner && point.Rail.End.Name != "points")
                    .Select(point => (RailEnd?)point.Rail).FirstOrDefault();
            }
        }

        return null;
    }
}
