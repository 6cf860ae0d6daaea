using UnitsNet;
using WireUp.Layouts;
using WireUp.Layouts.Reference;
using WireUp.Rails;

namespace WireUp.Checking.Rules;

/// <summary>
/// Track that keeps its current close to a lift-out section while that is out: a train runs over the edge. The track before the edge has to
/// be dead then for as long as a train needs to stop.
/// </summary>
internal sealed class LiftOutApproach : Rule
{
    internal override FindingDescriptor Descriptor { get; } =
        Describe.Practice("WU5005", Severity.Warning, "Track before a lift-out section keeps its current while it is out");

    internal override IEnumerable<Finding> Check(CheckContext context)
    {
        Length needed = Needed(context);
        return from section in context.Layout.Track.OfType<Piece.Section>()
               where section.LiftOut
               from end in section.Ends
               let live = Live(context, section.Id, end)
               where live is not null && Limit.IsBelow(live.Value.Metres, needed.Meters)
               select Say(
                   $"While {Words.Quote(section.Id)} is out, the track at {Words.Quote(live.Value.At)} keeps its current, {Words.Say(Length.FromMeters(live.Value.Metres))} before the edge {Words.Quote(end)}; a train needs {Words.Say(needed)} to stop.",
                   $"Cut gaps {Words.Say(needed)} before {Words.Quote(end)} and feed the track between through a contact that {Words.Quote(section.Id)} closes when it is in; where trains are pushed, {Words.Say(context.Layout.LongestTrain)}, a train's length.",
                   end.ToString(), live.Value.At) with
               {
                   Turnouts = System.Collections.Immutable.ImmutableSortedDictionary<PieceId, string>.Empty.Add(section.Id, "out"),
               };
    }

    /// <summary>1.5 m in HO, in other scales by the gauge. Common practice, no published source.</summary>
    internal static Length Needed(CheckContext context) =>
        Constants.Get("lift-out-approach").Value / ScaleTable.Get("HO").Gauge.Meters * context.Scale.Gauge;

    private static Stretch? Live(CheckContext context, PieceId liftOut, TrackEnd edge) =>
        new TrackWalk(context.Graph, stretch => IsLive(context, stretch, liftOut)).Outward(edge).Nearest();

    /// <summary>Both rails get current, of opposite legs, in some positions with the section out.</summary>
    private static bool IsLive(CheckContext context, Stretch stretch, PieceId liftOut) =>
        Without(context, stretch.First, liftOut).Any(first => Without(context, stretch.Second, liftOut)
            .Any(second => first.Wire.Leg != second.Wire.Leg && FeedWays.Agree(first.When, second.When)));

    private static IEnumerable<FeedWay> Without(CheckContext context, int node, PieceId liftOut) =>
        context.Ways.At(node).Where(way => way.When.GetValueOrDefault(liftOut) != "in");
}
