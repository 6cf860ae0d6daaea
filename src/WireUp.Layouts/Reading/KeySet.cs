using System.Collections.Immutable;

namespace WireUp.Layouts.Reading;

/// <summary>The keys of one kind of mapping.</summary>
/// <param name="What">The kind, in words with its article: <c>a section</c>.</param>
/// <param name="Keys">Its keys.</param>
/// <param name="Elsewhere">Keys of another file that somebody might look for here, with where they belong.</param>
internal sealed record KeySet(string What, ImmutableArray<string> Keys, ImmutableArray<(string Key, string Where)> Elsewhere)
{
    public KeySet(string what, params ImmutableArray<string> keys)
        : this(what, keys, [])
    {
    }

    public bool Holds(string key) => Keys.Contains(key);

    public string? BelongsIn(string key) => Elsewhere.FirstOrDefault(other => other.Key == key).Where;
}

/// <summary>
/// Every mapping of the format with its keys: the one list that the reader, the handbook's page and the JSON Schema are held to.
/// </summary>
internal static class FormatKeys
{
    public static KeySet Root { get; } = new("the layout file",
        ["wireup", "name", "scale", "control", "units", "lengths", "wire-sizes", "longest-train", "shortest-pickup", "max-drop", "max-feeder-distance", "defaults",
         "track", "joined", "joints", "wiring", "stock", "districts-wanted", "wishes", "spots", "benchwork", "fault-priors", "papers", "picture"],
        [.. new[] { "readings", "layout", "meter" }.Select(key => (key, "a readings file of its own, for the command \"diagnose\""))]);

    public static KeySet Defaults { get; } = new("the defaults", "rail", "joint", "resistance", "temperature", "frog", "frog-wire");

    public static KeySet DefaultResistance { get; } = new("the default resistances", "joiner", "soldered", "tap", "contact", "connector", "coin");

    public static KeySet Rail { get; } = new("a rail", "code", "alloy", "ohms-per-metre");

    public static KeySet Section { get; } = new("a section", "length", "rail", "lift-out", "path");

    public static KeySet Stop { get; } = new("a stop", "stop");

    public static KeySet Turnout { get; } = new("a turnout",
        "turnout", "curved", "stub", "frog", "frog-feed", "contact", "power-routing", "heel", "ties", "uncut", "number", "length", "dead-length");

    public static KeySet MultiTurnout { get; } = new("a turnout of three legs or more",
        "turnout", "legs", "frog", "frog-feed", "power-routing", "length", "dead-length");

    public static KeySet Crossing { get; } = new("a crossing", "crossing", "frog", "frog-feed", "phase", "length", "dead-length");

    public static KeySet Slip { get; } = new("a slip", "slip", "angle", "frog", "frog-feed", "frog-drive", "length", "dead-length");

    public static KeySet Scissors { get; } = new("a scissors crossover", "scissors", "frog", "frog-feed", "length", "dead-length");

    public static KeySet Turntable { get; } = new("a turntable", "turntable", "length", "feed", "split-after");

    public static KeySet TransferTable { get; } = new("a transfer table", "transfer-table", "length", "feed");

    public static KeySet Joint { get; } = new("a joint", "kind", "insulated", "rails", "resistance");

    public static KeySet Wiring { get; } = new("the wiring", "supplies", "boosters", "districts", "bus", "switches", "feeders", "gaps");

    public static KeySet Supply { get; } = new("a supply", "output", "rating", "class");

    public static KeySet Booster { get; } = new("a booster", "supply", "volts", "amps", "delay", "resistance", "isolated", "phase", "at", "beside");

    public static KeySet District { get; } = new("a district", "booster", "trip", "delay", "curve", "reclose", "resistance", "use", "reversing");

    public static KeySet Bus { get; } = new("a bus", "wire", "spacing", "runs");

    public static KeySet Feeder { get; } = new("a feeder", "at", "bus", "district", "wire", "length", "swap", "when");

    public static KeySet Gap { get; } = new("a gap", "at", "rails", "bridged-when");

    public static KeySet Stock { get; } = new("the stock", "locomotives", "trains", "moving-at-once");

    public static KeySet Locomotive { get; } = new("a locomotive", "running", "stopped", "starting", "stalled", "draws", "stay-alive", "charging", "pickup", "count");

    public static KeySet Train { get; } = new("a train", "locomotives", "lit-cars", "lit-car-current", "length");

    public static KeySet Spots { get; } = new("the spots", "no-feeder", "no-gap", "stops");

    public static KeySet Wishes { get; } = new("the wishes", "apart", "way-round", "accessories", "blocks");

    public static KeySet Blocks { get; } = new("the blocks", "track", "length", "rails");

    public static KeySet Benchwork { get; } = new("the benchwork", "boards", "corridors", "out-of-reach");

    public static KeySet Corridor { get; } = new("a corridor", "path", "closed");

    public static KeySet Picture { get; } = new("the picture", "file", "width", "at", "turn");

    public static KeySet FaultPriors { get; } = new("the fault priors", "age", "chances");

    public static KeySet Papers { get; } = new("the papers", "leg-a", "leg-b", "frog", "leg-a-name", "leg-b-name", "letters", "work-sheet");

    /// <summary>Whether a key belongs to pieces of some kind.</summary>
    public static bool IsOfSomePiece(string key) =>
        new[] { Section, Stop, Turnout, MultiTurnout, Crossing, Slip, Scissors, Turntable, TransferTable }.Any(keys => keys.Holds(key));

    /// <summary>All of them.</summary>
    public static ImmutableArray<KeySet> All { get; } =
    [
        Root, Defaults, DefaultResistance, Rail, Section, Stop, Turnout, MultiTurnout, Crossing, Slip,
        Scissors, Turntable, TransferTable, Joint, Wiring, Supply, Booster, District, Bus, Feeder,
        Gap, Stock, Locomotive, Train, Spots, Wishes, Blocks, Benchwork, Corridor, FaultPriors, Papers, Picture,
    ];
}
