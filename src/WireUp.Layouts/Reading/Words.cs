using System.Collections.Immutable;

namespace WireUp.Layouts.Reading;

/// <summary>The words of the format that stand for values, for reading and for writing.</summary>
internal static class Words
{
    public static ImmutableArray<(string Word, ControlSystem Value)> Control { get; } =
        [("command", ControlSystem.Command), ("direct", ControlSystem.Direct), ("three-rail", ControlSystem.ThreeRail)];

    public static ImmutableArray<(string Word, TurnoutHand Value)> Turnout { get; } =
        [("left", TurnoutHand.Left), ("right", TurnoutHand.Right), ("wye", TurnoutHand.Wye)];

    /// <summary>All words behind the key <c>turnout</c>.</summary>
    public static ImmutableArray<(string Word, TurnoutShape Value)> Turnouts { get; } =
    [
        .. Turnout.Select(row => (row.Word, new TurnoutShape(row.Value, 2))),
        ("three-way", new TurnoutShape(null, 3)),
        ("multi", new TurnoutShape(null, null)),
    ];

    public static ImmutableArray<(string Word, bool Value)> Heel { get; } = [("frog", true), ("stock-rails", false)];

    public static ImmutableArray<(string Word, bool Value)> Contact { get; } = [("centred", false), ("early", true)];

    public static ImmutableArray<(string Word, bool Value)> Ties { get; } = [("insulating", false), ("copper-clad", true)];

    public static ImmutableArray<(string Word, TieZones Value)> TieZones { get; } =
    [
        ("switch", Layouts.TieZones.Switch), ("closure", Layouts.TieZones.Closure), ("frog-left", Layouts.TieZones.FrogLeft),
        ("frog-right", Layouts.TieZones.FrogRight), ("beyond", Layouts.TieZones.Beyond),
    ];

    public static ImmutableArray<(string Word, bool Value)> Slip { get; } = [("single", false), ("double", true)];

    public static ImmutableArray<(string Word, SlipDrive Value)> SlipDrive { get; } =
        [("other-end", Layouts.SlipDrive.OtherEnd), ("own-end", Layouts.SlipDrive.OwnEnd), ("route", Layouts.SlipDrive.Route)];

    /// <summary>Whether the tracks of a crossing have opposite phase.</summary>
    public static ImmutableArray<(string Word, bool Value)> CrossingPhase { get; } = [("same", false), ("opposite", true)];

    public static ImmutableArray<(string Word, BridgeFeed Value)> BridgeFeed { get; } =
        [("wires", Layouts.BridgeFeed.Wires), ("split-ring", Layouts.BridgeFeed.SplitRing), ("roads", Layouts.BridgeFeed.Roads)];

    /// <summary>Whether a booster's output is turned against the others.</summary>
    public static ImmutableArray<(string Word, bool Value)> BoosterPhase { get; } = [("same", false), ("turned", true)];

    public static ImmutableArray<(string Word, DistrictUse Value)> DistrictUse { get; } =
        [("running", Layouts.DistrictUse.Running), ("programming", Layouts.DistrictUse.Programming), ("accessories", Layouts.DistrictUse.Accessories)];

    public static ImmutableArray<(string Word, LoadKind Value)> LoadKind { get; } =
        [("current", Layouts.LoadKind.Current), ("power", Layouts.LoadKind.Power), ("resistance", Layouts.LoadKind.Resistance)];

    public static ImmutableArray<(string Word, FrogKind Value)> Frog { get; } =
        [("insulated", FrogKind.Insulated), ("isolated", FrogKind.Isolated), ("live", FrogKind.Live)];

    public static ImmutableArray<(string Word, FrogFeed Value)> FrogFeed { get; } =
        [("contact", Layouts.FrogFeed.Contact), ("sensor", Layouts.FrogFeed.Sensor), ("none", Layouts.FrogFeed.None)];

    public static ImmutableArray<(string Word, JointKind Value)> Joint { get; } =
        [("joiner", JointKind.Joiner), ("soldered", JointKind.Soldered)];

    public static ImmutableArray<(string Word, SupplyClass Value)> SupplyClass { get; } =
        [("limited", Layouts.SupplyClass.Limited), ("other", Layouts.SupplyClass.Other)];

    /// <summary>How a locomotive runs at a place.</summary>
    public static ImmutableArray<(string Word, RunningState Value)> Running { get; } =
        [("runs", RunningState.Runs), ("slows", RunningState.Slows), ("stops", RunningState.Stops), ("dead", RunningState.Dead)];

    /// <summary>What there is to measure with.</summary>
    public static ImmutableArray<(string Word, ReadingTools Value)> Tools { get; } =
    [
        ("volts", ReadingTools.Volts), ("ohms", ReadingTools.Ohms), ("load", ReadingTools.Load), ("clamp", ReadingTools.Clamp),
        ("supply", ReadingTools.Supply),
    ];

    public static ImmutableArray<(string Word, LengthStyle Value)> Lengths { get; } = [("metric", LengthStyle.Metric), ("feet", LengthStyle.Feet)];

    public static ImmutableArray<(string Word, WireSystem Value)> WireSizes { get; } = [("metric", WireSystem.Metric), ("awg", WireSystem.Awg)];

    public static ImmutableArray<string> Units { get; } = ["mm", "cm", "m", "in", "ft"];

    private static ImmutableArray<(string Word, RailSet Value)> TwoRails { get; } =
        [("left", RailSet.Left), ("right", RailSet.Right), ("both", RailSet.Both)];

    private static ImmutableArray<(string Word, RailSet Value)> ThreeRails { get; } =
        [("centre", RailSet.Left), ("running", RailSet.Right), ("both", RailSet.Both)];

    /// <summary>The conductors of the track; three-rail track has other words for them.</summary>
    public static ImmutableArray<(string Word, RailSet Value)> Rails(ControlSystem control) =>
        control == ControlSystem.ThreeRail ? ThreeRails : TwoRails;

    /// <summary>The word that stands for a value.</summary>
    public static string Of<T>(ImmutableArray<(string Word, T Value)> words, T value)
        where T : struct =>
        words.First(pair => EqualityComparer<T>.Default.Equals(pair.Value, value)).Word;
}

/// <summary>What a word behind the key <c>turnout</c> means.</summary>
/// <param name="Hand">Of a turnout of two legs: the way it diverges.</param>
/// <param name="Legs">How many legs it has, or null when the key <c>legs</c> says so.</param>
internal readonly record struct TurnoutShape(TurnoutHand? Hand, int? Legs);
