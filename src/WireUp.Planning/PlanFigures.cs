using UnitsNet;
using WireUp.Layouts;

namespace WireUp.Planning;

/// <summary>What a plan comes to, in the few figures by which two plans are compared.</summary>
/// <param name="IsFinished">Whether the plan passes its own checks.</param>
/// <param name="ReversingSections">Reversing sections to add.</param>
/// <param name="RailsToCut">Rails to cut: two for a gap in both.</param>
/// <param name="Districts">Power districts in all.</param>
/// <param name="Boosters">Boosters in all.</param>
/// <param name="Feeders">Feeders to add.</param>
/// <param name="Bus">Bus to add, slack included, measured as pairs.</param>
/// <param name="LargestDrop">Largest drop under the design load of any district.</param>
/// <param name="LeastFaultOverTrip">Least fault current of a coin anywhere over what the breaker there trips at; infinite without districts.</param>
/// <param name="Remains">How many things the plan could not mend.</param>
public sealed record PlanFigures(
    bool IsFinished,
    int ReversingSections,
    int RailsToCut,
    int Districts,
    int Boosters,
    int Feeders,
    Length Bus,
    Ratio LargestDrop,
    double LeastFaultOverTrip,
    int Remains)
{
    /// <summary>The figures of a plan.</summary>
    public static PlanFigures Of(PlanResult plan)
    {
        (Wiring before, Wiring after) = (plan.Before.Wiring, plan.After.Wiring);
        return new(
            plan.IsFinished,
            plan.Proposals.Count(proposal => proposal.Kind == ProposalKind.ReversingSection),
            after.Gaps.Except(before.Gaps).Sum(gap => gap.Rails == RailSet.Both && plan.Before.Control != ControlSystem.ThreeRail ? 2 : 1),
            after.Districts.Length,
            after.Boosters.Length,
            after.Feeders.Except(before.Feeders).Count(),
            Length.FromMeters(Runs(after).Except(Runs(before)).Sum(run => run.Length.Meters)),
            Ratio.FromDecimalFractions(plan.Power.Districts.Select(district => district.LowestVolts.Drop.DecimalFractions).DefaultIfEmpty(0).Max()),
            plan.Power.Districts.Select(district => district.FaultOverTrip).DefaultIfEmpty(double.PositiveInfinity).Min(),
            plan.Remains.Length);
    }

    private static IEnumerable<BusRun> Runs(Wiring wiring) => wiring.Buses.SelectMany(bus => bus.Runs);
}
