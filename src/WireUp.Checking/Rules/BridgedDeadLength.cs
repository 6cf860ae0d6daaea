using System.Collections.Immutable;
using UnitsNet;
using WireUp.Layouts;
using WireUp.Layouts.Reference;

namespace WireUp.Checking.Rules;

/// <summary>
/// Rails of opposite polarity with nothing but a dead length between them, shorter than what may stand on it: an engine that picks up
/// current on both sides of it, a lit car, or wheels at both ends of a train.
/// </summary>
internal sealed class BridgedDeadLength : Rule
{
    internal override FindingDescriptor Descriptor { get; } =
        Describe.Physics("WU3016", Severity.Error, "A dead length between opposite polarities is shorter than what runs across it");

    internal override IEnumerable<Finding> Check(CheckContext context) =>
        from bridge in context.Polarity.UnderVehicles
        where UnderWheels.IsOwnFault(context, bridge.Meeting)
        group bridge by Words.InOrder(UnderWheels.PlaceOf(context, bridge.From), UnderWheels.PlaceOf(context, bridge.To)) into pair
        let shown = pair.First()
        let vehicle = ShortestOver(context, shown.Metres)
        let when = shown.Meeting.Turnouts.IsEmpty ? "" : $" {Words.When(shown.Meeting.Turnouts)}"
        select Say(
            $"From gap {Words.Quote(pair.Key.First)} to gap {Words.Quote(pair.Key.Second)} it is {Words.Say(Length.FromMeters(shown.Metres))} of dead rail{when}, which {vehicle.Name} bridges, so that {Words.Quote(shown.Meeting.From)} meets {Words.Quote(shown.Meeting.To)}.",
            "Give the track on both sides the same polarity, or make the dead length a reversing section longer than the longest train.",
            [pair.Key.First, pair.Key.Second, .. shown.Meeting.Turnouts.Keys.Select(piece => piece.ToString())]) with
        {
            Severity = vehicle.IsEngine ? Severity.Error : Severity.Warning,
            Path = Words.Path(shown.Meeting),
            Turnouts = shown.Meeting.Turnouts,
        };

    /// <summary>The shortest of what runs on the layout that reaches over a length; the longest train always does.</summary>
    private static (string Name, bool IsEngine) ShortestOver(CheckContext context, double metres)
    {
        ImmutableArray<Locomotive> engines = UnderWheels.Engines(context.Layout, pickup => pickup >= metres);
        if (!engines.IsEmpty)
        {
            return ($"engine {Words.Quote(engines[0].Name)} with a pick-up wheel base of {Words.Say(engines[0].Pickup)}", true);
        }

        double litCar = Constants.Get("lit-car-pickup-over-gauge").Value * context.Scale.Gauge.Meters;
        if (litCar >= metres && context.Layout.Stock.Trains.Any(train => train.LitCars > 0))
        {
            return ($"a lit car with pick-ups some {Words.Say(Length.FromMeters(litCar))} apart", false);
        }

        return ($"a train of {Words.Say(context.Layout.LongestTrain)} with metal wheels", false);
    }
}
