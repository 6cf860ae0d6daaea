using WireUp.Layouts;
using WireUp.Rails;

namespace WireUp.Checking.Rules;

/// <summary>Which supplies a meeting of wires is about, so that each kind of meeting is told by one rule.</summary>
internal static class TrainSupplies
{
    /// <summary>Whether both districts are there for trains to run on.</summary>
    internal static bool AreBoth(CheckContext context, RailMeeting meeting) =>
        UseOf(context, meeting.From) == DistrictUse.Running && UseOf(context, meeting.To) == DistrictUse.Running;

    /// <summary>Whether the two are different cabs under direct control, which have rules of their own.</summary>
    internal static bool AreCabs(CheckContext context, RailMeeting meeting) => context.Layout.Control == ControlSystem.Direct
        && DistrictOf(context, meeting.From).Booster != DistrictOf(context, meeting.To).Booster;

    /// <summary>Whether a meeting is one of the same leg of two supplies that are out of phase.</summary>
    internal static bool AreOutOfPhase(MeetingKind kind, FeederLeg from, FeederLeg to) => kind == MeetingKind.Short && from.Leg == to.Leg;

    internal static DistrictUse UseOf(CheckContext context, FeederLeg wire) => DistrictOf(context, wire).Use;

    internal static District DistrictOf(CheckContext context, FeederLeg wire) =>
        context.Wiring.Districts.First(district => district.Name == wire.District);
}
