using System.Collections.Immutable;
using System.Globalization;
using WireUp.Layouts;
using WireUp.Layouts.Reference;
using WireUp.Planning.Devices;
using WireUp.Planning.Districts;

namespace WireUp.Planning;

/// <summary>Says in words why districts, devices, feeders and bus are proposed, and what remains.</summary>
internal static class PlanWords
{
    private const string NoSource = "Common practice, no published source.";

    public static IEnumerable<Proposal> OfBorders(DistrictPlan plan, ControlSystem control) => plan.Borders.Select((border, i) => new Proposal(
        Invariant($"gap-{i + 1}"),
        ProposalKind.Gap,
        border.At.ToString()!,
        $"{(control == ControlSystem.ThreeRail ? "The centre conductor is" : "Both rails are")} parted here so that districts '{border.One}' and '{border.Other}' trip separately: a short in one leaves the other running.",
        $"Two power districts meet in a gap of {(control == ControlSystem.ThreeRail ? "the centre conductor" : "both rails")}, in plain track, clear of turnouts. {NoSource}",
        Cost: control == ControlSystem.ThreeRail ? 1 : 2));

    public static Proposal OfDistrict(PlanDraft draft, District district, DistrictDemand demand)
    {
        PlannedDistrict planned = draft.Districts!.Districts.First(each => each.Name == district.Name);
        LoadAmps load = draft.Sizing!.Load;
        string why = planned switch
        {
            { IsReversing: true } => "A reversing section is a district of its own, behind a device that swaps its polarity.",
            { IsWish: true } => "Asked for as a district of its own.",
            _ => Invariant($"The load asks for districts of at most {draft.Sizing.MostDistrictAmps:0.0} A; this is one of them."),
        };
        return new(
            district.Name,
            ProposalKind.District,
            district.Name,
            Invariant($"{why} It has {planned.LengthMetres:0.0} m of track and draws up to {demand.DesignAmps:0.00} A; its breaker trips at {district.Trip.Amperes:0.#} A, behind booster '{district.Booster}'."),
            $"A breaker trips at 1.5 times the working current or more, at most at 0.8 of its booster's rating, and not above the ceiling of the scale. {NoSource}",
            Cost: 10)
        {
            Working =
            [
                Invariant($"share of the load = {demand.WorkingAmps / load.Total:0.000} × {load.Total:0.00} A = {demand.WorkingAmps:0.00} A"),
                Invariant($"heaviest train = {load.Heaviest:0.00} A, so design load = {demand.DesignAmps:0.00} A"),
                Invariant($"trip ≥ {Constants.TripOverWorking.Value} × {demand.DesignAmps:0.00} A = {demand.DesignAmps * Constants.TripOverWorking.Value:0.00} A → {district.Trip.Amperes:0.#} A"),
            ],
        };
    }

    public static IEnumerable<Proposal> OfBooster(Booster booster, SupplyChoice supply, PowerSizing sizing, bool isForVolts)
    {
        yield return new(
            booster.Name,
            ProposalKind.Booster,
            booster.Beside?.ToString() ?? booster.Name,
            Invariant($"A booster of {booster.Amps.Amperes:0.#} A at {booster.Volts.Volts:0.#} V, standing where the largest drop of what it feeds is smallest.{(isForVolts ? " The load alone asks for fewer, but with fewer some district drops more than allowed, even with the thickest usual bus and more feeders." : "")}"),
            $"A booster works at four fifths of its rating or less; all boosters give the same volts. {NoSource}",
            Cost: 100)
        {
            Working = sizing.Working,
        };
        bool limited = supply.Supply.Class == SupplyClass.Limited;
        string caution = limited
            ? "It is energy-limited: keep it a ready-made, enclosed unit of that class."
            : "It is not energy-limited: it can put more into a fault than a thin wire bears, so every wire beyond it must be protected by the booster "
                + "or a fuse within its own rating. Use a ready-made, enclosed, certified unit; leave anything on its mains side to a licensed electrician, under local codes.";
        yield return new(
            supply.Supply.Name,
            ProposalKind.Supply,
            booster.Name,
            Invariant($"A supply of {supply.Supply.Output.Volts:0.#} V and {supply.Supply.Rating.Watts:0} VA for booster '{booster.Name}'. {caution}"),
            limited
                ? $"Limits of energy-limited supplies: {supply.Limit!.Source}."
                : $"A supply gives 1.1 times what its booster trips at, or the booster never trips. {NoSource}",
            Cost: 30)
        {
            Working = supply.Working,
        };
    }

