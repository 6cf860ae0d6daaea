using System.Collections.Immutable;
using WireUp.Layouts;
using WireUp.Rails;

namespace WireUp.Checking.Rules;

/// <summary>Which shorts under wheels are told, and where.</summary>
internal static class UnderWheels
{
    /// <summary>
    /// Those at one kind of place, without what some positions short anyway, wheel or not, and without what the person at a hand switch
    /// sets right before a train comes.
    /// </summary>
    internal static IEnumerable<WheelMeeting> At(CheckContext context, WheelPlace place) =>
        context.Polarity.UnderWheels.Where(wheel => wheel.Place == place && IsOwnFault(context, wheel.Meeting));

    /// <summary>Whether a meeting is a fault of its own.</summary>
    internal static bool IsOwnFault(CheckContext context, RailMeeting meeting) =>
        !context.Wiring.Switches.Any(item => meeting.Turnouts.ContainsKey(item.Name))
        && !context.Polarity.ByPosition.Any(other => other.Turnouts.All(pair => meeting.Turnouts.TryGetValue(pair.Key, out string? position) && position == pair.Value));

    /// <summary>The name of the place where a rail ends at a gap, the same for both rails.</summary>
    internal static string PlaceOf(CheckContext context, RailPoint point) => point switch
    {
        RailPoint.Within within => within.Place.ToString(),
        RailPoint.AtEnd end when context.Index.JointAt(end.Rail.End) is { } joint => Named(context, joint).ToString(),
        _ => point.ToString()!,
    };

    /// <summary>The end of a joint by which the file calls its gap; where it has none there, the joint's first end.</summary>
    private static TrackEnd Named(CheckContext context, Joint joint) => context.Wiring.Gaps
        .Select(gap => gap.At).OfType<GapPlace.InJoint>().Select(at => (TrackEnd?)at.End)
        .FirstOrDefault(end => end == joint.First || end == joint.Second) ?? joint.First;

    /// <summary>The longest pick-up wheel base in the file, in metres.</summary>
    internal static double LongestPickup(Layout layout) => layout.Stock.Locomotives.Select(engine => engine.Pickup).Append(layout.ShortestPickup).Max().Meters;

    /// <summary>Names of those engines of the layout that satisfy something, with their pick-up base.</summary>
    internal static ImmutableArray<Locomotive> Engines(Layout layout, Func<double, bool> pickup) =>
        [.. layout.Stock.Locomotives.Where(engine => engine.Pickup.Meters > 0 && pickup(engine.Pickup.Meters)).OrderBy(engine => engine.Pickup)];
}
