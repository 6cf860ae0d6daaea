using System.Globalization;
using System.Text;
using System.Text.RegularExpressions;
using UnitsNet;
using WireUp.Layouts;
using WireUp.Rails.Tests.Exact;

namespace WireUp.Rails.Tests.Approved;

/// <summary>
/// The tables of docs/trackwork.md, made from the trackwork table. Rails are named along the piece, from its plus ends to the others, as people
/// do who stand at the points and look towards the frog.
/// </summary>
internal static partial class TrackworkPage
{
    private static readonly Length Metre = Length.FromMeters(1);

    /// <summary>Every kind of piece on the page: where it stands, what it is called there, and the gaps it asks for when every end is fed.</summary>
    private static readonly Kind[] s_kinds =
    [
        new("plain", "Section of plain track", new Piece.Section(new("X"), Metre), "a"),
        new("plain", "Lift-out section", new Piece.Section(new("X"), Metre) { LiftOut = true }, "a"),
        new("plain", "Buffer stop", new Piece.Stop(new("X")), "a"),
        new("turnouts", "Insulated frog, legs bonded (`frog: insulated`)", Right(FrogKind.Insulated), "points"),
        new("turnouts", "Insulated frog, power-routing (`power-routing: true`)", Right(FrogKind.Insulated) with { PowerRouting = true }, "points"),
        new("turnouts", "Live frog (`frog: live`)", Right(FrogKind.Live), "points", "through right", "diverging left"),
        new("turnouts", "Live frog with a contact that changes over early (`frog-feed: contact`, `contact: early`)",
            Right(FrogKind.Live) with { Feed = FrogFeed.Contact, EarlyContact = true }, "points", "through right", "diverging left"),
        new("turnouts", "Isolated frog, unfed (`frog: isolated`)", Right(FrogKind.Isolated), "points"),
        new("turnouts", "Isolated frog, fed by a contact or a sensor (`frog-feed: contact` or `sensor`)", Right(FrogKind.Isolated) with { Feed = FrogFeed.Contact }, "points"),
        new("turnouts", "Isolated frog that is one with the rails beyond (`heel: frog`)",
            Right(FrogKind.Isolated) with { Feed = FrogFeed.Contact, HeelInFrog = true }, "points", "through right", "diverging left"),
        new("turnouts", "Stub turnout, insulated frog (`stub: true`)", Right(FrogKind.Insulated) with { Stub = true }, "points"),
        new("turnouts", "Stub turnout, live frog", Right(FrogKind.Live) with { Stub = true }, "points", "through right", "diverging left"),
        new("many legs", "Three-way, insulated frogs, legs bonded", ThreeWay(FrogKind.Insulated), "points"),
        new("many legs", "Three-way, insulated frogs, power-routing", ThreeWay(FrogKind.Insulated) with { PowerRouting = true }, "points"),
        new("many legs", "Three-way, isolated frogs, fed", ThreeWay(FrogKind.Isolated) with { Feed = FrogFeed.Contact }, "points"),
        new("many legs", "Three-way, live frogs", ThreeWay(FrogKind.Live), "points", "left right", "through left", "through right", "right left"),
        new("many legs", "Four legs, live frogs", new Piece.MultiTurnout(new("X"), 4, FrogKind.Live), "points",
            "leg1 right", "leg2 left", "leg2 right", "leg3 left", "leg3 right", "leg4 left"),
        new("crossings", "Insulated frogs", Crossing(FrogKind.Insulated), "a1 b1"),
        new("crossings", "Isolated frogs, fed", Crossing(FrogKind.Isolated), "a1 b1"),
        new("crossings", "Live frogs, both tracks of one phase (`phase: same`)", Crossing(FrogKind.Live), "a1 b1", "a1 right", "b1 left", "a2 left", "b2 right"),
        new("crossings", "Live frogs, tracks of opposite phase (`phase: opposite`)",
            Crossing(FrogKind.Live) with { OppositePhase = true }, "a1 b1", "a1 left", "b2 left", "b1 right", "a2 right") { Opposite = "b1 b2" },
        new("slips", "Insulated frogs, double slip", Slip(true, FrogKind.Insulated), "a1 b1"),
        new("slips", "Isolated frogs, double slip", Slip(true, FrogKind.Isolated), "a1 b1"),
        new("slips", "Live frogs, double slip", Slip(true, FrogKind.Live), "a1 b1", "a1 right", "b1 left", "a2 left", "b2 right"),
        new("slips", "Live frogs, double slip, each frog driven by its own end (`frog-drive: own-end`, a mistake)",
            Slip(true, FrogKind.Live) with { Drive = SlipDrive.OwnEnd }, "a1 b1", "a1 right", "b1 left", "a2 left", "b2 right"),
        new("slips", "Live frogs, single slip", Slip(false, FrogKind.Live), "a1 b1", "a1 right", "b1 left", "a2 left", "b2 right"),
        new("slips", "Live frogs, single slip, frogs driven by the route (`frog-drive: route`)",
            Slip(false, FrogKind.Live) with { Drive = SlipDrive.Route }, "a1 b1", "a1 right", "b1 left", "a2 left", "b2 right"),
        new("scissors", "Insulated frogs", new Piece.Scissors(new("X"), FrogKind.Insulated), "a1 b1"),
        new("scissors", "Isolated frogs, fed", new Piece.Scissors(new("X"), FrogKind.Isolated) { Feed = FrogFeed.Contact }, "a1 b1"),
        new("scissors", "Live frogs, with their fourteen cuts", new Piece.Scissors(new("X"), FrogKind.Live) { Feed = FrogFeed.Contact }, "a1 b1"),
        new("bridges", "Turntable of four roads, bridge on wires of its own (`feed: wires`)", Turntable(4, BridgeFeed.Wires), "t1 t2 t3 t4"),
        new("bridges", "Turntable of four roads, split ring (`feed: split-ring`, `split-after: 2`)", Turntable(4, BridgeFeed.SplitRing), "t1 t2 t3 t4"),
        new("bridges", "Turntable of four roads, fed by the road it stands at (`feed: roads`)", Turntable(4, BridgeFeed.Roads), "t1 t2 t3 t4"),
        new("bridges", "Turntable of three roads, split ring", Turntable(3, BridgeFeed.SplitRing), "t1 t2 t3"),
        new("bridges", "Transfer table of two positions, on wires of its own", Transfer(BridgeFeed.Wires), "w1 w2"),
        new("bridges", "Transfer table of two positions, fed by the roads", Transfer(BridgeFeed.Roads), "w1 w2"),
        .. from frog in new[] { FrogKind.Live, FrogKind.Isolated }
           from zone in new[] { TieZones.Switch, TieZones.Closure, TieZones.FrogLeft, TieZones.FrogRight, TieZones.Beyond }
           select new Kind("foil", $"{frog} frog|{Words(zone)}", Right(frog) with
           {
               CopperClad = true, Uncut = zone, Feed = frog == FrogKind.Isolated ? FrogFeed.Contact : FrogFeed.None,
           }, "points", "through right", "diverging left"),
        new("three-rail", "Turnout", Right(FrogKind.Live), "points") { ThreeRail = true },
        new("three-rail", "Crossing", Crossing(FrogKind.Live), "a1 b1") { ThreeRail = true },
        new("three-rail", "Double slip", Slip(true, FrogKind.Live), "a1 b1") { ThreeRail = true },
        new("three-rail", "Turntable of two roads, bridge on wires of its own", Turntable(2, BridgeFeed.Wires), "t1 t2") { ThreeRail = true },
    ];

