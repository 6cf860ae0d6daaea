using System.Collections.Immutable;
using WireUp.Layouts;
using WireUp.Rails;

namespace WireUp.Checking.Rules;

/// <summary>Where the gaps of a live frog go.</summary>
internal static class FrogGaps
{
    private const string Points = "points";

    /// <summary>The rails beyond the frogs of a piece that are one conductor with a frog, not those at the points of a turnout.</summary>
    internal static string Both(CheckContext context, PieceId piece)
    {
        ImmutableArray<string> rails =
        [
            .. TrackworkTable.Of(context.Index.Piece(piece), context.Layout.Control).Fixed
                .SelectMany(bond => bond.From.Side is null ? [bond.To] : bond.To.Side is null ? new[] { bond.From } : [])
                .Where(node => node.Side is not null && node.Name != Points)
                .Select(node => new RailEnd(new(piece, node.Name), node.Side!.Value).ToString()).Distinct(),
        ];
        return $"Cut gaps in the rails {Words.List(rails)}, just beyond the frog{(rails.Length > 2 ? "s" : "")}.";
    }

    /// <summary>The one inner rail through which a path leaves the first live frog on it, or null where it passes none.</summary>
    internal static RailEnd? First(RailMeeting meeting)
    {
        for (int i = 0; i < meeting.Path.Length; i++)
        {
            if (meeting.Path[i] is RailPoint.Inside inside && inside.Name.StartsWith(TrackworkTable.Frog, StringComparison.Ordinal))
            {
                IEnumerable<RailPoint> beside = new[] { i - 1, i + 1 }
                    .Where(k => k >= 0 && k < meeting.Path.Length).Select(k => meeting.Path[k]);
                return beside.OfType<RailPoint.AtEnd>()
                    .Where(point => point.Piece == inside.Owner && point.Rail.End.Name != Points)
                    .Select(point => (RailEnd?)point.Rail).FirstOrDefault();
            }
        }

        return null;
    }
}
