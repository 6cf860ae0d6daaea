namespace WireUp.Layouts;

/// <summary>What can fail: the kinds of parts that a fault is looked for in.</summary>
public enum FaultElementKind
{
    /// <summary>One rail through a slide-on joiner.</summary>
    Joiner,

    /// <summary>One rail through a soldered joint.</summary>
    SolderedJoint,

    /// <summary>One leg of a feeder beyond its tap: its wire and its joint with the rail.</summary>
    Feeder,

    /// <summary>Where one leg of a feeder taps the bus.</summary>
    Tap,

    /// <summary>One wire of a run of bus with its terminals and connectors.</summary>
    BusWire,

    /// <summary>The breaker of a district with its connections.</summary>
    Breaker,

    /// <summary>A booster with its supply and its output leads.</summary>
    Booster,

    /// <summary>A point blade where it meets the stock rail, or a rail that moves.</summary>
    Blade,

    /// <summary>The contact of a frog with its wire.</summary>
    FrogContact,

    /// <summary>The contact of a hand switch, or one that a turnout works for a gap or feeder.</summary>
    SwitchContact,

    /// <summary>A gap cut into one rail.</summary>
    Gap,

    /// <summary>An insulated joiner in one rail.</summary>
    InsulatedJoint,

    /// <summary>The two rails of a section, which something can join.</summary>
    Section,

    /// <summary>The conductors inside a turnout or crossing that must be apart.</summary>
    Turnout,

    /// <summary>The two wires of a bus at one of its points.</summary>
    BusPoint,
}

/// <summary>How a part fails.</summary>
public enum FaultState
{
    /// <summary>It conducts no longer.</summary>
    Open,

    /// <summary>It conducts badly.</summary>
    HighResistance,

    /// <summary>A gap or insulated joiner that conducts.</summary>
    Bridged,

    /// <summary>A gap or insulated joiner that conducts a little: damp, carbon, metal dust.</summary>
    Leaking,

    /// <summary>A feeder with its legs on the wrong rails.</summary>
    Swapped,

    /// <summary>A contact that closes in the wrong position.</summary>
    Reversed,

    /// <summary>A blade that does not touch its stock rail.</summary>
    NotTouching,

    /// <summary>A booster that gives too few volts.</summary>
    Weak,

    /// <summary>Two conductors that touch which must be apart.</summary>
    Short,
}

/// <summary>Words of <see cref="FaultElementKind"/> and <see cref="FaultState"/>, as layout and readings files write them.</summary>
public static class FaultWords
{
    /// <summary>The word of a kind of part: <c>joiner</c>, <c>bus-wire</c>, …</summary>
    public static string Word(this FaultElementKind kind) => Hyphenated(kind.ToString());

    /// <summary>The word of a state: <c>open</c>, <c>high-resistance</c>, …</summary>
    public static string Word(this FaultState state) => Hyphenated(state.ToString());

    /// <summary>The kind of that word, or null.</summary>
    public static FaultElementKind? Kind(string word) =>
        Enum.GetValues<FaultElementKind>().Where(kind => kind.Word() == word).Select(kind => (FaultElementKind?)kind).FirstOrDefault();

    /// <summary>The state of that word, or null.</summary>
    public static FaultState? State(string word) =>
        Enum.GetValues<FaultState>().Where(state => state.Word() == word).Select(state => (FaultState?)state).FirstOrDefault();

    private static string Hyphenated(string name) =>
        string.Concat(name.Select((letter, i) => char.IsUpper(letter) ? (i > 0 ? "-" : "") + char.ToLowerInvariant(letter) : letter.ToString()));
}
