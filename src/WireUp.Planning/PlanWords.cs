using System.Collections.Immutable;
using UnitsNet;
using WireUp.Circuits;
using WireUp.Layouts;
using WireUp.Layouts.Reference;
using WireUp.Planning.Blocks;
using WireUp.Planning.Devices;
using WireUp.Planning.Districts;
using static System.FormattableString;

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
            _ => Invariant($"The load asks for districts of at most {draft.Sizing.MostShare:P0} of the track; this is one of them."),
        };
        return new(
            district.Name,
            ProposalKind.District,
            district.Name,
            Invariant($"{why} It has {planned.LengthMetres:0.0} m of track and draws up to {demand.DesignAmps:0.00} A; its breaker trips at {district.Trip.Amperes:0.#} A, behind booster '{district.Booster}'.{(planned.CutOffMetres is { } cutOff ? CutOff(cutOff) : "")}"),
            $"A breaker trips at 1.5 times the working current or more, and at no less than trains that meet draw; at most at 0.8 of its booster's rating, and not above the ceiling of the scale. {NoSource}",
            Cost: 10)
        {
            Working =
            [
                Invariant($"share of the load = {demand.WorkingAmps / load.Total:0.000} × {load.Total:0.00} A = {demand.WorkingAmps:0.00} A"),
                Invariant($"heaviest train = {load.Heaviest:0.00} A, so design load = {demand.DesignAmps:0.00} A"),
                .. demand.Sizing.Load.Meeting is null ? (string[])[] :
                [
                    Invariant($"trains that chance brings together here draw no more than {demand.MeetingAmps:0.00} A for {CoincidentLoad.Part:P0} of the time"),
                ],
                Invariant($"trip ≥ {Constants.TripOverWorking.Value} × {demand.DesignAmps:0.00} A = {demand.DesignAmps * Constants.TripOverWorking.Value:0.00} A, and ≥ {demand.MeetingAmps:0.00} A → {district.Trip.Amperes:0.#} A"),
            ],
        };
    }

    private static string CutOff(double metres) => metres < 0.005
        ? " While it is dead, all other track still hangs together: trains can go round it."
        : Invariant($" While it is dead, {metres:0.0} m of other track are cut off.");

    public static IEnumerable<Proposal> OfBooster(Booster booster, SupplyChoice supply, PowerSizing sizing, bool isForVolts)
    {
        yield return new(
            booster.Name,
            ProposalKind.Booster,
            booster.Beside?.ToString() ?? booster.Name,
            Invariant($"A booster of {booster.Amps.Amperes:0.#} A at {booster.Volts.Volts:0.#} V, standing where the volts of what it feeds ask for fewest feeders.{(isForVolts ? " The load alone asks for fewer, but with fewer some district drops more than allowed, even with the thickest usual bus and more feeders, or so many more feeders are needed that a booster costs less." : "")}"),
            $"By rule a booster works at four fifths of its rating or less, and trains that meet draw no more than its rating; all boosters give the same volts. {NoSource}",
            Cost: Prices.Booster)
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
            Cost: Prices.Supply)
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
        Cost: Prices.Feeder)
    {
        Working =
        [
            Invariant($"wire {feeder.Wire}: carries {GaugeChooser.ShortRunAmps(feeder.Wire):0.0} A over so short a run, {feeder.Length.Millimeters:0} mm long"),
            feeder.Swap ? "leg A goes to the right rail, seen from end a to end b" : "leg A goes to the left rail, seen from end a to end b",
        ],
    };

    public static Proposal OfRun(string district, BusRun run, ImmutableArray<string> corridors, string id, DistrictPower? power, Layout layout) => new(
        id,
        ProposalKind.BusRun,
        $"{run.From} > {run.To}",
        Invariant($"Bus of district '{district}' from {run.From} to {run.To}: {run.Length.Meters:0.00} m of {run.Wire}, both wires together along {(layout.Benchwork.Corridors.IsEmpty ? "the track" : corridors.IsEmpty ? "the benchwork" : $"corridor {string.Join(" and ", corridors.Select(corridor => $"'{corridor}'"))}")}."),
        $"Bus is a tree from its booster, never a ring under command control; of the wire on hand that which costs least and keeps drop, fault current and its own rating, at most two sizes in a district, none thicker than the one before it. {NoSource}",
        Cost: Math.Round(run.Length.Meters, 2))
    {
        Working = power is null
            ? []
            :
            [
                Invariant($"largest drop in the district {power.LowestVolts.Drop.Percent:0.0} % (limit {layout.MaxDrop.Percent:0.#} %)"),
                Invariant($"lowest fault current {power.LowestFault.FaultCurrent.Amperes:0.0} A = {power.FaultOverTrip:0.0} × trip (wanted {Constants.FaultOverTripGood.Value:0.#} ×)"),
                Invariant($"wire carries {Conductors.AmpacityAmps(run.Wire):0.0} A, trip is {power.Trip.Amperes:0.#} A"),
            ],
    };

    /// <summary>Why all bus of a district in one size lost against what is planned.</summary>
    public static IEnumerable<string> OtherSizes(IEnumerable<GaugeRow> rows, bool byPrice)
    {
        GaugeRow[] all = [.. rows];
        Length bus = Length.FromMeters(all.Sum(row => row.Planned.Meters));
        return all.Where(row => row.Planned < bus).Select(row => row.Verdict.Length > 0
            ? $"All of the district's bus in {row.Wire} will not do: {row.Verdict}."
            : $"All of the district's bus in {row.Wire} would do as well, and {(byPrice ? "costs more" : "takes more copper")}.");
    }

    /// <summary>So many new boosters, and none of them may carry some district.</summary>
    public static string CannotCarry(int boosters) => $"With {New(boosters)} the districts cannot be shared out so that no booster carries more than it may.";

    /// <summary>Why a number of new boosters lost.</summary>
    public static string Lost(PlanDraft draft) => draft.Failing.IsEmpty ? Dearer(draft) : OutOfLimits(draft);

    /// <summary>So many new boosters, and what is out of its limits with them all the same.</summary>
    private static string OutOfLimits(PlanDraft draft) =>
        $"With {New(draft.Layout.Wiring.Boosters.Length - draft.Before.Wiring.Boosters.Length)} drop or fault current is out of limits, with the thickest wire on hand and more feeders too, in {string.Join(", ", draft.Failing.Select(name => $"'{name}'"))}.";

    /// <summary>So many new boosters, which keep every limit and cost more.</summary>
    private static string Dearer(PlanDraft draft) =>
        Invariant($"With {New(draft.Layout.Wiring.Boosters.Length - draft.Before.Wiring.Boosters.Length)} and {draft.Feeders.Length} feeders every limit is kept as well, at a higher price: a booster with its supply counts as much as {Prices.Booster + Prices.Supply:0} feeders.");

    /// <summary>The draft whose boosters tell of the numbers of boosters that lost.</summary>
    public static PlanDraft WithLost(PlanDraft draft, IReadOnlyCollection<string> lost) => draft with
    {
        Proposals = [.. draft.Proposals.Select(proposal => proposal.Kind == ProposalKind.Booster ? proposal with { Alternatives = [.. proposal.Alternatives, .. lost] } : proposal)],
    };

    private static string New(int boosters) => Invariant($"{boosters} new booster{(boosters == 1 ? "" : "s")}");

    public static string NoBooster(ImmutableArray<DistrictDemand> demands, PowerSizing sizing)
    {
        DistrictDemand most = demands.OrderByDescending(demand => demand.DesignAmps).First();
        string remedy = most.Sizing.Load.Heaviest > sizing.MostDistrictAmps
            ? "its heaviest train is too heavy for it: run lighter trains"
            : "its track could not be divided further: mark fewer pieces as not to be cut";
        return Invariant($"District '{most.Name}' draws {most.DesignAmps:0.00} A by rule and {most.MeetingAmps:0.00} A where trains meet, and no breaker allowed on this scale (up to {sizing.MostTripAmps:0.#} A) trips at {Constants.TripOverWorking.Value:0.#} times the one and at the other; {remedy}.");
    }

    /// <summary>Limits that no wire on hand keeps, and what would.</summary>
    public static string NotKept(DistrictGauges gauges)
    {
        string window = gauges.Power is { } power && power.FaultOverTrip < Constants.FaultOverTripGood.Value
            ? Invariant($" No setting of its breaker suits both: its load asks for {power.Trip.Amperes:0.#} A, and the fault current of {power.LowestFault.FaultCurrent.Amperes:0.0} A allows {power.LowestFault.FaultCurrent.Amperes / Constants.FaultOverTripGood.Value:0.0} A at most.")
            : "";
        return $"District '{gauges.District}' with {gauges.Wires[0]}, the best of the wire on hand: {gauges.Verdict}.{window} What would help: thicker wire, solder at the joiners, or less track in the district.";
    }

    public static string NoSelectors(Cabs cabs) =>
        $"No selectors for cabs {string.Join(", ", cabs.Names.Select(name => $"'{name}'"))} are planned: '{cabs.First.Name}' cannot feed all of the track alone, or a reversing section is in it. Plan for one cab, or write selectors and feeders into the file.";

    public const string FewerFeeders = "boosters, bus and wire: fewer feeders";

    public static string Trying(int boosters) => $"boosters, bus and wire: {New(boosters)}";

    public static string NoDistrict(TrackPlace place) => $"A feeder at {place} has no district to be fed from.";

    public static string Unreached(TrackPlace place, string district, Layout layout) => layout.Benchwork.Corridors.IsEmpty
        ? $"No way along the track leads from the booster of '{district}' to the feeder at {place}: join the track, or wire it by hand."
        : $"No corridor within reach from below leads from the booster of '{district}' to the feeder at {place}: describe one, or wire it by hand.";
}
