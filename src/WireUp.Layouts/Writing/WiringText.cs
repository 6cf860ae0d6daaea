using System.Collections.Immutable;
using UnitsNet;
using WireUp.Layouts.Quantities;
using WireUp.Layouts.Reading;
using WireUp.Layouts.Reference;

namespace WireUp.Layouts.Writing;

/// <summary>Writes the parts of a <see cref="Wiring"/> as the layout file has them. Two parts are the same when their texts are.</summary>
internal sealed class WiringText(ControlSystem control)
{
    public static Snippet.Map Of(Supply supply) => Snippet.Of(
        ("output", $"{Volts(supply.Output)} {(supply.Alternating ? "ac" : "dc")}"),
        ("rating", $"{Numbers.Exact((double)supply.Rating.Watts)} {(supply.Alternating ? "VA" : "W")}"),
        ("class", Words.Of(Words.SupplyClass, supply.Class)));

    public static Snippet.Map Of(Booster booster) => Snippet.Of(
        ("supply", booster.Supply is { } supply ? ScalarText.Write(supply) : null),
        ("volts", Volts(booster.Volts)),
        ("amps", Amps(booster.Amps)),
        ("delay", booster.Delay.Seconds == DeviceTable.BoosterDelay.Seconds ? null : Seconds(booster.Delay)),
        ("resistance", Ohms(booster.Resistance)),
        ("isolated", booster.Isolated ? null : "false"),
        ("phase", booster.PhaseTurned ? Words.Of(Words.BoosterPhase, true) : null),
        ("at", booster.At is { } at ? $"[{LengthText.Write(at.X)}, {LengthText.Write(at.Y)}]" : null),
        ("beside", booster.Beside is { } place ? Place(place) : null));

    public static Snippet.Map Of(District district) => Snippet.Of(
        ("booster", ScalarText.Write(district.Booster)),
        ("trip", Amps(district.Trip)),
        ("delay", district.Delay.Seconds == DeviceTable.BreakerDelay.Seconds ? null : Seconds(district.Delay)),
        ("curve", district.Curve.IsEmpty ? null : $"[{string.Join(", ", district.Curve.Select(point => $"{Amps(point.Current)} {Seconds(point.Time)}"))}]"),
        ("reclose", district.Reclose.Seconds == DeviceTable.BreakerReclose.Seconds ? null : Seconds(district.Reclose)),
        ("resistance", Ohms(district.Resistance)),
        ("use", district.Use == DistrictUse.Running ? null : Words.Of(Words.DistrictUse, district.Use)),
        ("reversing", district.Reversing ? "true" : null));

    /// <summary>A bus; the wire of most of its runs is named once.</summary>
    public static Snippet.Map Of(Bus bus)
    {
        Wire? usual = bus.Runs.GroupBy(run => run.Wire).OrderByDescending(group => group.Count()).FirstOrDefault()?.Key;
        ImmutableArray<(string, Snippet)> wire = usual is null ? [] : [("wire", new Snippet.Leaf(usual.ToString()!))];
        ImmutableArray<(string, Snippet)> spacing = bus.Spacing is { } apart ? [("spacing", new Snippet.Leaf(LengthText.Write(apart)))] : [];
        return new([.. wire, .. spacing, ("runs", new Snippet.List([.. bus.Runs.Select(run => Run(run, usual))]))]);
    }

    /// <summary>A run; its wire is named where it is not that of the bus.</summary>
    public static string Run(BusRun run, Wire? busWire)
    {
        string text = $"{run.From} > {run.To} {LengthText.Write(run.Length)}";
        string wire = run.Wire == busWire ? "" : $" {run.Wire}";
        string connectors = run.Connectors switch
        {
            0 => "",
            1 => " 1 connector",
            int count => $" {Numbers.Exact(count)} connectors",
        };
        return text + wire + connectors;
    }

    /// <summary>A feeder; its district is named where its point cannot tell it, at a booster's own terminals.</summary>
    public static Snippet.Map Of(Feeder feeder, ImmutableArray<Booster> boosters) => Snippet.Of(
        ("at", Place(feeder.At)),
        ("bus", ScalarText.Write(feeder.Tap)),
        ("district", boosters.Any(booster => booster.Name == feeder.Tap) ? ScalarText.Write(feeder.District) : null),
        ("wire", feeder.Wire.ToString()),
        ("length", LengthText.Write(feeder.Length)),
        ("swap", feeder.Swap ? "true" : null),
        ("when", feeder.When is { } when ? ScalarText.Write(when.ToString()) : null));

    public static Snippet.Leaf Of(Switch hand) => new($"[{string.Join(", ", hand.Positions.Select(ScalarText.Write))}]");

    public string Of(Gap gap)
    {
        string at = gap.At switch
        {
            GapPlace.InSection within => Place(within.Place),
            GapPlace.InJoint joint => ScalarText.Write(joint.End.ToString()),
            _ => throw new ArgumentOutOfRangeException(nameof(gap), gap, "not a place of a gap"),
        };
        string bridged = gap.BridgedWhen is { } when ? $", bridged-when: {ScalarText.Write(when.ToString())}" : "";
        return $"{{ at: {at}, rails: {Words.Of(Words.Rails(control), gap.Rails)}{bridged} }}";
    }

    public static string Place(TrackPlace place) => $"{place.Section}@{LengthText.Write(place.MetresFromA)}";

    public static string Volts(ElectricPotential volts) => $"{Numbers.Exact(volts.Volts)} V";

    public static string Amps(ElectricCurrent amps) => $"{Numbers.Exact(amps.Amperes)} A";

    public static string Seconds(Duration time)
    {
        double seconds = time.Seconds;
        return seconds < 1 && Thousandths.Of(seconds) is { } text ? $"{text} ms" : $"{Numbers.Exact(seconds)} s";
    }

    public static string Ohms(ElectricResistance resistance)
    {
        double ohms = resistance.Ohms;
        return ohms < 1 && Thousandths.Of(ohms) is { } text ? $"{text} mohm" : $"{Numbers.Exact(ohms)} ohm";
    }

    /// <summary>The whole wiring, as the value of the key <c>wiring</c>.</summary>
    public Snippet.Map Whole(Wiring wiring)
    {
        List<(string Key, Snippet Value)> parts = [];
        Add(parts, "supplies", wiring.Supplies.Select(supply => (supply.Name, (Snippet)Of(supply))));
        Add(parts, "boosters", wiring.Boosters.Select(booster => (booster.Name, (Snippet)Of(booster))));
        Add(parts, "districts", wiring.Districts.Select(district => (district.Name, (Snippet)Of(district))));
        Add(parts, "bus", wiring.Buses.Select(bus => (bus.District, (Snippet)Of(bus))));
        Add(parts, "switches", wiring.Switches.Select(hand => (hand.Name.Name, (Snippet)Of(hand))));
        Add(parts, "feeders", wiring.Feeders.Select(feeder => (feeder.Name, (Snippet)Of(feeder, wiring.Boosters))));
        if (!wiring.Gaps.IsEmpty)
        {
            parts.Add(("gaps", new Snippet.List([.. wiring.Gaps.Select(Of)])));
        }

        return new([.. parts]);
    }

    private static void Add(List<(string Key, Snippet Value)> parts, string key, IEnumerable<(string Name, Snippet Value)> things)
    {
        ImmutableArray<(string, Snippet)> entries = [.. things.Select(thing => (ScalarText.Write(thing.Name), thing.Value))];
        if (!entries.IsEmpty)
        {
            parts.Add((key, new Snippet.Map(entries)));
        }
    }
}
