using System.Collections.Immutable;

namespace WireUp.Layouts.Reading;

/// <summary>Every mapping of the readings file with its keys; the handbook's page and the JSON Schema are held to it.</summary>
internal static class ReadingKeys
{
    /// <summary>Keys that any reading may have.</summary>
    private static readonly ImmutableArray<string> Common = ["turnouts", "switches", "supply", "note"];

    public static KeySet Root { get; } = new("the readings file",
        "wireup", "layout", "date", "meter", "tools", "load-box", "turnouts", "switches", "supply", "readings");

    public static KeySet Meter { get; } = new("the meter", "volts", "ohms", "amps");

    public static KeySet Supply { get; } = new("a limited supply", "booster", "volts", "amps");

    public static KeySet Load { get; } = new("a load", "at", "amps", "ohms");

    public static KeySet Volts { get; } = Kind("a reading of volts", "volts", "at", "load");

    public static KeySet VoltsAlong { get; } = Kind("a reading of volts along the way", "volts-along", "from", "to", "load");

    public static KeySet Ohms { get; } = Kind("a reading of ohms", "ohms", "from", "to", "power");

    public static KeySet Continuity { get; } = Kind("a reading of continuity", "continuity", "from", "to", "power");

    public static KeySet Amps { get; } = Kind("a reading of amperes", "amps", "in", "load");

    public static KeySet Runs { get; } = Kind("a trial with a locomotive", "runs", "at", "locomotive");

    public static KeySet Breaker { get; } = Kind("a trial of a breaker", "breaker", "district");

    public static KeySet Pressed { get; } = Kind("a trial by pressing", "pressed", "worked");

    /// <summary>The kinds of reading; the first key of each says which it is.</summary>
    public static ImmutableArray<KeySet> Kinds { get; } = [Volts, VoltsAlong, Ohms, Continuity, Amps, Runs, Breaker, Pressed];

    /// <summary>A reading of which it is not known yet what kind it is.</summary>
    public static KeySet Any { get; } = new("a reading", [.. Kinds.SelectMany(kind => kind.Keys).Distinct()]);

    /// <summary>All of them.</summary>
    public static ImmutableArray<KeySet> All { get; } = [Root, Meter, Supply, Load, .. Kinds];

    private static KeySet Kind(string what, params ImmutableArray<string> keys) => new(what, [.. keys, .. Common]);
}
