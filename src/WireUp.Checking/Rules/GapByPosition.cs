using WireUp.Rails;

namespace WireUp.Checking.Rules;

/// <summary>A gap that has opposite polarity on its two sides in positions in which a train can roll across it.</summary>
internal sealed class GapByPosition : Rule
{
    internal override FindingDescriptor Descriptor { get; } =
        Describe.Physics("WU3014", Severity.Error, "In some positions a gap has opposite polarity on its two sides");

    internal override IEnumerable<Finding> Check(CheckContext context) =>
        from wheel in UnderWheels.At(context, WheelPlace.Gap)
        group wheel.Meeting by UnderWheels.PlaceOf(context, wheel.Near) into place
        let shown = place.MinBy(meeting => meeting.Turnouts.Count)!
        select Say(
            $"At the gap {Words.Quote(place.Key)} rail {Words.Quote(shown.From)} faces {Words.Quote(shown.To)} {Words.When(shown.Turnouts)}, so that a wheel that crosses it makes a short.",
            $"Feed the rails on both sides of {Words.Quote(place.Key)} so that they agree whenever a train can cross, or take the contact away that turns one of them.",
            [place.Key, .. shown.Turnouts.Keys.Select(piece => piece.ToString())]) with
        {
            Path = Words.Path(shown),
            Turnouts = shown.Turnouts,
        };
}
