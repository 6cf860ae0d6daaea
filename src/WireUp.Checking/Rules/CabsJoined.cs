using WireUp.Rails;

namespace WireUp.Checking.Rules;

/// <summary>Two cabs that both rails join, always or in some positions: they feed into each other, one train under two hands.</summary>
internal sealed class CabsJoined : Rule
{
    internal override FindingDescriptor Descriptor { get; } =
        Describe.Physics("WU3019", Severity.Error, "Two cabs feed into each other");

    internal override IEnumerable<Finding> Check(CheckContext context) =>
        from link in context.Cabs.Joins
        where link.BothRails
        group link by (Pair(link), Owners: string.Join(' ', link.Meeting.Turnouts.Keys)) into place
        let shown = place.First()
        let pair = place.Key.Item1
        select Say(
            $"Cabs {Words.Quote(pair.First)} and {Words.Quote(pair.Second)} are joined by both rails{When(shown)}, between feeders {Words.Quote(shown.Meeting.From.Feeder)} and {Words.Quote(shown.Meeting.To.Feeder)}.",
            Remedy(context, shown),
            pair.First, pair.Second) with
        {
            Path = Words.Path(shown.Meeting),
            Turnouts = shown.Meeting.Turnouts,
        };

    internal static (string First, string Second) Pair(CabJoin join) => Words.InOrder(join.First, join.Second);

    internal static string When(CabJoin join) => join.Meeting.Turnouts.IsEmpty ? "" : $" when {Words.Set(join.Meeting.Turnouts)}";

    private static string Remedy(CheckContext context, CabJoin shown)
    {
        bool sameTrack = shown.Meeting.Path.Select(point => point.Piece).Distinct().Count() == 1;
        return sameTrack && shown.Meeting.Turnouts.Count != 1
            ? $"Let one switch choose which of {Words.Quote(shown.Meeting.From.Feeder)} and {Words.Quote(shown.Meeting.To.Feeder)} feeds {Words.Quote(shown.Meeting.Path[0].Piece)}, never both."
            : Border.Remedy(
                context, shown.Meeting,
                $"Cut a gap between {Words.Quote(shown.Meeting.From.Feeder)} and {Words.Quote(shown.Meeting.To.Feeder)}, in both rails unless one of them is a common rail.");
    }
}
