using System.Collections.Frozen;

namespace WireUp.Layouts.Reading;

/// <summary>
/// Words that people say for the words of the format. They are not read, so that a file means the same to everybody; but a message
/// can name the right one.
/// </summary>
internal static class TradeWords
{
    /// <summary>Each word of the format with what is said for it. A word may be said for several.</summary>
    private static readonly (string Right, string Said)[] Rows =
    [
        ("length", "straight curve track rail-length bridge bridge-length long"),
        ("turnout", "switch points point"),
        ("crossing", "diamond cross"),
        ("slip", "single-slip double-slip singleslip doubleslip"),
        ("scissors", "double-crossover scissors-crossover crossover"),
        ("turntable", "turn-table table"),
        ("transfer-table", "traverser"),
        ("stop", "buffer buffer-stop bumper end-of-track"),
        ("lift-out", "lift-bridge liftbridge removable gate lift-up swing-out"),
        ("three-way", "3-way"),
        ("wye", "y"),
        ("insulated", "plastic dead"),
        ("copper-clad", "copper pcb pc-board circuit-board soldered"),
        ("insulating", "wood wooden plastic"),
        ("isolated", "metal unpowered"),
        ("live", "powered electrified power-routing"),
        ("contact", "relay servo motor switch microswitch micro-switch switched changeover"),
        ("sensor", "electronic automatic auto"),
        ("none", "unfed nobody nothing off"),
        ("frog-feed", "feed fed frog-power frog-contact"),
        ("frog-drive", "drive driven-by"),
        ("heel", "rails-beyond"),
        ("true", "yes on y"),
        ("false", "no off n"),
        ("opposite", "turned reversed inverted 180 other out"),
        ("turned", "opposite reversed inverted swapped out"),
        ("split-ring", "ring split commutator"),
        ("roads", "road wipers wiper approach tracks"),
        ("wires", "slip-rings slip-ring sliprings leads"),
        ("command", "digital dcc"),
        ("direct", "dc analog analogue conventional"),
        ("three-rail", "ac 3-rail"),
        ("programming", "program prog setup service"),
        ("accessories", "accessory signals lights points"),
        ("running", "trains main track mainline"),
        ("joiner", "fishplate clip slip-on"),
        ("when", "if position switched"),
        ("bridged-when", "when bridged closed-when bypassed-when if position"),
        ("swap", "reversed swapped polarity"),
        ("reversing", "reverser auto-reverser autoreverse"),
        ("benchwork", "baseboard baseboards frame framework bench table"),
        ("boards", "baseboards board modules"),
        ("corridors", "corridor cableway trunking duct raceway joists"),
        ("out-of-reach", "unreachable no-reach inaccessible hidden"),
        ("gaps", "gap cuts"),
        ("switches", "toggles toggle selectors"),
    ];

    private static readonly FrozenDictionary<string, string[]> RightOf = Rows
        .SelectMany(row => row.Said.Split(' ').Select(said => (said, row.Right)))
        .GroupBy(pair => pair.said, pair => pair.Right)
        .ToFrozenDictionary(group => group.Key, group => group.ToArray(), StringComparer.OrdinalIgnoreCase);

    /// <summary>The known word that somebody who wrote this one is likely to mean, or null.</summary>
    public static string? Meant(string written, IReadOnlyCollection<string> known) =>
        RightOf.GetValueOrDefault(written.Replace('_', '-').Trim())?.FirstOrDefault(known.Contains);
}
