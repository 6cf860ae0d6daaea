using WireUp.Layouts.Tests.Support;

namespace WireUp.Layouts.Tests.Exact;

/// <summary>Each kind of problem at its exact place: the mark § stands in front of it, and is taken out before reading.</summary>
public sealed class ProblemTests
{
    /// <summary>A whole small layout that has no problem; most cases go on from here.</summary>
    internal const string Base = """
        wireup: 1
        name: Test
        longest-train: 1 m
        track:
          s: { length: 2 m }
          t: { length: 2 m }
          T: { turnout: left }
        joined:
          - s > t > T.points

        """;

    internal const string Wired = """
        wiring:
          supplies: { brick: { output: 15 V dc, rating: 90 W } }
          boosters: { main: { amps: 5 A, supply: brick }, other: { amps: 3 A } }
          districts: { east: { booster: main, trip: 3 A }, west: { booster: other, trip: 3 A } }
          bus: { east: { wire: 12 AWG, runs: [ main > P1 2 m ] }, west: { wire: 12 AWG, runs: [ other > Q1 2 m ] } }

        """;

    /// <summary>The base with paths.</summary>
    private static string Drawn { get; } = Base.Replace("2 m }\n  t", "2 m, path: [[0, 0], [2 m, 0]] }\n  t", StringComparison.Ordinal)
        .Replace("t: { length: 2 m", "t: { length: 2 m, path: [[2 m, 0], [4 m, 0]]", StringComparison.Ordinal);

    /// <summary>The base with one piece more, named u.</summary>
    private static string Piece(string keys) => Base.Replace("  T: {", $"  u: {{ {keys} }}\n  T: {{", StringComparison.Ordinal);

