namespace WireUp.Layouts;

/// <summary>Which way the diverging leg leaves, seen from the points towards the frog.</summary>
public enum TurnoutHand
{
    /// <summary>To the left.</summary>
    Left,

    /// <summary>To the right.</summary>
    Right,

    /// <summary>Both legs diverge.</summary>
    Wye,
}

/// <summary>How a frog carries current.</summary>
public enum FrogKind
{
    /// <summary>The frog carries none; the rails beyond it are bonded to the stock rail of their own polarity.</summary>
    Insulated,

    /// <summary>Metal, electrically alone; fed by a contact or not at all.</summary>
    Isolated,

    /// <summary>Blades, closure rails, frog and the rails beyond are one conductor, fed through the blades.</summary>
    Live,
}

/// <summary>Who feeds an isolated frog.</summary>
public enum FrogFeed
{
    /// <summary>Nobody: a dead length.</summary>
    None,

    /// <summary>A changeover contact that moves with the points.</summary>
    Contact,

    /// <summary>An electronic changeover that turns the frog when the first wheel finds it wrong.</summary>
    Sensor,
}

/// <summary>What drives the contacts of a slip's frogs.</summary>
public enum SlipDrive
{
    /// <summary>The points motor at the other end from the frog, as is right.</summary>
    OtherEnd,

    /// <summary>The points motor at the frog's own end, a common mistake.</summary>
    OwnEnd,

    /// <summary>The route that is set, by a further contact or a selector.</summary>
    Route,
}

/// <summary>How the rails of a moving bridge get current.</summary>
public enum BridgeFeed
{
    /// <summary>By wires or slip rings of its own; feeders may be soldered to its places.</summary>
    Wires,

    /// <summary>By a ring split in two halves, so that the rails change legs as it turns; feeders at its places reach the ring.</summary>
    SplitRing,

    /// <summary>By wipers from the rails of the road it stands at.</summary>
    Roads,
}

/// <summary>Parts of a hand-laid turnout on copper-clad ties; the foil must be cut in each.</summary>
[Flags]
public enum TieZones
{
    /// <summary>None.</summary>
    None = 0,

    /// <summary>Under the blades: stock rail from stock rail, and tie bar.</summary>
    Switch = 1,

    /// <summary>Between blades and frog.</summary>
    Closure = 2,

    /// <summary>At the frog, from the left stock rail, seen from the points.</summary>
    FrogLeft = 4,

    /// <summary>At the frog, from the right stock rail, seen from the points.</summary>
    FrogRight = 8,

    /// <summary>Beyond the frog: the rails of the legs from each other.</summary>
    Beyond = 16,
}