    /// <summary>The order in which frogs stand in a table; frogs with numbers come by number.</summary>
    private static readonly string[] s_order =
        ["frog-a-west", "frog-a-east", "frog-b-west", "frog-b-east", "frog-west", "frog-east", "frog-left", "frog-right"];

    /// <summary>The page with everything between its marks made anew.</summary>
    public static string Remade(string page) => Marked().Replace(page, match => $"{match.Groups["begin"].Value}\n{Section(match.Groups["name"].Value)}\n{match.Groups["end"].Value}");

    /// <summary>The names of the tables a page asks for.</summary>
    public static IEnumerable<string> TablesOf(string page) => Marked().Matches(page).Select(match => match.Groups["name"].Value);

    public static IEnumerable<string> Tables => s_kinds.Select(kind => kind.Table).Distinct();

    private static string Section(string name)
    {
        StringBuilder text = new();
        Kind[] kinds = [.. s_kinds.Where(kind => kind.Table == name)];
        if (name == "foil")
        {
            text.Append("| frog | zone not cut | joined by the foil | short |\n| --- | --- | --- | --- |\n");
            foreach (Kind kind in kinds)
            {
                text.Append(FoilRow(kind));
            }

            return text.ToString().TrimEnd();
        }

        return string.Join("\n\n", kinds.Select(Described));
    }