    /// <summary>Text, code, offending text, and a part of what is expected.</summary>
    public static TheoryData<string, string, string, string> Cases => new()
    {
        // The text as YAML.
        { "name: §[a, b\n# open\nwireup: 1\n", "WU1001", "", "closed brackets" },
        { "wireup: 1\n§\tname: x\n", "WU1001", "", "no tabs" },
        { "wireup: 1\nname: x\ntrack: §\"open\n", "WU1001", "", "closed brackets" },
        { "wireup: 1\nname: §*x\n", "WU1003", "*x", "the value itself" },
        { "wireup: 1\nname: §&x Test\n", "WU1003", "&x", "without a mark" },
        { "wireup: 1\nname: §!!str Test\n", "WU1003", "tag:yaml.org,2002:str", "without a tag" },
        { Base + "§---\nname: more\n", "WU1003", "---", "one layout" },
        { Base + "§track: {}\n", "WU1004", "track", "once" },
        { Base.Replace("  T: {", "  §s: { length: 1 m }\n  T: {", StringComparison.Ordinal), "WU1004", "s", "once" },
        { "§", "WU1005", "", "wireup: 1" },
        { "§- a\n- b\n", "WU1005", "", "a mapping with the keys" },
        { "wireup: 1\n§[a]: b\n", "WU1005", "", "a word as key" },

        // Curves, connectors, frog wires.
        { Base + Wired.Replace("trip: 3 A }, west", "trip: 3 A, curve: [ 6 A 1 s, §5 A 1 s ] }, west", StringComparison.Ordinal), "WU1023", "5 A 1 s", "currents that rise" },
        { Base + Wired.Replace("trip: 3 A }, west", "trip: 3 A, curve: [ 6 A 1 s, §7 A 2 s ] }, west", StringComparison.Ordinal), "WU1023", "7 A 2 s", "times that do not" },
        { Base + Wired.Replace("trip: 3 A }, west", "trip: 3 A, curve: [ §6 A ] }, west", StringComparison.Ordinal), "WU1005", "6 A", "a current and a time" },
        { Base + Wired.Replace("main > P1 2 m ", "main > P1 2 m §2.5 connectors ", StringComparison.Ordinal), "WU1011", "2.5", "a whole number" },
        { Base + "defaults: { frog-wire: §400 mm }\n", "WU1005", "400 mm", "400 mm 22 AWG" },

        // Keys.
        { Base + "§stok: {}\n", "WU1006", "stok", "\"stock\"" },
        { Base.Replace("{ length: 2 m }\n  T", "{ §lenght: 2 m, length: 2 m }\n  T", StringComparison.Ordinal), "WU1006", "lenght", "\"length\"" },
        { Base + "defaults: { rail: { §colour: red } }\n", "WU1006", "colour", "\"code\", \"alloy\" or \"ohms-per-metre\"" },
        { Base + "wiring: { §fedeers: {} }\n", "WU1006", "fedeers", "\"feeders\"" },
        { "§name: x\nlongest-train: 1 m\ntrack: { s: { length: 1 m } }\n", "WU1007", "", "wireup: 1" },
        { "§wireup: 1\nlongest-train: 1 m\ntrack: { s: { length: 1 m } }\n", "WU1007", "", "name:" },
        { "§wireup: 1\nname: x\ntrack: { s: { length: 1 m } }\n", "WU1007", "", "longest-train:" },
        { "§wireup: 1\nname: x\nlongest-train: 1 m\n", "WU1007", "", "track:" },
        { "wireup: 1\nname: x\nlongest-train: 1 m\n§track: {}\n", "WU1007", "track", "a piece" },
        { Base.Replace("  T: {", "  §u: { frog: live }\n  T: {", StringComparison.Ordinal), "WU1007", "", "\"turnout\"" },
        { Base.Replace("  T: {", "  §u: {}\n  T: {", StringComparison.Ordinal), "WU1007", "", "length:" },
        { Base + "stock: { trains: { §local: {} } }\n", "WU1007", "", "length:" },
        { Base + "wiring: { boosters: { §b: {} } }\n", "WU1007", "", "amps:" },
        { Base + "wiring: { districts: { §d: { trip: 3 A } } }\n", "WU1007", "", "booster:" },
        { Base + "wiring: { gaps: [ §{ rails: both } ] }\n", "WU1007", "", "at:" },
        { Base + Wired + "  feeders: { f: { at: s@1 m, bus: §main, wire: 20 AWG, length: 200 } }\n", "WU1007", "main", "district:" },
        { Base + "wiring: { boosters: { b: { amps: 5 A } }, districts: { d: { booster: b, trip: 3 A } }, bus: { d: { runs: [ §b > P1 2 m ] } } }\n",
            "WU1007", "b > P1 2 m", "wire" },

        // Shapes.
        { Base.Replace("  T: {", "  u: §long\n  T: {", StringComparison.Ordinal), "WU1005", "u", "a piece" },
        { Base.Replace("  T: {", "  §u:\n  T: {", StringComparison.Ordinal), "WU1005", "u", "a piece" },
        { "wireup: 1\nname: §[a]\nlongest-train: 1 m\ntrack: { s: { length: 1 m } }\n", "WU1005", "name", "the railway's name" },
        { "wireup: 1\n§name:\nlongest-train: 1 m\ntrack: { s: { length: 1 m } }\n", "WU1005", "name", "the railway's name" },
        { "wireup: 1\nname: x\nlongest-train: 1 m\ntrack: §[s]\n", "WU1005", "", "a mapping of every piece" },
        { Base + "joints: §soldered\n", "WU1005", "soldered", "a mapping of joints" },
        { Base + "defaults: §live\n", "WU1005", "live", "a mapping with the keys" },
        { Base.Replace("  - s >", "  - §[s, t]\n  - s >", StringComparison.Ordinal), "WU1005", "", "a chain" },
        { Base + "wiring: { gaps: [ §s@1 m ] }\n", "WU1005", "s@1 m", "a gap" },
        { Base + "spots: { no-gap: [ §{ s: t } ] }\n", "WU1005", "", "the name of a piece" },
        { Base + "wiring: { boosters: { b: { amps: 5 A, at: §[1] } } }\n", "WU1005", "", "[900, 400]" },
        { Base.Replace("2 m }\n  t", "2 m, path: [ §[0, 0] ] }\n  t", StringComparison.Ordinal), "WU1005", "", "at least two points" },
        { Base + "wiring: { boosters: { b: { amps: 5 A } }, districts: { d: { booster: b, trip: 3 A } }, bus: { d: { wire: 12 AWG, runs: [ §b to P1 2 m ] } } }\n",
            "WU1005", "b to P1 2 m", "a run" },

        // Benchwork.
        { Base + "§benchwork: { corridors: { a: { path: [[0, 0], [1 m, 0]] } } }\n", "WU1007", "benchwork", "for every section" },
        { Drawn + "benchwork: { corridors: { a: { path: [[0, 0], [1 m, 0]] }, §b: { path: [[0, 20], [1 m, 20]] } } }\n", "WU1029", "b", "crosses another" },
        { Drawn + "benchwork: { corridors: { a: { path: [[0, 0], [1 m, 0]] }, §b: { path: [[500, -90], [500, 90]] } }, out-of-reach: { hill: [[400, -99], [600, -99], [600, 99], [400, 99]] } }\n",
            "WU1029", "b", "within reach" },
        { Drawn + "benchwork: { corridors: { §a: {} } }\n", "WU1007", "", "path:" },
        { Drawn + "benchwork: { corridors: { a: §[[0, 0], [1 m, 0]] } }\n", "WU1005", "", "\"path\"" },
        { Drawn + "benchwork: { corridors: { a: { path: §[[0, 0]] } } }\n", "WU1005", "", "at least two points" },
        { Drawn + "benchwork: { corridors: { a: { path: [[0, 0], §[1]] } } }\n", "WU1005", "", "[900, 400]" },
        { Drawn + "benchwork: { out-of-reach: { hill: §[[0, 0], [1, 1]] } }\n", "WU1005", "", "at least three points" },
        { Drawn + "benchwork: { §out-of-reah: {} }\n", "WU1006", "out-of-reah", "\"out-of-reach\"" },
        { Drawn + "benchwork: { §trunking: {} }\n", "WU1006", "trunking", "\"corridors\"" },
        { Drawn + "benchwork: { boards: { §a.b: [[0, 0], [1, 0], [1, 1]] } }\n", "WU1014", "a.b", "letters" },
        // Faults.
        { Base + "fault-priors: { chances: { §joint: 2 % } }\n", "WU1010", "joint", "\"joiner\"" },
        { Base + "fault-priors: { chances: { joiner: §60 % } }\n", "WU1013", "60 %", "50 %" },
        { Base + "fault-priors: { chances: { joiner: §0.02 } }\n", "WU1012", "0.02", "5 %" },
        { Base + "fault-priors: { §ages: 3 }\n", "WU1006", "ages", "\"age\"" },
        { Base + "fault-priors: { age: §12 years }\n", "WU1011", "12 years", "1000 years" },

        // The picture under the plan.
        { Base + "§picture: { width: 2 m }\n", "WU1007", "", "file:" },
        { Base + "§picture: { file: plan.png }\n", "WU1007", "", "width:" },
        { Base + "picture: { file: §../plan.png, width: 2 m }\n", "WU1014", "../plan.png", "without folders" },
        { Base + "picture: { file: §plan.gif, width: 2 m }\n", "WU1014", "plan.gif", ".png, .jpg, .jpeg or .svg" },
        { Base + "picture: { file: plan.png, width: §0 }\n", "WU1013", "0", "10 km" },
        { Base + "picture: { file: plan.png, width: 2 m, at: §3 }\n", "WU1005", "3", "[900, 400]" },
        { Base + "picture: { file: plan.png, width: 2 m, turn: §400 deg }\n", "WU1013", "400 deg", "360 deg" },
        { Base + "picture: { file: plan.png, width: 2 m, §scale: 2 }\n", "WU1006", "scale", "file" },

        // Version, and what comes later.
        { "wireup: §2\nname: x\nlongest-train: 1 m\ntrack: { s: { length: 1 m } }\n", "WU1008", "2", "1" },
        { Base + "§readings: []\n", "WU1006", "readings", "a readings file of its own" },

        // Kinds of trackwork.
        { Piece("turnout: §thre-way"), "WU1010", "thre-way", "\"three-way\"" },
        { Piece("turnout: left, uncut: [§blades], ties: copper-clad"), "WU1010", "blades", "\"switch\", \"closure\"" },
        { Piece("turnout: left, uncut: [§[switch]], ties: copper-clad"), "WU1005", "", "\"switch\", \"closure\"" },
        { Piece("slip: §triple"), "WU1010", "triple", "\"single\" or \"double\"" },
        { Piece("slip: single, frog: live, frog-feed: contact, frog-drive: §both"), "WU1010", "both", "\"other-end\"" },
        { Piece("crossing: 30 deg, frog: live, phase: §turned"), "WU1010", "turned", "\"opposite\" (did you mean that?)" },
        { Piece("turntable: 24, length: 300, feed: §wiers"), "WU1010", "wiers", "\"wires\"" },
        { Piece("scissors: §20"), "WU1012", "20", "30 deg" },
        { Piece("length: 1 m, lift-out: §yes"), "WU1010", "yes", "\"true\"" },
        { Piece("turnout: multi, legs: §3"), "WU1013", "3", "from 4 to 9" },
        { Piece("turnout: multi, legs: §10"), "WU1013", "10", "from 4 to 9" },
        { Piece("turntable: §1, length: 300"), "WU1013", "1", "from 2 to 100" },
        { Piece("turntable: §101, length: 300"), "WU1013", "101", "from 2 to 100" },
        { Piece("turntable: 24, length: 300, feed: split-ring, split-after: §25"), "WU1013", "25", "from 1 to 24" },
        { Piece("turntable: 24, length: 300, feed: split-ring, split-after: §0"), "WU1013", "0", "from 1 to 24" },
        { Piece("transfer-table: §0, length: 300"), "WU1013", "0", "from 1 to 100" },
        { Base.Replace("  T: {", "  §u: { turnout: multi }\n  T: {", StringComparison.Ordinal), "WU1007", "", "from 4 to 9" },
        { Base.Replace("  T: {", "  §u: { turntable: 24 }\n  T: {", StringComparison.Ordinal), "WU1007", "", "length:" },
        { Piece("slip: double, §angel: 20 deg"), "WU1006", "angel", "\"angle\"" },
        { Piece("turntable: 24, length: 300, §rail: { code: 83 }"), "WU1006", "rail", "\"split-after\"" },

        // Switches and positions.
        { Base + "wiring: { switches: { §T: [a, b] } }\n", "WU1015", "T", "no piece has" },
        { Base + "wiring: { switches: { B: [on, §on] } }\n", "WU1015", "on", "each position" },
        { Base + "wiring: { switches: { B: §on } }\n", "WU1005", "B", "cab-a" },
        { Base + "wiring: { switches: { §B: } }\n", "WU1005", "B", "cab-a" },
        { Base + "wiring: { switches: { B: §[on] } }\n", "WU1005", "", "cab-a" },
        { Base + "wiring: { switches: { B: [on, §{ off: 1 }] } }\n", "WU1005", "", "cab-a" },
        { Base + "wiring: { switches: { B: [on, §a.b] } }\n", "WU1014", "a.b", "letters" },
        { Base + "wiring: { switches: { §a.b: [on, off] } }\n", "WU1014", "a.b", "letters" },
        { Base + "wiring: { gaps: [ { at: s@1 m, bridged-when: §TT.through } ] }\n", "WU1016", "TT", "\"T\"" },
        { Base + "wiring: { switches: { B: [on, off] }, gaps: [ { at: s@1 m, bridged-when: §zebra.on } ] }\n", "WU1016", "zebra", "\"B\" or \"T\"" },
        { Base + "wiring: { gaps: [ { at: s@1 m, bridged-when: T.§divergin } ] }\n", "WU1028", "divergin", "\"diverging\"" },
        { Base + "wiring: { gaps: [ { at: s@1 m, bridged-when: T.§points } ] }\n", "WU1028", "points", "\"through\" or \"diverging\"" },
        { Base + "wiring: { gaps: [ { at: s@1 m, bridged-when: §T } ] }\n", "WU1028", "T", "\"T.through\" or \"T.diverging\"" },
        { Base + "wiring: { gaps: [ { at: s@1 m, bridged-when: §s.in } ] }\n", "WU1028", "s", "\"T\"" },
        { Base + Wired + "  switches: { B1: [cab-a, cab-b] }\n  feeders: { f: { at: s@1 m, bus: P1, wire: 20 AWG, length: 200, when: B1.§cab-c } }\n",
            "WU1028", "cab-c", "\"cab-a\"" },

        { Base + Wired + "  switches: { B1: [cab-a, cab-b] }\n  feeders: { f: { at: s@1 m, bus: P1, wire: 20 AWG, length: 200, when: §B1=cab-b } }\n",
            "WU1028", "B1=cab-b", "B1.cab-b" },
        { "wireup: 1\nname: x\nlongest-train: 1 m\ntrack: { s: { length: 1 m } }\nwiring: { gaps: [ { at: s@500, bridged-when: §s.in } ] }\n",
            "WU1028", "s", "under \"switches\"" },

        // Words of the trade that are not those of the format.
        { Piece("§double-slip: true, frog: live"), "WU1006", "double-slip", "\"slip\"" },
        { Piece("§traverser: 5, length: 300"), "WU1006", "traverser", "\"transfer-table\"" },
        { Piece("§diamond: 30 deg"), "WU1006", "diamond", "\"crossing\"" },
        { Piece("turnout: §curved-right"), "WU1010", "curved-right", "\"turnout: right\" beside \"curved: true\"" },
        { Piece("turnout: §stub"), "WU1010", "stub", "\"stub: true\"" },
        { Piece("turnout: left, ties: §pcb, uncut: [switch]"), "WU1010", "pcb", "\"copper-clad\"" },
        { Piece("turnout: §3-way"), "WU1010", "3-way", "\"three-way\"" },
        { Piece("turnout: left, frog: §plastic"), "WU1010", "plastic", "\"insulated\"" },
        { Piece("turnout: left, frog: live, frog-feed: §relay"), "WU1010", "relay", "\"contact\"" },
        { Piece("turnout: left, frog: insulated, power-routing: §yes"), "WU1010", "yes", "\"true\"" },

        // Words.
        { Base.Replace("turnout: left", "turnout: §lfet", StringComparison.Ordinal), "WU1010", "lfet", "\"left\"" },
        { Base + "scale: §H0\n", "WU1010", "H0", "\"HO\"" },
        { Base + "control: §radio\n", "WU1010", "radio", "\"command\", \"direct\" or \"three-rail\"" },
        { Base + "control: §digital\n", "WU1010", "digital", "\"command\" (did you mean that?)" },
        { Base + "units: §miles\n", "WU1010", "miles", "\"mm\"" },
        { Base + "defaults: { rail: { alloy: §nickelsilver } }\n", "WU1010", "nickelsilver", "\"nickel-silver\"" },
        { Base + "joints: { s.b: §welded }\n", "WU1010", "welded", "\"joiner\" or \"soldered\"" },
        { Base + "joints: { s.b: { insulated: true, rails: §centre } }\n", "WU1010", "centre", "\"left\", \"right\" or \"both\"" },
        { Base + "control: three-rail\njoints: { s.b: { insulated: true, rails: §left } }\n", "WU1010", "left", "\"centre\", \"running\" or \"both\"" },
        { Base.Replace("  T: {", "  u: { stop: §yes }\n  T: {", StringComparison.Ordinal), "WU1010", "yes", "\"true\"" },

        // Numbers and quantities.
        { Base + "shortest-pickup: §short\n", "WU1011", "short", "2.4 m" },
        { Base + "shortest-pickup: §2,4 m\n", "WU1011", "2,4 m", "decimal point" },
        { Base + "shortest-pickup: §.nan\n", "WU1011", ".nan", "a length" },
        { Base + "shortest-pickup: §NaN\n", "WU1011", "NaN", "a length" },
        { Base + "shortest-pickup: §.inf\n", "WU1011", ".inf", "a length" },
        { Base.Replace("turnout: left", "turnout: left, number: §six", StringComparison.Ordinal), "WU1011", "six", "0.5" },
        { Base + "stock: { moving-at-once: §1.5 }\n", "WU1011", "1.5", "a whole number" },
        { Base + "wiring: { gaps: [ { at: s@§far } ] }\n", "WU1011", "far", "a length" },
        { Base + "wiring: { boosters: { b: { amps: 5 A, beside: §s } } }\n", "WU1011", "s", "loop@2.7 m" },
        { Base + "shortest-pickup: §2 miles\n", "WU1012", "2 miles", "2.4 m" },
        { Base + "max-drop: §5\n", "WU1012", "5", "5 %" },
        { Base + "wiring: { boosters: { b: { amps: §5 } } }\n", "WU1012", "5", "0.25 A" },
        { Base + "wiring: { boosters: { b: { amps: §5 V } } }\n", "WU1012", "5 V", "0.25 A" },
        { Base + "wiring: { supplies: { s: { output: §15 V, rating: 90 W } } }\n", "WU1012", "15 V", "15 V dc" },
        { Base.Replace("length: 2 m }\n  t", "length: §-2 m }\n  t", StringComparison.Ordinal), "WU1013", "-2 m", "from 1 mm to 10 km" },
        { Base.Replace("length: 2 m }\n  t", "length: §0 }\n  t", StringComparison.Ordinal), "WU1013", "0", "from 1 mm to 10 km" },
        { Base.Replace("length: 2 m }\n  t", "length: §10001 m }\n  t", StringComparison.Ordinal), "WU1013", "10001 m", "from 1 mm to 10 km" },
        { Base.Replace("length: 2 m }\n  t", "length: §1e400 }\n  t", StringComparison.Ordinal), "WU1013", "1e400", "from 1 mm to 10 km" },
        { Base.Replace("length: 2 m }\n  t", "length: 2 m, path: [[0, 0], [0, §99999 m]] }\n  t", StringComparison.Ordinal), "WU1013", "99999 m", "10 km" },
        { Base + "wiring: { boosters: { b: { amps: 5 A, volts: §230 V } } }\n", "WU1013", "230 V", "low voltage" },
        { Base + Wired + "  feeders: { f: { at: s@1 m, bus: P1, wire: §50 AWG, length: 200 } }\n", "WU1013", "50 AWG", "40 AWG" },
        { Base + "stock: { locomotives: { a: { count: §0 } } }\n", "WU1013", "0", "from 1 to" },

        // Names.
        { Base.Replace("  T: {", "  §a.b: { length: 1 m }\n  T: {", StringComparison.Ordinal), "WU1014", "a.b", "letters" },
        { Base.Replace("  T: {", "  §\"\": { length: 1 m }\n  T: {", StringComparison.Ordinal), "WU1014", "", "letters" },
        { Base + "stock: { trains: { §\"a>b\": { length: 1 m } } }\n", "WU1014", "a>b", "letters" },
        { Base + Wired.Replace("other > Q1 2 m", "other > §Q.1 2 m", StringComparison.Ordinal), "WU1014", "Q.1", "letters" },
        { Base + Wired.Replace("other > Q1 2 m", "other > §P1 2 m", StringComparison.Ordinal), "WU1015", "P1", "no other bus" },
        { Base.Replace("> t >", "> §tt >", StringComparison.Ordinal), "WU1016", "tt", "\"t\"" },
        { Base + "joints: { §u.a: soldered }\n", "WU1016", "u", "\"s\"" },
        { Base + "spots: { no-feeder: [s, §zebra] }\n", "WU1016", "zebra", "\"s\", \"t\" or \"T\"" },
        { Base + "districts-wanted: { yard: [§zebra] }\n", "WU1016", "zebra", "\"s\", \"t\" or \"T\"" },
        { Base + "wishes: { apart: [[s, §zebra]] }\n", "WU1016", "zebra", "\"s\", \"t\" or \"T\"" },
        { Base + "wiring: { gaps: [ { at: §ss@1 m } ] }\n", "WU1016", "ss", "\"s\"" },
        { Base + "wiring: { boosters: { b: { amps: 5 A, supply: §brick } } }\n", "WU1016", "brick", "nothing" },
        { Base + "wiring: { boosters: { b: { amps: 5 A } }, districts: { d: { booster: §bb, trip: 3 A } } }\n", "WU1016", "bb", "\"b\"" },
        { Base + "wiring: { bus: { §d: { wire: 12 AWG, runs: [] } } }\n", "WU1016", "d", "nothing" },
        { Base + Wired + "  feeders: { f: { at: s@1 m, bus: §P2, wire: 20 AWG, length: 200 } }\n", "WU1016", "P2", "\"P1\"" },
        { Base + Wired + "  feeders: { f: { at: s@1 m, bus: main, district: §eats, wire: 20 AWG, length: 200 } }\n", "WU1016", "eats", "\"east\"" },
        { Base + "stock: { locomotives: { mallet: {} }, trains: { ore: { length: 1 m, locomotives: [§mallett] } } }\n", "WU1016", "mallett", "\"mallet\"" },

        // Ends and chains.
        { Base.Replace("> T.points", "> T.§point", StringComparison.Ordinal), "WU1017", "point", "\"points\", \"through\" or \"diverging\"" },
        { Piece("turntable: 24, length: 300") + "joints: { u.§t25: soldered }\n", "WU1017", "t25", "\"t1\" to \"t24\"" },
        { Piece("transfer-table: 5, length: 300") + "joints: { u.§w6: soldered }\n", "WU1017", "w6", "\"w1\" to \"w5\" or \"e1\" to \"e5\"" },
        { Piece("slip: single") + "joints: { u.§a: soldered }\n", "WU1017", "a", "\"a1\", \"a2\", \"b1\" or \"b2\"" },
        { Piece("turnout: three-way") + "joints: { u.§diverging: soldered }\n", "WU1017", "diverging", "\"points\", \"left\", \"through\" or \"right\"" },
        { Base + "wiring: { gaps: [ { at: §s } ] }\n", "WU1017", "s", "\"s.a\" or \"s.b\"" },
        { Base.Replace("- s > t > T.points", "- s > t > §T", StringComparison.Ordinal), "WU1018", "T", "\"T.points\"" },
        { Base.Replace("- s > t > T.points", "- s > §T > t", StringComparison.Ordinal), "WU1018", "T", "broken in two" },
        { Base.Replace("- s > t > T.points", "- s > §t.b > T.points", StringComparison.Ordinal), "WU1018", "t.b", "broken in two" },
        { Base.Replace("- s > t > T.points", "- §s", StringComparison.Ordinal), "WU1018", "s", "T1.through > loop" },
        { Base.Replace("- s > t > T.points", "- s > §> t", StringComparison.Ordinal), "WU1018", "s > > t", "T1.through > loop" },
        { Base.Replace("T.points\n", "T.points\n  - s > §T.through\n", StringComparison.Ordinal), "WU1019", "T.through", "still open" },
        { Base.Replace("T.points\n", "T.points\n  - T.through > §T.through\n", StringComparison.Ordinal), "WU1019", "T.through", "another end" },

        // Places, joints and gaps.
        { Base + "wiring: { gaps: [ { at: s@§2.1 m } ] }\n", "WU1020", "2.1 m", "from 0 to 2 m" },
        { Base + "wiring: { gaps: [ { at: s@ §-2.1 m } ] }\n", "WU1020", "-2.1 m", "from 0 to 2 m" },
        { Base + "wiring: { gaps: [ { at: §T@1 m } ] }\n", "WU1020", "T", "the name of a section" },
        { Piece("turntable: 24, length: 300") + "wiring: { gaps: [ { at: u@§301 } ] }\n", "WU1020", "301", "from 0 to 300 mm" },
        { Base + "wiring: { gaps: [ { at: §T.points@100 } ] }\n", "WU1020", "T.points", "T@100" },
        { Piece("turntable: 24, length: 300") + "wiring: { gaps: [ { at: §u@300 } ] }\n", "WU1020", "u@300", "within the bridge" },
        { Base + "wiring: { gaps: [ { at: §s@2 m } ] }\n", "WU1020", "s@2 m", "s.b" },
        { Base + "wiring: { gaps: [ { at: §s@-2 m } ] }\n", "WU1020", "s@-2 m", "s.a" },
        { Base + "joints: { §T.through: soldered }\n", "WU1021", "T.through", "under \"joined\"" },
        { Base + "wiring: { gaps: [ { at: §T.through } ] }\n", "WU1021", "T.through", "under \"joined\"" },
        { Base + "joints: { s.b: soldered, §t.a: soldered }\n", "WU1022", "t.a", "one description" },
        { Base + "wiring: { gaps: [ { at: s@1 m, rails: left }, { at: §s@-1 m } ] }\n", "WU1022", "s@-1 m", "once" },
        { Base + "wiring: { gaps: [ { at: s.b, rails: left }, { at: §t.a, rails: right } ] }\n", "WU1022", "t.a", "once" },

        // Contradictions.
        { Piece("turnout: left, frog: insulated, frog-feed: §contact"), "WU1023", "contact", "frog: isolated" },
        { Piece("scissors: 20 deg, frog: insulated, frog-feed: §sensor"), "WU1023", "sensor", "frog: isolated" },
        { Base.Replace("turnout: left", "turnout: left, frog-feed: §contact", StringComparison.Ordinal), "WU1023", "contact", "frog: isolated" },
        { Piece("turnout: left, frog: live, §power-routing: true"), "WU1023", "power-routing", "frog: insulated" },
        { Piece("turnout: three-way, frog: isolated, §power-routing: true"), "WU1023", "power-routing", "frog: insulated" },
        { Piece("turnout: left, frog: insulated, stub: true, §power-routing: true"), "WU1023", "power-routing", "stub: true" },
        { Piece("turnout: left, frog: live, §heel: frog"), "WU1023", "heel", "frog: isolated" },
        { Piece("turnout: left, frog: live, §contact: early"), "WU1023", "contact", "frog-feed: contact" },
        { Piece("turnout: left, frog: isolated, frog-feed: sensor, §contact: early"), "WU1023", "contact", "frog-feed: contact" },
        { Piece("turnout: left, §uncut: [switch]"), "WU1023", "uncut", "ties: copper-clad" },
        { Piece("turnout: wye, §curved: true"), "WU1023", "curved", "turnout: left" },
        { Piece("turnout: three-way, §legs: 4"), "WU1023", "legs", "turnout: multi" },
        { Piece("turnout: left, §legs: 4"), "WU1023", "legs", "turnout: multi" },
        { Piece("crossing: 30 deg, frog: insulated, §phase: same"), "WU1023", "phase", "frog: live" },
        { Piece("crossing: 30 deg, §phase: opposite"), "WU1023", "phase", "frog: live" },
        { Piece("slip: double, frog: live, §frog-drive: route"), "WU1023", "frog-drive", "frog-feed: contact" },
        { Piece("turntable: 24, length: 300, §split-after: 12"), "WU1023", "split-after", "feed: split-ring" },
        { Piece("turntable: 24, length: 300, feed: roads, §split-after: 12"), "WU1023", "split-after", "feed: split-ring" },
        { Piece("transfer-table: 5, length: 300, feed: §split-ring"), "WU1023", "split-ring", "\"wires\" or \"roads\"" },
        { Base + "control: direct\nwiring: { boosters: { b: { amps: 1 A, §phase: turned } } }\n", "WU1023", "phase", "three-rail" },
        { Base + Wired.Replace("trip: 3 A }, west", "trip: 3 A, use: programming, §reversing: true }, west", StringComparison.Ordinal), "WU1023", "reversing", "use: running" },
        { Base + "joints: { s.b: { §rails: left } }\n", "WU1023", "rails", "insulated: true" },
        { Base + "wiring: { boosters: { b: { amps: 5 A, at: [0, 0], §beside: s@1 m } } }\n", "WU1023", "beside", "one of the two" },
        { Base + Wired + "  feeders: { f: { at: s@1 m, bus: P1, district: §west, wire: 20 AWG, length: 200 } }\n", "WU1023", "west", "\"east\"" },
        { Base + Wired + "  feeders: { f: { at: s@1 m, bus: main, district: §west, wire: 20 AWG, length: 200 } }\n", "WU1023", "west", "\"east\"" },

        // The bus.
        { Base + Wired.Replace("other > Q1 2 m", "other > Q1 2 m, §Q2 > Q3 1 m", StringComparison.Ordinal), "WU1024", "Q2", "\"other\"" },
        { Base + Wired.Replace("other > Q1 2 m", "§main > Q1 2 m", StringComparison.Ordinal), "WU1024", "main", "\"other\"" },
        { Base + Wired.Replace("other > Q1 2 m", "other > Q1 2 m, other > Q2 2 m, Q1 > §Q2 1 m", StringComparison.Ordinal), "WU1025", "Q2", "no other run" },
        { Base.Replace("train: 1 m", "train: §1 m", StringComparison.Ordinal) + "stock: { trains: { ore: { length: 1.2 m } } }\n", "WU1026", "1 m", "at least 1.2 m" },
    };

