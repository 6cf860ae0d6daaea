using System.Collections.Immutable;
using static WireUp.Layouts.ProblemSeverity;

namespace WireUp.Layouts;

/// <summary>Every kind of problem the reader of layout files reports, one row a code.</summary>
public static class LayoutRules
{
    /// <summary>The text is not YAML.</summary>
    public static LayoutRule NotYaml { get; } = new("WU1001", Error, "The text is not YAML",
        "Mend the indentation, bracket or quote at this place.");

    /// <summary>A limit that protects against hostile files is passed.</summary>
    public static LayoutRule LimitPassed { get; } = new("WU1002", Error, "A limit of the format is passed",
        "Make the file smaller or flatter; the limits are listed in the handbook.");

    /// <summary>A feature of YAML that layout files do not use.</summary>
    public static LayoutRule YamlFeature { get; } = new("WU1003", Error, "A feature of YAML that layout files do not use",
        "Write the value out in full.");

    /// <summary>A key is written twice in one mapping.</summary>
    public static LayoutRule KeyTwice { get; } = new("WU1004", Error, "A key or name is written twice",
        "Remove one of the two, or rename it.");

    /// <summary>A value has another shape than its key asks for.</summary>
    public static LayoutRule WrongShape { get; } = new("WU1005", Error, "A value of another shape is expected",
        "Write the value in the shape that is named.");

    /// <summary>A key that its mapping does not have.</summary>
    public static LayoutRule UnknownKey { get; } = new("WU1006", Error, "Unknown key",
        "Correct the spelling, or begin the key with \"x-\" if it is your own.");

    /// <summary>A key that must be there is not.</summary>
    public static LayoutRule MissingKey { get; } = new("WU1007", Error, "A key is missing",
        "Add the key.");

    /// <summary>The file is of another version of the format.</summary>
    public static LayoutRule WrongVersion { get; } = new("WU1008", Error, "Another version of the format",
        "Use a version of the program that knows this format.");

    /// <summary>A word that is not one of those allowed.</summary>
    public static LayoutRule UnknownWord { get; } = new("WU1010", Error, "Unknown word",
        "Use one of the words listed.");

    /// <summary>Text that is no number or quantity.</summary>
    public static LayoutRule NotQuantity { get; } = new("WU1011", Error, "Not a number or quantity",
        "Write a number with a decimal point, then the unit.");

    /// <summary>A quantity with a missing unit or one of another kind.</summary>
    public static LayoutRule WrongUnit { get; } = new("WU1012", Error, "Missing or wrong unit",
        "Write the number with one of the units listed.");

    /// <summary>A number outside its range.</summary>
    public static LayoutRule OutOfRange { get; } = new("WU1013", Error, "Number out of range",
        "Check the decimal point and the unit.");

    /// <summary>A name with characters it must not have.</summary>
    public static LayoutRule BadName { get; } = new("WU1014", Error, "Not a name",
        "Use letters, digits, hyphens and underscores.");

    /// <summary>A name that stands for two things.</summary>
    public static LayoutRule NameTwice { get; } = new("WU1015", Error, "A name stands for two things",
        "Rename one of the two.");

    /// <summary>A name that nothing has.</summary>
    public static LayoutRule UnknownName { get; } = new("WU1016", Error, "Unknown name",
        "Correct the spelling, or describe the thing.");

    /// <summary>An end that its piece does not have.</summary>
    public static LayoutRule UnknownEnd { get; } = new("WU1017", Error, "Unknown end",
        "Use one of the ends the piece has.");

    /// <summary>A chain that does not say which ends meet.</summary>
    public static LayoutRule UnclearChain { get; } = new("WU1018", Error, "The chain does not say which ends meet",
        "Break the chain at this piece and name the end at the tip of each part.");

    /// <summary>An end that is joined twice.</summary>
    public static LayoutRule EndJoinedTwice { get; } = new("WU1019", Error, "An end is joined twice",
        "An end meets one other end: take one of the two joints out.");

    /// <summary>A place that is not on its section or bridge.</summary>
    public static LayoutRule PlaceOutside { get; } = new("WU1020", Error, "A place that is not on its section or bridge",
        "Give a distance from 0 to its length.");

    /// <summary>Something is said about the joint of an end that is open.</summary>
    public static LayoutRule OpenEnd { get; } = new("WU1021", Error, "There is no joint at this end",
        "Join the end under \"joined\", or take this line out.");

    /// <summary>A joint or gap is described twice.</summary>
    public static LayoutRule DescribedTwice { get; } = new("WU1022", Error, "Described twice",
        "Keep one of the two descriptions.");

    /// <summary>Keys that contradict each other.</summary>
    public static LayoutRule Contradiction { get; } = new("WU1023", Error, "Two statements that contradict each other",
        "Keep the one that is true.");

    /// <summary>A bus point that no run leads to from the booster.</summary>
    public static LayoutRule BusNotConnected { get; } = new("WU1024", Error, "A bus point is not connected to its booster",
        "Add the run that leads there, beginning at the booster's name.");

    /// <summary>A bus that closes a ring.</summary>
    public static LayoutRule BusRing { get; } = new("WU1025", Warning, "A bus closes a ring",
        "Leave out the run farthest from the booster, unless the ring is there on purpose.");

    /// <summary>A train longer than the longest train.</summary>
    public static LayoutRule TrainTooLong { get; } = new("WU1026", Warning, "A train is longer than \"longest-train\"",
        "Raise \"longest-train\": reversing sections are sized by it.");

    /// <summary>More problems than are worth listing.</summary>
    public static LayoutRule TooManyProblems { get; } = new("WU1027", Error, "More problems than are listed",
        "Mend those above first.");

    /// <summary>A position that its switch or piece does not have.</summary>
    public static LayoutRule UnknownPosition { get; } = new("WU1028", Error, "Unknown position",
        "Use one of the positions that the switch or piece has.");

    /// <summary>A corridor that does not hang together with the others.</summary>
    public static LayoutRule CorridorApart { get; } = new("WU1029", Error, "A corridor apart from the others",
        "Let it cross or touch another corridor within reach, or describe the corridor between them.");

    /// <summary>All of them, in order of code.</summary>
    public static ImmutableArray<LayoutRule> All { get; } =
    [
        NotYaml, LimitPassed, YamlFeature, KeyTwice, WrongShape, UnknownKey, MissingKey, WrongVersion, UnknownWord,
        NotQuantity, WrongUnit, OutOfRange, BadName, NameTwice, UnknownName, UnknownEnd, UnclearChain, EndJoinedTwice, PlaceOutside,
        OpenEnd, DescribedTwice, Contradiction, BusNotConnected, BusRing, TrainTooLong, TooManyProblems, UnknownPosition,
        CorridorApart,
    ];
}
