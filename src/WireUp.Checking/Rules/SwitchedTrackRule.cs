using System.Collections.Immutable;
using WireUp.Layouts;
using WireUp.Rails;

namespace WireUp.Checking.Rules;

/// <summary>
/// Track that has current only while a turnout is set for it. Under direct control that is often wanted, to park an engine; under
/// command control sound and light go out, and the blades alone carry the current. Track behind a hand switch, a feeder's own contact or
/// a bridge that can be lifted out is switched on purpose.
/// </summary>
internal sealed class SwitchedTrackRule : Rule
{
    internal override FindingDescriptor Descriptor { get; } =
        Describe.Practice("WU3013", Severity.Advice, "Track has current in some turnout positions only");

    internal override IEnumerable<Finding> Check(CheckContext context) => context.Layout.Control != ControlSystem.Command
        ? []
        : context.Polarity.Switched
            .Where(track => !track.LiveWhen.IsEmpty && track.DeadWhen is not null && !track.LiveWhen.All(setting => OnPurpose.Is(context.Layout, new(setting.Key, setting.Value))))
            .GroupBy(track => (When: Words.Set(track.LiveWhen), IsBridge: IsBridge(context.Index.Piece(track.Section))))
            .Select(group => group.Key.IsBridge ? TellBridge(context, group) : Tell(context, group.Key.When, group));

    private static bool IsBridge(Piece piece) => piece is Piece.Turntable or Piece.TransferTable;

    /// <summary>A bridge that takes its current from the road it stands at: it may have it from others too than the one that was found.</summary>
    private Finding TellBridge(CheckContext context, IEnumerable<SwitchedTrack> group)
    {
        PieceId bridge = group.First().Section;
        string others = context.Index.Piece(bridge) is Piece.Turntable ? "wires or a split ring" : "wires";
        return Say(
            $"The bridge of {Words.Quote(bridge)} has current only from the road that it stands at, and none while it moves.",
            $"Feed the bridge by {others} of its own, or leave it so where sound and lights may go out as it moves.",
            bridge.ToString()) with
        {
            Turnouts = group.First().LiveWhen,
        };
    }

    private Finding Tell(CheckContext context, string when, IEnumerable<SwitchedTrack> group)
    {
        List<string> sections = [.. group.Select(track => track.Section.ToString()).Distinct()];
        ImmutableSortedDictionary<PieceId, string> positions = group.First().LiveWhen;
        bool isOverBridge = positions.Keys.All(owner => IsBridge(context.Index.Piece(owner)));
        return Say(
            $"{Words.List(sections)} {(sections.Count == 1 ? "has" : "have")} current only while {when}, {(isOverBridge ? "over its bridge" : "through its blades")}.",
            isOverBridge
                ? $"Put a feeder at {Words.Quote(sections[0])}, its legs as the bridge brings them."
                : $"Put a feeder at {Words.Quote(sections[0])}, beyond gaps in the rails that come from the frogs.",
            sections) with
        {
            Turnouts = positions,
        };
    }
}
