using System.Collections.Immutable;
using WireUp.Layouts;
using WireUp.Rails;

namespace WireUp.Checking.Rules;

/// <summary>Where the gaps of a live frog go.</summary>
internal static class FrogGaps
{
    private const string Points = "points";

    /// <summary>The rails beyond those frogs of a piece that would join rails of opposite polarity; not those at the points of a turnout.</summary>
    internal static string Both(CheckContext context, PieceId piece)
    {
        Trackwork row = TrackworkTable.Of(context.Index.Piece(piece), context.Layout.Control);
        ImmutableArray<string> rails =
        [
            .. from frog in FrogRails(row).GroupBy(pair => pair.Frog, pair => pair.Rail)
               where frog.Select(rail => CarriesLeft(row, rail)).Distinct().Count() > 1
               from rail in frog
               where rail.Name != Points
               select new RailEnd(new(piece, rail.Name), rail.Side!.Value).ToString(),
        ];
        return $"Cut gaps in the rails {Words.List(rails)}, just beyond the frog{(rails.Length > 2 ? "s" : "")}.";
    }

    /// <summary>Each rail at an end that is one conductor with an inner one.</summary>
    private static IEnumerable<(PieceNode Frog, PieceNode Rail)> FrogRails(Trackwork row) => row.Fixed
        .SelectMany(bond => new[] { (Frog: bond.From, Rail: bond.To), (Frog: bond.To, Rail: bond.From) })
        .Where(pair => pair.Frog.Side is null && pair.Rail.Side is not null);

    /// <summary>Whether a rail carries the leg of the left rails seen from the plus ends into the piece.</summary>
    private static bool CarriesLeft(Trackwork row, PieceNode rail) =>
        row.Phases.Any(group => group.Plus.Contains(rail.Name)) == (rail.Side == RailSide.Right);

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
