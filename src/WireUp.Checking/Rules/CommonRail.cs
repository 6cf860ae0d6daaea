using System.Collections.Immutable;
using WireUp.Rails;

namespace WireUp.Checking.Rules;

/// <summary>
/// Cabs that share a rail without a gap. That is in order when no more than one of them shares a side of its output with any other, and
/// when all bring the same leg to the rail; no reversing section may touch it, which the rules of reversing sections see to.
/// </summary>
internal sealed class CommonRail : Rule
{
    internal override FindingDescriptor Descriptor { get; } =
        Describe.Practice("WU3018", Severity.Error, "Cabs that share a rail are not isolated from each other");

    internal override IEnumerable<Finding> Check(CheckContext context)
    {
        ImmutableHashSet<string> joinedInside = [.. context.Wiring.Boosters.Where(booster => !booster.Isolated).Select(booster => booster.Name)];
        return context.Cabs.Joins
            .Where(join => !join.BothRails)
            .GroupBy(CabsJoined.Pair)
            .SelectMany(pair => Of(pair.Key, pair.First(), pair.FirstOrDefault(join => join.Meeting.From.Leg != join.Meeting.To.Leg), joinedInside));
    }

    private IEnumerable<Finding> Of((string First, string Second) cabs, CabJoin shown, CabJoin? crossed, ImmutableHashSet<string> joinedInside)
    {
        if (joinedInside.Contains(cabs.First) && joinedInside.Contains(cabs.Second))
        {
            yield return Tell(
                $"Cabs {Words.Quote(cabs.First)} and {Words.Quote(cabs.Second)} share a rail{CabsJoined.When(shown)}, and their outputs are not isolated from each other: as soon as one of them is reversed, it is a short.",
                $"Use cabs whose outputs share nothing, each with a supply of its own, or cut gaps in both rails between {Words.Quote(shown.Meeting.From.Feeder)} and {Words.Quote(shown.Meeting.To.Feeder)}.",
                cabs,
                shown);
        }
        else if (crossed is not null)
        {
            yield return Tell(
                $"Cabs {Words.Quote(cabs.First)} and {Words.Quote(cabs.Second)} bring different legs to the rail they share{CabsJoined.When(crossed)}, so that forward on the one is backward on the other.",
                $"Exchange the wires of {Words.Quote(crossed.Meeting.From.Feeder)} or of {Words.Quote(crossed.Meeting.To.Feeder)} at the rails.",
                cabs,
                crossed) with
            {
                Severity = Severity.Warning,
            };
        }
    }

    private Finding Tell(string message, string remedy, (string First, string Second) cabs, CabJoin shown) =>
        Say(message, remedy, cabs.First, cabs.Second) with
        {
            Path = Words.Path(shown.Meeting),
            Turnouts = shown.Meeting.Turnouts,
        };
}