    private static string FoilRow(Kind kind)
    {
        Piece.Turnout turnout = (Piece.Turnout)kind.Piece;
        Trackwork cut = TrackworkTable.Of(turnout with { Uncut = TieZones.None }, ControlSystem.Command), uncut = kind.Row;
        string shorted = kind.Bench.ShortAcross(null, kind.Gaps);
        string when = shorted.Split(' ').Length == uncut.Positions.Length ? "always" : $"set {shorted}";
        string[] names = kind.Title.Split('|');
        return $"| {names[0].ToLowerInvariant()} | {names[1]} | {string.Join(", ", Nets(kind, uncut.Fixed.Except(cut.Fixed)))} | {when} |\n";
    }

    private static string Described(Kind kind)
    {
        Trackwork row = kind.Row;
        StringBuilder text = new();
        text.Append(CultureInfo.InvariantCulture, $"#### {kind.Title}\n\n| | |\n| --- | --- |\n");
        Line("ends", string.Join(", ", kind.Piece.EndNames));
        Line("positions", row.Positions.IsEmpty ? "none: nothing moves" : string.Join(", ", row.Positions));
        IEnumerable<string> bridge = kind.Piece is Piece.Turntable or Piece.TransferTable ? ["each rail of the bridge from head to tail"] : [];
        Line("always joined", Listed(bridge.Concat(Nets(kind, row.Fixed))));
        foreach (string position in row.Positions.Concat(row.Moments))
        {
            IEnumerable<string> joined = Nets(kind, row.Switched.Where(bond => bond.Position == position).Select(bond => new FixedBond(bond.From, bond.To)));
            if (!row.Switched.IsEmpty)
            {
                Line(row.Moments.Contains(position) ? $"on the way {position.Replace(">", " to ", StringComparison.Ordinal)}" : $"set {position}", Listed(joined));
            }
        }

        foreach (IGrouping<string, WheelBridge> wheels in row.Wheels.GroupBy(wheel => wheel.Position))
        {
            string what = wheels.First().Kind == WheelBridgeKind.PitEdge ? "a wheel at the edge joins" : "a wheel's back may join";
            Line($"{what}, set {wheels.Key}", Listed(wheels.Select(wheel => $"{kind.Name(wheel.From)} = {kind.Name(wheel.To)}")));
        }

        IEnumerable<string> phases = row.Phases.Where(group => group.Plus.Length + group.Minus.Length > 1).Select(group => Phase(kind, group));
        Line("left rails that must agree", kind.ThreeRail ? "" : phases.Any() ? string.Join("; ", phases) : "none", omitIfEmpty: true);
        Line("to be kept out of", string.Join(", ", row.Useless), omitIfEmpty: true);
        foreach (string gap in kind.Gaps)
        {
            Line($"without the gap at {kind.Said(gap)}", $"short when set {kind.Bench.ShortAcross(null, [.. kind.Gaps.Where(other => other != gap)]).Replace(" ", ", ", StringComparison.Ordinal)}");
        }

        text.Append(FrogLaw(kind));
        return text.ToString().TrimEnd();

        void Line(string what, string value, bool omitIfEmpty = false)
        {
            if (value != "" || !omitIfEmpty)
            {
                text.Append(CultureInfo.InvariantCulture, $"| {what} | {(value == "" ? "nothing" : value)} |\n");
            }
        }
    }