    [Theory]
    [MemberData(nameof(Cases))]
    public void A_problem_is_reported_at_its_place(string marked, string code, string text, string expected)
    {
        Marked given = Marked.Parse(marked);
        LayoutReading reading = LayoutFile.Read(given.Text, "test");
        LayoutProblem problem = Assert.Single(reading.Problems);
        Assert.Equal(
            (code, given.Line, given.Column, text),
            (problem.Code, problem.Line, problem.Column, problem.Text));
        Assert.Contains(expected, problem.Expected, StringComparison.Ordinal);
        Assert.Equal(problem.Severity == ProblemSeverity.Error, reading.Layout is null);
    }

    [Fact]
    public void The_base_of_the_cases_has_no_problem() =>
        Assert.Equal([], LayoutFile.Read(Base + Wired, "test").Problems);

    [Fact]
    public void Every_code_has_a_case_here_or_among_the_limits()
    {
        IEnumerable<string> tested = Cases.Select(row => row.Data.Item2).Concat(LimitTests.Codes).Distinct().Order(StringComparer.Ordinal);
        Assert.Equal(LayoutRules.All.Select(rule => rule.Code), tested);
    }

    [Fact]
    public void Several_problems_are_reported_at_once_in_the_order_of_the_file()
    {
        LayoutReading reading = LayoutFile.Read(
            """
            wireup: 1
            name: Test
            scale: HOO
            longest-train: 1 parsec
            track:
              s: { lenght: 2 m }
              T: { turnout: middle, number: 6 }
            joined:
              - s > T.points
              - T.through > u
            wiring:
              districts: { d: { booster: main, trip: 3 } }
            """, "test");
        Assert.Equal(
            ["3:8 WU1010", "4:16 WU1012", "6:8 WU1006", "7:17 WU1010", "10:17 WU1016", "12:30 WU1016", "12:42 WU1012"],
            reading.Problems.Select(problem => $"{problem.Line}:{problem.Column} {problem.Code}"));
        Assert.Null(reading.Layout);
    }

    [Fact]
    public void A_problem_reads_like_a_message_of_a_compiler() =>
        Assert.Equal(
            "club.layout.yaml:6:8: error WU1006: \"lenght\" is not a key of a section; expected \"length\" (did you mean that?)",
            LayoutFile.Read(Base.Replace("t: { length", "t: { lenght: 3 m, length", StringComparison.Ordinal), "club.layout.yaml").Problems[0].ToString());

    [Fact]
    public void Keys_of_ones_own_are_passed_over_everywhere()
    {
        string text = Base.Replace("2 m }\n  t", "2 m, x-bought: yesterday }\n  x-idea: { any: [thing] }\n  t", StringComparison.Ordinal)
            + "x-notes: [1, 2]\nwiring: { x-plan: 3, supplies: { x-old: none } }\n";
        LayoutReading reading = LayoutFile.Read(text, "test");
        Assert.Equal([], reading.Problems);
        Assert.Equal(["s", "t", "T"], reading.Layout!.Track.Select(piece => piece.Id.Name));
    }
}
