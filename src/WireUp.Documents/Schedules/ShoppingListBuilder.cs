using System.Collections.Immutable;
using System.Numerics;
using UnitsNet;
using WireUp.Layouts;
using WireUp.Layouts.Reference;
using WireUp.Planning.Buses;
using static System.FormattableString;

namespace WireUp.Documents;

/// <summary>Collects the items of a shopping list.</summary>
internal sealed class ShoppingListBuilder(Layout layout, Wiring built, Schedule schedule)
{
    private const string Pieces = "pcs";

    public IEnumerable<ShoppingItem> Build() => [.. Devices(), .. WireByTheMetre(), .. SmallParts()];

    private IEnumerable<ShoppingItem> Devices() => [.. Supplies(), .. Boosters(), .. Breakers()];

    private IEnumerable<ShoppingItem> Supplies() =>
        from supply in layout.Wiring.Supplies.Except(built.Supplies)
        let kind = supply.Alternating ? "AC" : "DC"
        let unit = supply.Alternating ? "VA" : "W"
        let limit = supply.Class == SupplyClass.Limited ? ", energy-limited" : string.Empty
        group supply.Name by Invariant($"Supply, enclosed and certified, {supply.Output.Volts:0.##} V {kind}, {supply.Rating.Watts:0.#} {unit}{limit}")
        into alike
        select new ShoppingItem(alike.Key, alike.Count(), Pieces, Names(alike));

    private IEnumerable<ShoppingItem> Boosters() =>
        from booster in layout.Wiring.Boosters.Except(built.Boosters)
        let word = layout.Control == ControlSystem.Command ? "Booster" : "Controller"
        group booster.Name by Invariant($"{word}, {booster.Volts.Volts:0.##} V, {booster.Amps.Amperes:0.##} A")
        into alike
        select new ShoppingItem(alike.Key, alike.Count(), Pieces, Names(alike));

    private IEnumerable<ShoppingItem> Breakers() =>
        from district in layout.Wiring.Districts.Except(built.Districts)
        orderby district.Reversing
        let word = district.Reversing ? "Auto-reverser with breaker" : "Breaker"
        group district.Name by Invariant($"{word}, set to trip at {district.Trip.Amperes:0.##} A")
        into alike
        select new ShoppingItem(alike.Key, alike.Count(), Pieces, Invariant($"{(alike.Count() == 1 ? "district" : "districts")} {Names(alike)}"));

    private IEnumerable<ShoppingItem> WireByTheMetre() =>
        from wire in schedule.ToDo
        group wire by (wire.Wire, wire.Colour) into alike
        orderby Conductors.AreaSquareMillimetres(alike.Key.Wire) descending, alike.Key.Colour
        let metres = alike.Sum(wire => wire.CutLength.Meters)
        select new ShoppingItem(
            Invariant($"{Make(alike.Key.Wire)} {PlaceWords.Size(alike.Key.Wire)}, {layout.Papers.WithColour(alike.Key.Colour)}"),
            WithSpare(layout.Lengths == LengthStyle.Feet ? Length.FromMeters(metres).Feet : metres),
            layout.Lengths == LengthStyle.Feet ? "ft" : "m",
            Invariant($"{PlaceWords.Parts(layout.Lengths, metres, 1, Count(alike.Count(), "piece"))}, and 10 % spare"));

    /// <summary>A cross-section is of a flexible wire unless it is solid; a gauge is reckoned as solid and says itself where it is stranded.</summary>
    private static string Make(Wire wire) => wire switch
    {
        Wire.Metric { Solid: false } => "Stranded copper wire",
        Wire.Metric => "Solid copper wire",
        _ => "Copper wire",
    };

    private IEnumerable<ShoppingItem> SmallParts() => [.. Taps(), .. Terminals(), .. Contacts(), .. Gaps(), .. Labels()];

    private IEnumerable<ShoppingItem> Taps() =>
        from feeder in layout.Wiring.Feeders.Except(built.Feeders)
        from run in BusAt(feeder)
        group feeder by (Bus: run, feeder.Wire) into alike
        orderby Conductors.AreaSquareMillimetres(alike.Key.Bus) descending, Conductors.AreaSquareMillimetres(alike.Key.Wire) descending
        let needed = 2 * alike.Count()
        select new ShoppingItem(
            Invariant($"Tap joining {PlaceWords.Size(alike.Key.Wire)} to {PlaceWords.Size(alike.Key.Bus)}"),
            WithSpare(needed),
            Pieces,
            Invariant($"{needed} for {Count(alike.Count(), "feeder")}, one a leg, and 10 % spare; must be rated for both sizes"));

