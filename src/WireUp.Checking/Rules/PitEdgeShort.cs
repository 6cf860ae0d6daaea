using WireUp.Layouts;
using WireUp.Rails;

namespace WireUp.Checking.Rules;

/// <summary>A turntable or transfer table whose rails do not agree with those of a road that it stands at.</summary>
internal sealed class PitEdgeShort : Rule
{
    internal override FindingDescriptor Descriptor { get; } =
        Describe.Physics("WU3015", Severity.Error, "A bridge and a road have opposite polarity at the edge of the pit");

    internal override IEnumerable<Finding> Check(CheckContext context) =>
        from wheel in UnderWheels.At(context, WheelPlace.PitEdge)
        group wheel by wheel.Near.Piece into bridge
        let shown = bridge.First()
        let positions = bridge.Select(wheel => wheel.Meeting.Turnouts[bridge.Key]).Distinct().ToList()
        let device = shown.Meeting.Kind == MeetingKind.Reversing ? ", behind a device that swaps as that of the bridge does" : ""
        select Say(
            $"The bridge of {Words.Quote(bridge.Key)} has opposite polarity to the rails of the road in {Words.Count(positions.Count, "position")}, {Words.List(positions)}: {Words.Quote(shown.Meeting.From)} faces {Words.Quote(shown.Meeting.To)}{device}.",
            Remedy(context.Index.Piece(bridge.Key), shown.Meeting.Kind),
            [bridge.Key.ToString(), shown.Meeting.From.Feeder, shown.Meeting.To.Feeder]) with
        {
            Path = Words.Path(shown.Meeting),
            Turnouts = shown.Meeting.Turnouts,
        };

    private static string Remedy(Piece bridge, MeetingKind kind) => kind == MeetingKind.Reversing
        ? $"Feed the roads around {Words.Quote(bridge.Id)} from a district that does not swap."
        : $"Feed the bridge of {Words.Quote(bridge.Id)} through a split ring or as a reversing district of its own.";
}
