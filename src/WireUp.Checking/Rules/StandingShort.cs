using System.Collections.Immutable;
using WireUp.Layouts;
using WireUp.Rails;

namespace WireUp.Checking.Rules;

/// <summary>Two wires of opposite polarity that rails always join, other than round a loop or by exchanged feeders.</summary>
internal sealed class StandingShort : Rule
{
    internal override FindingDescriptor Descriptor { get; } =
        Describe.Physics("WU3001", Severity.Error, "Rail A and rail B are joined: a standing short");

    internal override IEnumerable<Finding> Check(CheckContext context) =>
        from meeting in context.Polarity.Standing
        where meeting.Kind == MeetingKind.Short && !TrainSupplies.AreOutOfPhase(meeting.Kind, meeting.From, meeting.To)
        select Say(
            $"Feeder {Words.Quote(meeting.From.Feeder)} and feeder {Words.Quote(meeting.To.Feeder)} short each other through the rails{Over(meeting.Frogs)}, whatever way the turnouts lie.",
            meeting.Frogs.IsEmpty ? "Cut a gap in the rail along the path where it should not conduct." : FrogGaps.Both(context, meeting.Frogs[0]),
            meeting.Frogs.Select(frog => frog.ToString()).Concat([meeting.From.Feeder, meeting.To.Feeder])) with
        {
            Path = Words.Path(meeting),
        };

    private static string Over(ImmutableArray<PieceId> frogs) =>
        frogs.IsEmpty ? "" : $" and the frog of {Words.Quote(frogs[0])}";
}
