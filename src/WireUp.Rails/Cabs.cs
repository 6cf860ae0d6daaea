using System.Collections.Frozen;
using System.Collections.Immutable;
using WireUp.Layouts;

namespace WireUp.Rails;

/// <summary>
/// Looks at what several cabs under direct control, or several controllers of three-rail track, do to each other: across the gaps that
/// trains bridge, and through rails without a gap. Programming tracks and accessories are not cabs.
/// </summary>
public static class Cabs
{
    /// <summary>Looks at every gap and every meeting. Under command control nothing is looked at: all boosters are in step there.</summary>
    /// <param name="graph">The rails of the layout.</param>
    /// <param name="polarity">What was found of them.</param>
    /// <param name="ways">What can feed each rail.</param>
    public static CabReport Analyse(RailGraph graph, PolarityReport polarity, FeedWays ways)
    {
        FrozenDictionary<string, string> boosters = graph.Layout.Wiring.Districts
            .Where(district => district.Use == DistrictUse.Running)
            .ToFrozenDictionary(district => district.Name, district => district.Booster);
        return graph.Layout.Control switch
        {
            ControlSystem.Command => CabReport.None,
            ControlSystem.ThreeRail => new(Borders(graph, ways, boosters), []),
            ControlSystem.Direct => new(Borders(graph, ways, boosters), Joins(polarity, ways, boosters)),
            _ => throw new ArgumentOutOfRangeException(nameof(graph), graph.Layout.Control, "no such control system"),
        };
    }

    private static ImmutableArray<CabBorder> Borders(RailGraph graph, FeedWays ways, FrozenDictionary<string, string> boosters)
    {
        // Of three-rail track the centre rail alone tells the controllers apart.
        IEnumerable<GapFaces> faces = GapFaces.All(graph).Where(gap => gap.Side != RailSide.Running);
        ILookup<GapPlace, Setting> closed = graph.Layout.Wiring.Gaps
            .Where(gap => gap.BridgedWhen is not null)
            .ToLookup(gap => PlaceOf(graph.Index, gap.At), gap => gap.BridgedWhen!.Value);
        return
        [
            .. from place in faces.GroupBy(gap => gap.At)
               let near = CabsAt(ways, boosters, place.Select(gap => gap.Near))
               let far = CabsAt(ways, boosters, place.Select(gap => gap.Far))
               where !near.IsEmpty && !far.IsEmpty
               let meetings = Meetings(near, far).Where(pair => !closed[place.Key].Any(setting => pair.When.GetValueOrDefault(setting.Owner) == setting.Position))
               select new CabBorder(place.Key, near, far, [.. meetings]),
        ];
    }

    /// <summary>A gap's place as <see cref="GapFaces"/> names it: a joint by its first end.</summary>
    private static GapPlace PlaceOf(LayoutIndex index, GapPlace at) =>
        at is GapPlace.InJoint { End: var end } && index.JointAt(end) is { } joint ? new GapPlace.InJoint(joint.First) : at;

    private static ImmutableArray<CabFeed> CabsAt(FeedWays ways, FrozenDictionary<string, string> boosters, IEnumerable<int> nodes) =>
    [
        .. from node in nodes
           from way in ways.At(node)
           where boosters.ContainsKey(way.Wire.District)
           let cab = new CabFeed(boosters[way.Wire.District], way.When)
           group cab by (cab.Booster, Words(cab.When)) into same
           select same.First(),
    ];

    private static ImmutableArray<CabPair> Meetings(ImmutableArray<CabFeed> near, ImmutableArray<CabFeed> far) =>
    [
        .. from one in near
           from other in far
           where one.Booster != other.Booster && FeedWays.Agree(one.When, other.When)
           let pair = new CabPair(one.Booster, other.Booster, one.When.SetItems(other.When))
           group pair by (pair.Near, pair.Far, Words(pair.When)) into same
           select same.First(),
    ];

    private static string Words(ImmutableSortedDictionary<PieceId, string> when) =>
        string.Join(' ', when.Select(setting => new Setting(setting.Key, setting.Value).ToString()));

    private static ImmutableArray<CabJoin> Joins(PolarityReport polarity, FeedWays ways, FrozenDictionary<string, string> boosters)
    {
        CabNetsWorkspace nets = new(ways, boosters);
        ImmutableArray<CabJoin> joins =
        [
            .. from meeting in polarity.Standing.Concat(polarity.ByPosition)
               where meeting.Kind == MeetingKind.Joined && boosters.ContainsKey(meeting.From.District) && boosters.ContainsKey(meeting.To.District)
               let first = boosters[meeting.From.District]
               let second = boosters[meeting.To.District]
               where first != second
               select new CabJoin(meeting, first, second, nets.BothRailsJoin(first, second, meeting.Turnouts)),
        ];
        return [.. joins, .. joins.GroupBy(join => Pair(join)).Select(InTwoPlaces).OfType<CabJoin>()];
    }

    private static (string, string) Pair(CabJoin join) =>
        string.CompareOrdinal(join.First, join.Second) < 0 ? (join.First, join.Second) : (join.Second, join.First);

    /// <summary>One rail joins the two cabs in one place and the other rail in another, in positions that can be together.</summary>
    private static CabJoin? InTwoPlaces(IEnumerable<CabJoin> pair)
    {
        ImmutableArray<CabJoin> joins = [.. pair];
        if (joins.Any(join => join.BothRails))
        {
            return null;
        }

        ILookup<Leg, CabJoin> byLeg = joins.ToLookup(join => join.First == joins[0].First ? join.Meeting.From.Leg : join.Meeting.To.Leg);
        return (from one in byLeg[Leg.A]
                from other in byLeg[Leg.B]
                where FeedWays.Agree(one.Meeting.Turnouts, other.Meeting.Turnouts)
                let meeting = one.Meeting with { Turnouts = one.Meeting.Turnouts.SetItems(other.Meeting.Turnouts) }
                select one with { Meeting = meeting, BothRails = true }).FirstOrDefault();
    }
}
