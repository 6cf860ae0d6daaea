using UnitsNet;

namespace WireUp.Checking.Rules;

/// <summary>
/// Two reversing sections with less track of fixed polarity between them than an engine reaches over: while it bridges both gaps, the one
/// device answers to the other.
/// </summary>
internal sealed class ReversingSectionsNear : Rule
{
    internal override FindingDescriptor Descriptor { get; } =
        Describe.Practice("WU3024", Severity.Warning, "Too little fixed track between two reversing sections");

    internal override IEnumerable<Finding> Check(CheckContext context)
    {
        double pickup = UnderWheels.LongestPickup(context.Layout);
        return
            from buffer in new ReversingRuns(context).Buffers()
            where Limit.IsBelow(buffer.LengthMetres, pickup)
            select Say(
                $"Between reversing districts {Words.Quote(buffer.One)} and {Words.Quote(buffer.Other)} there are {Words.Say(Length.FromMeters(buffer.LengthMetres))} of fixed track, from gap {Words.Quote(buffer.From)} to gap {Words.Quote(buffer.To)}, and the longest pick-up wheel base in the file is {Words.Say(Length.FromMeters(pickup))}: an engine joins the two.",
                $"Leave track of a fixed district between the two, at least as long as the longest vehicle or coupled set that picks up current from end to end; {Words.Say(Length.FromMeters(pickup))} is the least.",
                buffer.One, buffer.Other, buffer.From, buffer.To);
    }
}
