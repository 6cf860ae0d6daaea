using System.Collections.Immutable;

namespace WireUp.Layouts.Reading;

/// <summary>The words of the format that stand for values, for reading and for writing.</summary>
internal static class Words
{
    public static ImmutableArray<(string Word, ControlSystem Value)> Control { get; } =
        [("command", ControlSystem.Command), ("direct", ControlSystem.Direct), ("three-rail", ControlSystem.ThreeRail)];

    public static ImmutableArray<(string Word, TurnoutHand Value)> Turnout { get; } =
        [("left", TurnoutHand.Left), ("right", TurnoutHand.Right), ("wye", TurnoutHand.Wye)];

    public static ImmutableArray<(string Word, FrogKind Value)> Frog { get; } =
        [("insulated", FrogKind.Insulated), ("isolated", FrogKind.Isolated), ("live", FrogKind.Live)];

    public static ImmutableArray<(string Word, FrogFeed Value)> FrogFeed { get; } =
        [("contact", Layouts.FrogFeed.Contact), ("none", Layouts.FrogFeed.None)];

    public static ImmutableArray<(string Word, JointKind Value)> Joint { get; } =
        [("joiner", JointKind.Joiner), ("soldered", JointKind.Soldered)];

    public static ImmutableArray<(string Word, SupplyClass Value)> SupplyClass { get; } =
        [("limited", Layouts.SupplyClass.Limited), ("other", Layouts.SupplyClass.Other)];

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
