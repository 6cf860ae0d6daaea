using WireUp.Layouts.Reading;
using WireUp.Layouts.Writing;

namespace WireUp.Layouts.Comparing;

/// <summary>What a joint is besides which ends it joins, in words that are the same from whichever end it was written.</summary>
internal static class JointText
{
    /// <summary>The joint with its insulated rails seen looking out of one of its ends.</summary>
    public static Snippet.Map Of(Joint joint, TrackEnd seenFrom, ControlSystem control)
    {
        RailSet insulated = joint.First == seenFrom ? joint.Insulated : joint.Insulated.Across(control);
        return Snippet.Of(
            ("kind", Words.Of(Words.Joint, joint.Kind)),
            ("insulated", insulated == RailSet.None ? null : Words.Of(Words.Rails(control), insulated)),
            ("resistance", joint.Resistance is { } ohms ? WiringText.Ohms(ohms) : null));
    }
}