    /// <summary>Position by position the leg that each frog carries.</summary>
    private static string FrogLaw(Kind kind)
    {
        Trackwork row = kind.Row;
        PieceNode[] frogs = [.. row.Fixed.SelectMany(bond => new[] { bond.From, bond.To }).Concat(row.Switched.SelectMany(bond => new[] { bond.From, bond.To }))
            .Where(node => node.Side is null && node.Name.StartsWith("frog", StringComparison.Ordinal))
            .Distinct().OrderBy(node => Array.IndexOf(s_order, node.Name)).ThenBy(node => node.Name, StringComparer.Ordinal)];
        if (frogs.Length == 0 || kind.ThreeRail)
        {
            return "";
        }

        StringBuilder text = new();
        bool slip = kind.Piece is Piece.Slip;
        text.Append(CultureInfo.InvariantCulture, $"\n| set |{(slip ? " west points | east points |" : "")} {string.Join(" | ", frogs.Select(kind.Name))} |\n");
        text.Append(CultureInfo.InvariantCulture, $"| --- |{(slip ? " --- | --- |" : "")}{string.Concat(frogs.Select(_ => " --- |"))}\n");
        foreach (string position in row.Positions)
        {
            IEnumerable<string> legs = frogs.Select(frog => kind.Bench.Shows(frog, position, kind.Gaps) switch { "A" => "left", "B" => "right", "" => "–", _ => "short" });
            text.Append(CultureInfo.InvariantCulture, $"| {position} |{(kind.Piece is Piece.Slip set ? PointsOf(position, set) : "")} {string.Join(" | ", legs)} |\n");
        }

        return text.ToString();
    }

    /// <summary>How the west and the east points stand. Of a single slip each track has points at one end only.</summary>
    private static string PointsOf(string position, Piece.Slip slip) => (slip.Double, position) switch
    {
        (true, "a") => " to a2 | to a1 |",
        (true, "b") => " to b2 | to b1 |",
        (true, "a1-b2") => " to b2 | to a1 |",
        (true, _) => " to a2 | to b1 |",
        (false, "a") => slip.Drive == SlipDrive.Route ? " straight | any |" : " straight | slip |",
        (false, "b") => slip.Drive == SlipDrive.Route ? " any | straight |" : " slip | straight |",
        (false, "a1-b2") => " slip | slip |",
        (false, _) => " straight | straight |",
    };

    private static string Phase(Kind kind, PhaseGroup group)
    {
        string[] turned = [.. group.Plus.Concat(group.Minus).Where(end => group.Plus.Contains(end) != kind.IsPlus(end))];
        IEnumerable<string> ends = group.Plus.Concat(group.Minus).Select(end => turned.Contains(end) ? $"{end} (its right)" : end);
        return string.Join(", ", ends);
    }

    private static string Listed(IEnumerable<string> joined) => string.Join("; ", joined);

    /// <summary>Conductors that are one piece of metal, in order of first mention.</summary>
    private static List<string> Nets(Kind kind, IEnumerable<FixedBond> bonds)
    {
        List<List<PieceNode>> nets = [];
        foreach (FixedBond bond in bonds)
        {
            List<List<PieceNode>> touched = [.. nets.Where(net => net.Contains(bond.From) || net.Contains(bond.To))];
            List<PieceNode> joined = [.. touched.SelectMany(net => net), bond.From, bond.To];
            int at = touched.Count > 0 ? nets.IndexOf(touched[0]) : nets.Count;
            nets.Insert(at, [.. joined.Distinct()]);
            nets.RemoveAll(touched.Contains);
        }

        return [.. nets.Select(net => string.Join(" = ", net.Select(kind.Name)))];
    }

