using WireUp.Rails;

namespace WireUp.Checking.Rules;

/// <summary>Track whose two rails carry the same leg: a meter between them shows nothing, whatever else is right.</summary>
internal sealed class OneSidedTrackRule : Rule
{
    internal override FindingDescriptor Descriptor { get; } =
        Describe.Physics("WU3011", Severity.Error, "Both rails of a track have the same polarity");

    internal override IEnumerable<Finding> Check(CheckContext context)
    {
        foreach (OneSidedTrack track in context.Polarity.OneSided)
        {
            yield return Say(
                $"Both rails of {Words.Stretch(context.Index.Piece(track.Section), track.FromMetres, track.ToMetres)} carry leg {track.Leg.Leg}, from {Words.Quote(track.Leg.Feeder)} and others, so that nothing can run there.",
                "Follow both rails to their feeders and exchange the wires of the one that is wrong.",
                track.Section.ToString(), track.Leg.Feeder);
        }

        if (context.Polarity.OddLoops.IsEmpty && context.Polarity.Exchanged.IsEmpty)
        {
            foreach (SwitchedTrack track in context.Polarity.Switched.Where(track => track.LiveWhen.IsEmpty))
            {
                yield return Say(
                    $"No position of the turnouts brings opposite polarities to the two rails of {Words.Stretch(context.Index.Piece(track.Section), track.FromMetres, track.ToMetres)}.",
                    $"Put a feeder at {Words.Quote(track.Section)}, beyond gaps in the rails that come from the frogs.",
                    track.Section.ToString());
            }
        }
    }
}
