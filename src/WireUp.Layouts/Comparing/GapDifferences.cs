using WireUp.Layouts.Reading;

namespace WireUp.Layouts.Comparing;

/// <summary>Compares gaps rail by rail: a gap can be named from either end of its joint, and one in both rails may be written as two.</summary>
internal sealed class GapDifferences(Layout before, Layout after)
{
    private readonly LayoutIndex _before = new(before);
    private readonly LayoutIndex _after = new(after);

    public IEnumerable<LayoutDifference> All()
    {
        RailGap[] was = [.. Rails(_before)], now = [.. Rails(_after)];
        return
        [
            .. Differences(was.ExceptBy(now.Select(gap => gap.Key), gap => gap.Key), DifferenceKind.Removed),
            .. Differences(now.ExceptBy(was.Select(gap => gap.Key), gap => gap.Key), DifferenceKind.Added),
            .. Switched(was, now),
        ];
    }

    private IEnumerable<LayoutDifference> Differences(IEnumerable<RailGap> rails, DifferenceKind kind) =>
        from gap in rails
        group gap by (gap.At, gap.Bridged) into place
        let set = place.Aggregate(RailSet.None, (all, gap) => all | gap.Rail)
        let words = $"rails: {Words.Of(Words.Rails(after.Control), set)}{(place.Key.Bridged.Length > 0 ? $", bridged-when: {place.Key.Bridged}" : string.Empty)}"
        select new LayoutDifference(LayoutPart.Gap, kind, place.Key.At.ToString()!)
        {
            At = place.Key.At,
            Rails = set,
            Before = kind == DifferenceKind.Removed ? words : string.Empty,
            After = kind == DifferenceKind.Added ? words : string.Empty,
        };

    /// <summary>Gaps that another contact bridges now, or none any more.</summary>
    private static IEnumerable<LayoutDifference> Switched(RailGap[] was, RailGap[] now) =>
        from gap in now
        join old in was on gap.Key equals old.Key
        where gap.Bridged != old.Bridged
        group (gap, old) by (gap.At, gap.Bridged, Old: old.Bridged) into place
        select new LayoutDifference(LayoutPart.Gap, DifferenceKind.Changed, place.Key.At.ToString()!)
        {
            At = place.Key.At,
            Rails = place.Aggregate(RailSet.None, (all, pair) => all | pair.gap.Rail),
            Before = $"bridged-when: {(place.Key.Old.Length == 0 ? "–" : place.Key.Old)}",
            After = $"bridged-when: {(place.Key.Bridged.Length == 0 ? "–" : place.Key.Bridged)}",
        };

    private static IEnumerable<RailGap> Rails(LayoutIndex layout) => layout.Layout.Wiring.Gaps
        .SelectMany(gap => new[] { RailSet.Left, RailSet.Right }.Where(rail => (gap.Rails & rail) != 0).Select(rail => One(layout, gap, rail)))
        .DistinctBy(gap => gap.Key);

    private static RailGap One(LayoutIndex layout, Gap gap, RailSet rail)
    {
        string bridged = gap.BridgedWhen?.ToString() ?? string.Empty;
        if (gap.At is GapPlace.InJoint { End: var end } && layout.Opposite(end) is { } other && other.CompareTo(end) < 0)
        {
            return new(gap.At, rail, bridged, $"{other} {rail.Across(layout.Layout.Control)}");
        }

        return new(gap.At, rail, bridged, $"{gap.At} {rail}");
    }

    /// <summary>One rail of a gap.</summary>
    /// <param name="At">Its place as written.</param>
    /// <param name="Rail">The rail, seen as written.</param>
    /// <param name="Bridged">The setting in which a contact bridges it, or empty.</param>
    /// <param name="Key">The same for the same rail at the same place.</param>
    private sealed record RailGap(GapPlace At, RailSet Rail, string Bridged, string Key);
}