    private static string Words(TieZones zone) => zone switch
    {
        TieZones.FrogLeft => "frog, to the left stock rail",
        TieZones.FrogRight => "frog, to the right stock rail",
        _ => zone.ToString().ToLowerInvariant(),
    };

    private static Piece.Turnout Right(FrogKind frog) => new(new("X"), TurnoutHand.Right, frog);

    private static Piece.MultiTurnout ThreeWay(FrogKind frog) => new(new("X"), 3, frog);

    private static Piece.Crossing Crossing(FrogKind frog) => new(new("X"), Angle.FromDegrees(30), frog) { Feed = FrogFeed.Contact };

    private static Piece.Slip Slip(bool @double, FrogKind frog) => new(new("X"), @double, frog) { Feed = FrogFeed.Contact };

    private static Piece.Turntable Turntable(int roads, BridgeFeed feed) => new(new("X"), roads, Metre) { Feed = feed };

    private static Piece.TransferTable Transfer(BridgeFeed feed) => new(new("X"), 2, Metre) { Feed = feed };

    [GeneratedRegex("(?<begin><!-- table: (?<name>[a-z -]+) -->)\n(.*?\n)??(?<end><!-- end -->)", RegexOptions.Singleline | RegexOptions.ExplicitCapture, matchTimeoutMilliseconds: 2000)]
    private static partial Regex Marked();

    /// <summary>A kind of piece on the page; gaps are given as on the page, <c>left right</c> for the right rail of the end left.</summary>
    private sealed record Kind(string Table, string Title, Piece Piece, string PlusEnds, params string[] GapsAsSaid)
    {
        public bool ThreeRail { get; init; }

        /// <summary>Ends whose left rail carries the other leg, so that everything is fed rightly.</summary>
        public string Opposite { get; init; } = "";

        public Trackwork Row => TrackworkTable.Of(Piece, ThreeRail ? ControlSystem.ThreeRail : ControlSystem.Command);

        public RowBench Bench => new(Row, PlusEnds, Opposite);

        /// <summary>As the bench wants them: the end, then L or R along the piece.</summary>
        public string[] Gaps => [.. GapsAsSaid.Select(gap => $"{gap.Split(' ')[0]} {(gap.EndsWith("left", StringComparison.Ordinal) ? "L" : "R")}")];

        public bool IsPlus(string end) => PlusEnds.Split(' ').Contains(end);

        /// <summary>Of a gap as the bench wants it, the rail as said on the page and as written in a layout file.</summary>
        public string Said(string gap)
        {
            string[] words = gap.Split(' ');
            bool left = words[1] == "L";
            return $"{Said(words[0], left)} (in the file: `{words[0]}`, {(left != IsPlus(words[0]) ? "left" : "right")})";
        }

        private static string Said(string end, bool left) => $"{(end is "left" or "right" ? $"{end} leg" : end)} {(left ? "left" : "right")}";

        public string Name(PieceNode node)
        {
            if (node.Side is { } side)
            {
                return side is RailSide.Left or RailSide.Right
                    ? Said(node.Name, (side == RailSide.Left) != IsPlus(node.Name))
                    : $"{node.Name} {(side == RailSide.Centre ? "centre" : "running")}";
            }

            string[] parts = node.Name.Split('/', '-');
            return parts switch
            {
                ["ring", var half] => $"ring half {(half is "left" or "centre" ? "A" : "B")}",
                ["head", "left"] => "bridge head right",
                ["head", "right"] => "bridge head left",
                ["head" or "tail", _] => $"bridge {parts[0]} {parts[1]}",
                ["frog"] => "frog",
                ["frog", "1" or "2" or "3" or "4" or "5" or "6" or "7" or "8" or "9", _] => $"frog {parts[1]}·{parts[2]}",
                ["frog", var where] => $"{where} frog",
                ["frog", var track, var where] => $"{where} frog of {track}",
                _ => node.Name,
            };
        }
    }
}
