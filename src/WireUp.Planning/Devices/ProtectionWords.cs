using WireUp.Circuits;
using WireUp.Circuits.Devices;
using WireUp.Layouts;
using WireUp.Layouts.Reference;
using static System.FormattableString;

namespace WireUp.Planning.Devices;

/// <summary>Says of the devices of a solved plan what lies before and behind them: the window of a trip, who acts first, and restart.</summary>
/// <param name="after">The layout as planned.</param>
/// <param name="power">Its circuit, solved.</param>
internal sealed class ProtectionWords(Layout after, PowerReport power)
{
    private readonly ProtectionReport _protection = Protection.Of(after, power);

    /// <summary>The proposal with what the circuit says of its device added to its working; any other proposal as it is.</summary>
    public Proposal With(Proposal proposal) => proposal.Kind switch
    {
        ProposalKind.District => proposal with { Working = [.. proposal.Working, .. OfDistrict(proposal.Id)] },
        ProposalKind.Booster => proposal with { Working = [.. proposal.Working, .. OfBooster(proposal.Id)] },
        _ => proposal,
    };

    private IEnumerable<string> OfDistrict(string name)
    {
        if (_protection.Districts.FirstOrDefault(each => each.District == name) is not { } device)
        {
            yield break;
        }

        District district = after.Wiring.Districts.First(each => each.Name == name);
        Booster booster = BoosterOf(district.Booster);
        double ceiling = ScaleTable.FindOrUsual(after.Scale).TripCeiling.Amperes, fault = device.LeastFault.Amperes;
        yield return Invariant(
            $"trip ≤ lowest fault current / {Constants.FaultOverTripGood.Value:0.#} = {fault:0.0} A / {Constants.FaultOverTripGood.Value:0.#} = {fault / Constants.FaultOverTripGood.Value:0.0} A, ≤ {Constants.BreakerOverBooster.Value} × {booster.Amps.Amperes:0.#} A = {Constants.BreakerOverBooster.Value * booster.Amps.Amperes:0.0} A, ≤ {ceiling:0.#} A for the scale");
        if (device.Clears is { } clears)
        {
            yield return Invariant(
                $"a coin at the worst place is off after {clears.Seconds:0.###} s; breaker: {Constants.Get("breaker-delay").Source}");
        }

        yield return device.BoosterFirst is { } first
            ? Invariant($"from {first.From.Amperes:0.0} A the breaker takes {first.BreakerTime.Seconds:0.###} s and the booster {first.BoosterTime.Seconds:0.###} s: the booster may act first")
            : "the breaker acts before its booster at every current that a short can draw, in half of its time or less";
        if (device.Restart is { } restart)
        {
            yield return Restart(restart, Invariant($"{district.Reclose.Seconds:0.#} s after a trip the breaker closes again"));
        }
    }

    private IEnumerable<string> OfBooster(string name)
    {
        Booster booster = BoosterOf(name);
        District[] districts = [.. after.Wiring.Districts.Where(each => each.Booster == name)];
        if (districts.Length > 0 && after.Wiring.Supplies.FirstOrDefault(each => each.Name == booster.Supply) is { } supply)
        {
            double gives = (double)supply.Rating.Watts / supply.Output.Volts;
            yield return Invariant(
                $"in a row: breakers up to {districts.Max(each => each.Trip.Amperes):0.#} A after {districts.Max(each => each.Delay.Seconds):0.###} s, booster {booster.Amps.Amperes:0.#} A after {booster.Delay.Seconds:0.###} s, supply {gives:0.0} A");
        }

        if (_protection.Boosters.FirstOrDefault(each => each.Booster == name) is { } together)
        {
            yield return Restart(together.Restart, "power comes back to all of its districts at once");
        }
    }

    private string Restart(RestartVerdict restart, string when)
    {
        string most = restart.IsMostOpen ? "more than it is ever likely to see" : Invariant($"{restart.Most} of those that draw most");
        string stays = restart.OpensAfter is { } opens ? Invariant($"it opens again after {opens.Seconds:0.###} s") : "it stays closed";
        string known = after.Stock.Locomotives.Any(kind => kind.StayAlive is not null)
            ? "capacitors as the stock list states"
            : Invariant($"{Constants.Get("inrush-per-sound-decoder").Value:0.#} A each for {Constants.Get("inrush-duration").Value:0} ms, common practice, no published source");
        return Invariant($"{when}: {restart.Expected} locomotives reckoned behind it draw {restart.First.Amperes:0.0} A at first ({known}); {stays}, and can restart {most}");
    }

    private Booster BoosterOf(string name) => after.Wiring.Boosters.First(each => each.Name == name);
}
