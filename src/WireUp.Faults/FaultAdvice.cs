using WireUp.Layouts;

namespace WireUp.Faults;

/// <summary>What to do about a faulty part. Common practice, no published source.</summary>
/// <param name="What">What is wrong with it, a few words: <c>conducts badly</c>.</param>
/// <param name="Look">How to see or feel that it is this part.</param>
/// <param name="Mend">How it is mended.</param>
/// <param name="Beware">What to beware of.</param>
public sealed record FaultAdvice(string What, string Look, string Mend, string Beware)
{
    private const string Solder = "power off; a hot iron melts ties and plastic frogs: be quick, with damp pads beside the joint";

    private const string Under = "power off before you work below; hot solder drips: glasses on";

    private const string Supply = "work on the low-voltage side only; leave the mains side of a supply shut";

    /// <summary>The advice for a part in a state.</summary>
    /// <param name="kind">The kind of part.</param>
    /// <param name="state">Its state.</param>
    public static FaultAdvice Of(FaultElementKind kind, FaultState state) => kind switch
    {
        FaultElementKind.Joiner => new(InWords(state),
            "press the rails together or wiggle the joiner under load: the lamp flickers",
            "solder a short jumper across the joint, or clean and crimp the joiner; a feeder on each side does as well",
            Solder + "; do not solder every joint where rails must be free to move"),
        FaultElementKind.SolderedJoint => new(InWords(state),
            "look for a dull or cracked joint with a lens; bend the rail gently",
            "clean it, flux it, solder it again",
            Solder),
        FaultElementKind.Feeder when state == FaultState.Swapped => new(InWords(state),
            "trace both wires from bus to rail",
            "exchange its two wires at the bus, then check against the rail beside it",
            Under),
        FaultElementKind.Feeder => new(InWords(state),
            "tug the wire at the rail; look for a cold joint on the rail's foot",
            "solder it to the rail again, or lay a new feeder beside it",
            Solder),
        FaultElementKind.Tap => new(InWords(state),
            "tug the feeder at the bus; a squeezed connector may have cut only the insulation",
            "strip, twist and solder the tap, or screw it into a terminal strip",
            Under),
        FaultElementKind.BusWire => new(InWords(state),
            "feel plugs and terminals for warmth after a minute of load, then tug each wire",
            "tighten or remake terminals and plugs of this run, with ferrules on stranded wire; else replace the run",
            Under + "; a loose terminal under load can burn"),
        FaultElementKind.Breaker => new(InWords(state),
            "read volts on both sides of it under load",
            "tighten its terminals; replace it where volts are lost inside",
            "never bridge a breaker to run on; " + Supply),
        FaultElementKind.Booster when state == FaultState.Weak => new(InWords(state),
            "read its own terminals with a known load",
            "check its setting, its low-voltage supply and leads; have it serviced",
            Supply),
        FaultElementKind.Booster => new(InWords(state),
            "read its own terminals, then the far ends of its leads, under load",
            "tighten or replace output plug and leads",
            Supply),
        FaultElementKind.Blade => new(InWords(state),
            "hold the blade against the stock rail with a wooden stick",
            "clean the touching faces, adjust the throw, or feed the closure rail by a wire so that the blade need not carry current",
            "power off; take the drive off load before bending anything"),
        FaultElementKind.FrogContact when state == FaultState.Reversed => new(InWords(state),
            "with the power off, ohms from the frog to each stock rail in both positions",
            "exchange the two wires of the contact that come from the rails",
            Under),
        FaultElementKind.FrogContact => new(InWords(state),
            "ohms from the frog to the rail it should follow, power off, both positions",
            "clean or replace the contact; check that the drive throws it all the way; remake the frog wire",
            Under),
        FaultElementKind.SwitchContact => new(InWords(state),
            "throw the switch a dozen times under load; ohms across it, power off",
            "clean or replace it; remake its joints",
            Under),
        FaultElementKind.Gap or FaultElementKind.InsulatedJoint => new(InWords(state),
            "feel with a slip of paper or a 0.3 mm feeler; look for metal dust and carbon",
            "cut it open and fill it with glued plastic, shaped to the rail",
            "power off; glasses on when a cutting disc is used; rails grow in summer and close cuts that are not filled"),
        FaultElementKind.Section => new(InWords(state),
            "look for tools, tie tacks, coupler springs, foil whiskers, ballast with metal in it",
            "take it away; where nothing is seen, open feeders one by one until the short goes",
            "find it with a supply limited to 1 A: a booster can heat a short until it glows"),
        FaultElementKind.Turnout => new(InWords(state),
            "throw it by hand with a buzzer from stock rail to stock rail; look at the cuts round the frog",
            "open and fill the cut; move the spike; check back-to-back of wheels that trip it",
            "find it with a supply limited to 1 A"),
        FaultElementKind.BusPoint => new(InWords(state),
            "look for a staple through the pair, a strand across terminals",
            "part the wires and insulate them",
            Under + "; find it with a supply limited to 1 A"),
        _ => throw new ArgumentOutOfRangeException(nameof(kind), kind, "not a kind of part"),
    };

    private static string InWords(FaultState state) => state switch
    {
        FaultState.Open => "open: conducts no longer",
        FaultState.HighResistance => "conducts badly",
        FaultState.Bridged => "closed: conducts where it must not",
        FaultState.Leaking => "leaks",
        FaultState.Swapped => "its two wires are exchanged",
        FaultState.Reversed => "closes in the wrong position",
        FaultState.NotTouching => "does not touch",
        FaultState.Weak => "gives too few volts",
        FaultState.Short => "short from rail to rail or wire to wire",
        _ => throw new ArgumentOutOfRangeException(nameof(state), state, "not a state"),
    };
}