    public static Proposal OfFeeder(Feeder feeder, FeederSite site, Layout layout) => new(
        feeder.Name,
        ProposalKind.Feeder,
        feeder.At.ToString(),
        Invariant($"Both rails of '{feeder.At.Section}' are fed here, from district '{feeder.District}' at tap {feeder.Tap}, so that no rail lies farther than {layout.MaxFeederDistance.Meters:0.##} m from a feeder along metal that can be trusted.{(site.Why is { } reason ? $" {reason}" : "")}"),
        $"Every rail between gaps has a feeder; a feeder is trusted through soldered joints and one slide-on joiner of nickel silver or stainless steel, not through other joiners, blades, contacts or gaps. {NoSource}",
        Cost: 1)
    {
        Working =
        [
            Invariant($"wire {feeder.Wire}: carries {GaugeChooser.ShortRunAmps(feeder.Wire):0.0} A over so short a run, {feeder.Length.Millimeters:0} mm long"),
            feeder.Swap ? "leg A goes to the right rail, seen from end a to end b" : "leg A goes to the left rail, seen from end a to end b",
        ],
    };

    public static Proposal OfRun(string district, BusRun run, string id, GaugeRow? row, Layout layout) => new(
        id,
        ProposalKind.BusRun,
        $"{run.From} > {run.To}",
        Invariant($"Bus of district '{district}' from {run.From} to {run.To}: {run.Length.Meters:0.00} m of {run.Wire}, both wires together along the track."),
        $"Bus is a tree from its booster, never a ring under command control; the thinnest usual wire that keeps drop, fault current and its own rating. {NoSource}",
        Cost: Math.Round(run.Length.Meters, 2))
    {
        Working = row is null
            ? []
            :
            [
                Invariant($"largest drop {row.Drop.Percent:0.0} % (limit {layout.MaxDrop.Percent:0.#} %)"),
                Invariant($"lowest fault current {row.FaultCurrent.Amperes:0.0} A (wanted {Constants.FaultOverTripGood.Value:0.#} × trip)"),
                Invariant($"wire carries {Conductors.AmpacityAmps(run.Wire):0.0} A"),
            ],
    };

    public static string NoBooster(ImmutableArray<DistrictDemand> demands, PowerSizing sizing)
    {
        DistrictDemand most = demands.OrderByDescending(demand => demand.DesignAmps).First();
        string remedy = most.DesignAmps > most.WorkingAmps
            ? "its heaviest train is too heavy for it: run lighter trains"
            : "its track could not be divided further: mark fewer pieces as not to be cut";
        return Invariant($"District '{most.Name}' draws {most.DesignAmps:0.00} A, and no breaker allowed on this scale (up to {sizing.MostTripAmps:0.#} A) trips at {Constants.TripOverWorking.Value:0.#} times that; {remedy}.");
    }

    public static string Trying(int boosters) => Invariant($"boosters, bus and wire: {boosters} new booster{(boosters == 1 ? "" : "s")}");

    public static string NoDistrict(TrackPlace place) => $"A feeder at {place} has no district to be fed from.";

    public static string Unreached(TrackPlace place, string district) =>
        $"No way along the track leads from the booster of '{district}' to the feeder at {place}: join the track, or wire it by hand.";

    public static string Invariant(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
