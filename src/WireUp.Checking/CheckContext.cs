using WireUp.Circuits;
using WireUp.Layouts;
using WireUp.Layouts.Reference;
using WireUp.Rails;

namespace WireUp.Checking;

/// <summary>Everything that rules may look at.</summary>
/// <param name="Graph">The rails.</param>
/// <param name="Polarity">What they say about polarity.</param>
/// <param name="Track">The track as trains drive it.</param>
/// <param name="Power">The solved circuit.</param>
internal sealed record CheckContext(RailGraph Graph, PolarityReport Polarity, TrackGraph Track, PowerReport Power)
{
    internal Layout Layout => Graph.Layout;

    internal LayoutIndex Index => Graph.Index;

    internal Wiring Wiring => Layout.Wiring;

    /// <summary>What is usual in the layout's scale.</summary>
    internal ScaleRow Scale => ScaleTable.Find(Layout.Scale) ?? ScaleTable.Get("HO");

    /// <summary>
    /// Whether some wires are shorted always, so that volts and fault currents would say nothing about the railway as it is meant.
    /// </summary>
    internal bool IsShorted =>
        Polarity.Standing.Any(meeting => meeting.Kind == MeetingKind.Short)
        || Polarity.Exchanged.Any(feeders => feeders.Short is not null)
        || Polarity.OddLoops.Any(loop => !loop.Path.IsEmpty)
        || !Polarity.FrogFaults.IsEmpty;
}
