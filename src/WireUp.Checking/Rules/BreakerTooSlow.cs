using WireUp.Layouts.Reference;

namespace WireUp.Checking.Rules;

/// <summary>
/// A breaker that takes so long that its booster may shut down before it opens, at currents that a short in its district draws. A
/// booster with one district only has nothing to tell apart.
/// </summary>
internal sealed class BreakerTooSlow : Rule
{
    internal override FindingDescriptor Descriptor { get; } =
        Describe.Practice("WU4012", Severity.Warning, "A breaker is slower than its booster allows");

    internal override IEnumerable<Finding> Check(CheckContext context) =>
        from district in context.Protection.Districts
        where district.BoosterFirst is not null
        let first = district.BoosterFirst
        let limit = first.BoosterTime * Constants.Get("breaker-time-over-booster").Value
        select Say(
            $"A short of {Words.Range(first.From, first.To)} in district {Words.Quote(district.District)} takes its breaker {Words.Say(first.BreakerTime)} to clear, and booster {Words.Quote(district.Booster)} shuts down after {Words.Say(first.BoosterTime)}.",
            $"Set the breaker of {Words.Quote(district.District)} to {Words.Say(limit)} or less, or the booster to {Words.Say(first.BreakerTime / Constants.Get("breaker-time-over-booster").Value)} or more.",
            district.District, district.Booster) with
        {
            Severity = first.IsCertain ? Severity.Warning : Severity.Advice,
        };
}