    /// <summary>The thickest bus wire at the feeder's tap; none when the tap is on no run.</summary>
    private IEnumerable<Wire> BusAt(Feeder feeder) =>
        layout.Wiring.Buses.Where(bus => bus.District == feeder.District).SelectMany(bus => bus.Runs)
            .Where(run => run.From == feeder.Tap || run.To == feeder.Tap)
            .Select(run => run.Wire)
            .OrderByDescending(Conductors.AreaSquareMillimetres)
            .Take(1);

    /// <summary>A strip for each leg where several wires meet; a pair of terminals wherever else a new line of bus begins that does not begin at a booster.</summary>
    private IEnumerable<ShoppingItem> Terminals()
    {
        ImmutableArray<TerminalStrip> strips = TerminalStrips.Added(built, layout.Wiring);
        foreach (IGrouping<int, TerminalStrip> alike in strips.GroupBy(strip => strip.Ways).OrderBy(group => group.Key))
        {
            yield return new(
                Invariant($"Terminal strip, {alike.Key} ways"),
                2 * alike.Count(),
                Pieces,
                Invariant($"one a leg at {Names(alike.Select(strip => strip.Point))}; its ways bridged, for every size of wire that meets there"));
        }

        HashSet<string> elsewhere = [.. layout.Wiring.Boosters.Select(booster => booster.Name), .. strips.Select(strip => strip.Point)];
        int forks = schedule.ToDo.Count(wire => wire.Kind == WireKind.Bus && wire.Leg == "A" && !elsewhere.Contains(wire.From));
        if (forks > 0) yield return new("Terminal block, two-way, for bus wire", forks, Pieces, "where one line of bus begins at another");
    }

    private IEnumerable<ShoppingItem> Contacts()
    {
        int contacts = Frogs("common"), changeovers = Frogs("output");
        if (contacts > 0) yield return new("Changeover contact, break before make", contacts, Pieces, "moves with the points, feeds the frog");
        if (changeovers > 0) yield return new("Electronic changeover for a frog", changeovers, Pieces, "turns the frog when a wheel finds it wrong");
        foreach (IGrouping<int, Switch> alike in layout.Wiring.Switches.Except(built.Switches).GroupBy(item => item.Positions.Length).OrderBy(group => group.Key))
        {
            yield return new(
                Invariant($"Switch, two poles, {alike.Key} positions, break before make"),
                alike.Count(),
                Pieces,
                Invariant($"{Names(alike.Select(item => item.Name.Name))}; rated for the current of the breaker"));
        }
    }

    private int Frogs(string terminal) =>
        schedule.ToDo.Count(wire => wire.Kind == WireKind.Frog && wire.From.EndsWith($", {terminal}", StringComparison.Ordinal));

    private IEnumerable<ShoppingItem> Gaps()
    {
        Gap[] toMake = [.. layout.Wiring.Gaps.Except(built.Gaps)];
        int joiners = toMake.Where(gap => gap.At is GapPlace.InJoint).Sum(Rails);
        int cuts = toMake.Where(gap => gap.At is GapPlace.InSection).Sum(Rails);
        if (joiners > 0)
        {
            yield return new("Insulated rail joiner", WithSpare(joiners), Pieces, Invariant($"{Count(joiners, "rail")} at joints, and 10 % spare"));
        }

        if (cuts > 0) yield return new("Insulating filler for a saw cut", cuts, Pieces, $"{PlaceWords.SawCut(layout.Lengths)} wide; filled so that it cannot close");
    }

    private IEnumerable<ShoppingItem> Labels()
    {
        int labels = 2 * schedule.ToDo.Count();
        if (labels > 0) yield return new("Wire label", labels, Pieces, "the same text at both ends of each wire");
    }

    private static int Rails(Gap gap) => BitOperations.PopCount((uint)gap.Rails);

    private static int WithSpare(double needed) =>
        (int)Math.Ceiling(Math.Round(needed * (1 + ShoppingList.UsualSpare.DecimalFractions), 6));

    private static string Count(int count, string one) => Invariant($"{count} {one}{(count == 1 ? string.Empty : "s")}");

    private static string Names(IEnumerable<string> names) => string.Join(", ", names);
}
