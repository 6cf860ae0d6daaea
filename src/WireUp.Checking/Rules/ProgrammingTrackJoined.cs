using WireUp.Layouts;

namespace WireUp.Checking.Rules;

/// <summary>A programming track that some rail joins to a running district: what is written there, every engine on the layout may hear.</summary>
internal sealed class ProgrammingTrackJoined : Rule
{
    internal override FindingDescriptor Descriptor { get; } =
        Describe.Practice("WU3022", Severity.Error, "A programming track is joined to running track");

    internal override IEnumerable<Finding> Check(CheckContext context) =>
        from meeting in context.Polarity.Standing.Concat(context.Polarity.ByPosition)
        let isFrom = TrainSupplies.UseOf(context, meeting.From) == DistrictUse.Programming
        where isFrom != (TrainSupplies.UseOf(context, meeting.To) == DistrictUse.Programming)
        where TrainSupplies.UseOf(context, isFrom ? meeting.To : meeting.From) == DistrictUse.Running
        let districts = isFrom ? (Own: meeting.From.District, Other: meeting.To.District) : (Own: meeting.To.District, Other: meeting.From.District)
        group meeting by districts into pair
        let shown = pair.First()
        let when = shown.Turnouts.IsEmpty ? "" : $" when {Words.Set(shown.Turnouts)}"
        select Say(
            $"A rail joins programming district {Words.Quote(pair.Key.Own)} to district {Words.Quote(pair.Key.Other)}{when}, between feeders {Words.Quote(shown.From.Feeder)} and {Words.Quote(shown.To.Feeder)}.",
            Border.Remedy(
                context, shown, "Cut gaps in both rails wherever the programming track is joined to other track, and let one switch choose which of the two feeds it."),
            pair.Key.Own, pair.Key.Other) with
        {
            Path = Words.Path(shown),
            Turnouts = shown.Turnouts,
        };
}
