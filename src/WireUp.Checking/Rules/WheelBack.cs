using System.Collections.Immutable;
using WireUp.Rails;

namespace WireUp.Checking.Rules;

/// <summary>
/// Live turnouts whose open blade has the polarity opposite to the stock rail beside it, which the back of a wheel can join. It is so in
/// every turnout whose blades are one with the frog, so it is said once.
/// </summary>
internal sealed class WheelBack : Rule
{
    internal override FindingDescriptor Descriptor { get; } =
        Describe.Practice("WU3017", Severity.Advice, "The back of a wheel can short an open blade to its stock rail");

    internal override IEnumerable<Finding> Check(CheckContext context)
    {
        List<WheelMeeting> wheels = [.. UnderWheels.At(context, WheelPlace.OpenBlade)];
        if (wheels.Count > 0)
        {
            ImmutableArray<string> turnouts = [.. wheels.Select(wheel => wheel.Near.Piece.ToString()).Distinct()];
            RailMeeting shown = wheels[0].Meeting;
            yield return Say(
                $"The open blade of {Words.List(turnouts)} has the polarity opposite to {(turnouts.Length == 1 ? "its stock rail" : "the stock rail of each")}: a wheel set too narrow shorts the two with its back.",
                "Gauge the wheel sets and keep the blades well open; or cut the blades from the frog, bond each to its stock rail and feed the frog through a contact.",
                turnouts) with
            {
                Path = Words.Path(shown),
                Turnouts = shown.Turnouts,
            };
        }
    }
}
