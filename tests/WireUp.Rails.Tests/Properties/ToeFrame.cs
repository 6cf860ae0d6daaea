using System.Globalization;
using WireUp.Layouts;

namespace WireUp.Rails.Tests.Properties;

/// <summary>
/// What touches what inside every kind of piece, written down a second time from the handbook's tables and in their frame, that of somebody
/// who looks along the piece: from a turnout's toe to its heel, from a crossing's west to its east, from a section's end a to its end b. Left
/// and right are the same at both ends then, and no rail is named after the way it is seen from an end. Uses nothing of the engine.
/// </summary>
internal static class ToeFrame
{
    private const string L = "L", R = "R", F = "F";

    /// <summary>Whether an end is looked into (toe, west, end a) and not out of (heel, east, end b).</summary>
    public static bool IsToe(Piece piece, string end) => piece switch
    {
        Piece.Section or Piece.Stop => end == "a",
        Piece.Turnout or Piece.MultiTurnout => end == "points",
        Piece.Crossing or Piece.Slip or Piece.Scissors => end is "a1" or "b1",
        Piece.TransferTable => end.StartsWith('w'),
        _ => true,
    };

    /// <summary>Everything that touches inside a piece; a touch without positions is there always.</summary>
    public static IEnumerable<Touch> Of(Piece piece, bool threeRail) => threeRail ? ThreeRail(piece) : piece switch
    {
        Piece.Turnout turnout => Turnout(turnout),
        Piece.MultiTurnout turnout => MultiTurnout(turnout),
        Piece.Crossing crossing => Crossing(crossing),
        Piece.Slip slip => Slip(slip),
        Piece.Scissors scissors => Scissors(scissors),
        Piece.Turntable table => Turntable(table),
        Piece.TransferTable table => TransferTable(table),
        _ => [],
    };

    /// <summary>The positions and, marked with an arrow, the moments between them.</summary>
    public static string[] PositionsOf(Piece piece) => piece switch
    {
        Piece.Section { LiftOut: true } => ["in", "out"],
        Piece.Turnout turnout => [turnout.LeftLeg, turnout.RightLeg, $"{turnout.LeftLeg}>{turnout.RightLeg}", $"{turnout.RightLeg}>{turnout.LeftLeg}"],
        Piece.MultiTurnout turnout => [.. turnout.Legs],
        Piece.Crossing => ["a", "b"],
        Piece.Slip { Double: true } => ["a", "b", "a1-b2", "b1-a2"],
        Piece.Slip => ["a", "b", "a1-b2", "straight"],
        Piece.Scissors => ["straight", "a1-b2", "b1-a2"],
        Piece.Turntable table => [.. Stands(table).Select(stand => stand.Position)],
        Piece.TransferTable table => [.. Numbers(table.RoadCount)],
        _ => [],
    };

    private static IEnumerable<Touch> Turnout(Piece.Turnout t)
    {
        (string p, string q) = (t.LeftLeg, t.RightLeg);
        (string toQ, string toP) = ($"{p}>{q}", $"{q}>{p}");
        bool metal = t.Frog != FrogKind.Insulated, live = t.Frog == FrogKind.Live, contact = metal && t.Feed != FrogFeed.None;
        bool heelInFrog = live || (t.Frog == FrogKind.Isolated && t.HeelInFrog);
        bool early = contact && t.EarlyContact && t.Feed == FrogFeed.Contact && (live || t.Stub);
        string pInner = heelInFrog ? F : $"{p} {R}", qInner = heelInFrog ? F : $"{q} {L}";
        string[] pTimes = early ? [p, toQ] : [p], qTimes = early ? [q, toP] : [q];
        if (heelInFrog)
        {
            yield return new($"{p} {R}", F);
            yield return new($"{q} {L}", F);
        }

        yield return new("points L", $"{p} L", t.Stub ? pTimes : []);
        yield return new("points R", $"{q} R", t.Stub ? qTimes : []);
        if (t.Stub ? live || !heelInFrog : live)
        {
            yield return new("points R", pInner, pTimes);
            yield return new("points L", qInner, qTimes);
        }
        else if (!t.Stub && !heelInFrog)
        {
            bool byBlade = !metal && t.PowerRouting;
            yield return new("points R", pInner, byBlade ? pTimes : []);
            yield return new("points L", qInner, byBlade ? qTimes : []);
        }

        if (contact)
        {
            yield return new(F, "points R", early ? [p, toP] : [p]);
            yield return new(F, "points L", early ? [q, toQ] : [q]);
        }

        foreach (Touch foil in t.CopperClad ? Foil(t, p, q) : [])
        {
            yield return foil;
        }
    }

    private static IEnumerable<Touch> Foil(Piece.Turnout t, string p, string q)
    {
        bool metal = t.Frog != FrogKind.Insulated;
        if (t.Uncut.HasFlag(TieZones.Switch) || t.Uncut.HasFlag(TieZones.Closure))
        {
            yield return new("points L", "points R");
            yield return new("points L", t.Frog == FrogKind.Live ? F : "points L");
        }

        if (metal && t.Uncut.HasFlag(TieZones.FrogLeft)) yield return new("points L", F);
        if (metal && t.Uncut.HasFlag(TieZones.FrogRight)) yield return new("points R", F);
        if (t.Uncut.HasFlag(TieZones.Beyond))
        {
            yield return new($"{p} L", $"{p} R");
            yield return new($"{p} R", $"{q} L");
            yield return new($"{q} L", $"{q} R");
        }
    }

    /// <summary>Frog of legs j and k: right stock rail when j is set or a leg left of it, left stock rail when k or a leg right of it.</summary>
    private static IEnumerable<Touch> MultiTurnout(Piece.MultiTurnout t)
    {
        string[] legs = [.. t.Legs];
        int n = legs.Length;
        yield return new("points L", $"{legs[0]} L");
        yield return new("points R", $"{legs[n - 1]} R");
        for (int j = 0; j < n && t.Frog != FrogKind.Live; j++)
        {
            bool routing = t is { Frog: FrogKind.Insulated, PowerRouting: true };
            yield return new("points L", $"{legs[j]} L", routing && j > 0 ? legs[j..] : []);
            yield return new("points R", $"{legs[j]} R", routing && j < n - 1 ? legs[..(j + 1)] : []);
        }

        for (int j = 0; j < n; j++)
        {
            for (int k = j + 1; k < n; k++)
            {
                string frog = $"F{j + 1}{k + 1}";
                if (t.Frog == FrogKind.Live && k == j + 1)
                {
                    yield return new(frog, $"{legs[j]} R");
                    yield return new(frog, $"{legs[k]} L");
                }

                if (t.Frog == FrogKind.Live || (t.Frog == FrogKind.Isolated && t.Feed != FrogFeed.None))
                {
                    yield return new(frog, "points R", legs[..(j + 1)]);
                    yield return new(frog, "points L", legs[k..]);
                }
            }
        }
    }

    /// <summary>Rails end to end, passing the frogs: a left NW KN E SE, a right NW W KS SE, b left SW W KN NE, b right SW KS E NE.</summary>
    private static readonly Touch[] CutAtFrogs =
    [
        new("a1 L", "KN"), new("E", "a2 L"), new("a1 R", "W"), new("KS", "a2 R"),
        new("b1 L", "W"), new("KN", "b2 L"), new("b1 R", "KS"), new("E", "b2 R"),
    ];

    private static readonly Touch[] AllOne =
    [
        new("a1 L", "b1 L"), new("b1 L", "a2 L"), new("a2 L", "b2 L"), new("a1 R", "b1 R"), new("b1 R", "a2 R"), new("a2 R", "b2 R"),
    ];

    private static IEnumerable<Touch> Crossing(Piece.Crossing x)
    {
        bool fed = x.Feed != FrogFeed.None;
        Touch[] through = [new("a1 L", "a2 L"), new("a1 R", "a2 R"), new("b1 L", "b2 L"), new("b1 R", "b2 R")];
        return x switch
        {
            { Frog: FrogKind.Live, OppositePhase: false } => fed
                ? [.. CutAtFrogs, new("W", "KS", ["a"]), new("W", "KN", ["b"]), new("E", "KN", ["a"]), new("E", "KS", ["b"])]
                : CutAtFrogs,
            { Frog: FrogKind.Live } => fed
                ? [.. CutAtFrogs, new("KN", "E", ["a"]), new("KN", "W", ["b"]), new("KS", "W", ["a"]), new("KS", "E", ["b"])]
                : CutAtFrogs,
            { Frog: FrogKind.Isolated } when fed =>
            [
                .. through, new("W", "a1 R", ["a"]), new("W", "b1 L", ["b"]), new("E", "a1 L", ["a"]), new("E", "b1 R", ["b"]),
                new("KN", "a1 L", ["a"]), new("KN", "b1 L", ["b"]), new("KS", "a1 R", ["a"]), new("KS", "b1 R", ["b"]),
            ],
            _ => through,
        };
    }

    /// <summary>The table of the double slip, row by row: route, west vee, east vee. The single slip has its own last row.</summary>
    private static IEnumerable<Touch> Slip(Piece.Slip x)
    {
        IEnumerable<Touch> rails = x.Frog != FrogKind.Live ? AllOne : [.. CutAtFrogs, new("a1 L", "b2 L"), .. x.Double ? [new Touch("b1 R", "a2 R")] : Array.Empty<Touch>()];
        if (x.Frog == FrogKind.Insulated || x.Feed == FrogFeed.None)
        {
            return rails;
        }

        (string a, string b) = x.Frog == FrogKind.Live ? ("KN", "KS") : ("b2 L", "b2 R");
        SlipDrive drive = x.Feed == FrogFeed.Sensor ? SlipDrive.Route : x.Drive; // a sensor finds out which route it is
        (string Route, string Vees)[] table = (x.Double, drive) switch
        {
            (true, SlipDrive.OwnEnd) => [("a", "BA"), ("b", "AB"), ("a1-b2", "AA"), ("b1-a2", "BB")],
            (true, _) => [("a", "BA"), ("b", "AB"), ("a1-b2", "BB"), ("b1-a2", "AA")],
            (false, SlipDrive.OwnEnd) => [("a", "BA"), ("b", "AB"), ("a1-b2", "AA"), ("straight", "BB")],
            (false, SlipDrive.Route) => [("a", "BA"), ("b", "AB"), ("a1-b2", "BB")],
            (false, _) => [("a", "BA"), ("b", "AB"), ("a1-b2", "BB"), ("straight", "AA")],
        };
        return
        [
            .. rails,
            .. table.SelectMany(row => new Touch[]
            {
                new("W", row.Vees[0] == 'A' ? a : b, [row.Route]), new("E", row.Vees[1] == 'A' ? a : b, [row.Route]),
            }),
        ];
    }

    /// <summary>The table of the scissors; a dot where nothing is asked. Tracks: north a1–a2, south b1–b2.</summary>
    private static IEnumerable<Touch> Scissors(Piece.Scissors x)
    {
        bool live = x.Frog == FrogKind.Live, fed = x.Frog != FrogKind.Insulated && x.Feed != FrogFeed.None;
        (string Frog, string End, string StraightFirstSecond)[] corners = [("Fnw", "a1", "BAB"), ("Fne", "a2", "BBA"), ("Fsw", "b1", "AAB"), ("Fse", "b2", "ABA")];
        (string Frog, string StraightFirstSecond)[] vees = [("W", ".BA"), ("E", ".AB")];
        Touch[] rails = live ? [new("a1 L", "a2 L"), new("b1 R", "b2 R"), new("KN", "a2 L"), new("KS", "b2 R")] : AllOne;
        string[] set = ["straight", "a1-b2", "b1-a2"];
        return
        [
            .. rails,
            .. from corner in live || fed ? corners : []
               from i in new[] { 0, 1, 2 }
               select new Touch(corner.Frog, $"{corner.End} {(corner.StraightFirstSecond[i] == 'A' ? L : R)}", [set[i]]),
            .. from vee in fed ? vees : []
               from i in new[] { 1, 2 }
               let isA = vee.StraightFirstSecond[i] == 'A'
               select new Touch(vee.Frog, live ? (isA ? "KN" : "KS") : (isA ? "b1 L" : "b1 R"), [set[i]]),
        ];
    }

    /// <summary>
    /// A road is looked at from its end towards the pit. A bridge whose head stands there goes on with left and right; at its tail a train leaves
    /// the bridge, and left of the bridge is right of the road.
    /// </summary>
    private static IEnumerable<Touch> Turntable(Piece.Turntable table)
    {
        foreach ((string position, int? head, int? tail) in Stands(table))
        {
            if (table.Feed == BridgeFeed.Roads)
            {
                foreach (Touch touch in new[] { (Road: head, End: "head", Left: L, Right: R), (Road: tail, End: "tail", Left: R, Right: L) }
                    .Where(at => at.Road is not null)
                    .SelectMany(at => new Touch[] { new($"t{at.Road} L", $"{at.End} {at.Left}", [position]), new($"t{at.Road} R", $"{at.End} {at.Right}", [position]) }))
                {
                    yield return touch;
                }
            }
            else if (table.Feed == BridgeFeed.SplitRing)
            {
                // Looking into the pit the left rail of a road in the first half is on the left side of the feeders.
                bool headIsLeft = head is { } atHead ? IsFirstHalf(table, atHead) : !IsFirstHalf(table, tail!.Value);
                yield return new("ring L", headIsLeft ? "head L" : "head R", [position]);
                yield return new("ring R", headIsLeft ? "head R" : "head L", [position]);
            }
        }
    }

    /// <summary>Going back, counter-clockwise, from the road at the split one meets half of the roads.</summary>
    private static bool IsFirstHalf(Piece.Turntable table, int road) =>
        Enumerable.Range(0, table.RoadCount / 2).Any(back => ((table.SplitAfter - back - 1 + (2 * table.RoadCount)) % table.RoadCount) + 1 == road);

    private static IEnumerable<(string Position, int? Head, int? Tail)> Stands(Piece.Turntable table)
    {
        int n = table.RoadCount;
        for (int road = 1; road <= n; road++)
        {
            int opposite = road + (n / 2) > n ? road + (n / 2) - n : road + (n / 2);
            yield return ($"t{road}", road, n % 2 == 0 ? opposite : null);
            if (n % 2 == 1)
            {
                yield return ($"t{road}-tail", null, road);
            }
        }
    }

    private static IEnumerable<string> Numbers(int count) => Enumerable.Range(1, count).Select(number => number.ToString(CultureInfo.InvariantCulture));

    private static IEnumerable<Touch> TransferTable(Piece.TransferTable table) =>
        from number in table.Feed == BridgeFeed.Roads ? Numbers(table.RoadCount) : []
        from rail in new[] { L, R }
        from touch in new Touch[] { new($"w{number} {rail}", $"head {rail}", [number]), new($"e{number} {rail}", $"tail {rail}", [number]) }
        select touch;

    /// <summary>L is the centre, R the running rails.</summary>
    private static IEnumerable<Touch> ThreeRail(Piece piece)
    {
        string[][] centres = piece switch
        {
            Piece.Crossing => [["a1", "a2"], ["b1", "b2"]],
            Piece.Turnout or Piece.MultiTurnout or Piece.Slip or Piece.Scissors => [[.. piece.EndNames]],
            _ => [],
        };
        foreach (Touch touch in centres.SelectMany(ends => ends.Zip(ends.Skip(1), (one, next) => new Touch($"{one} L", $"{next} L"))))
        {
            yield return touch;
        }

        foreach ((string one, string next) in centres.Length == 0 ? [] : piece.EndNames.Zip(piece.EndNames.Skip(1)))
        {
            yield return new($"{one} R", $"{next} R");
        }

        (bool wipers, IEnumerable<(string Road, string End, string Position)> edges) = piece switch
        {
            Piece.Turntable table => (table.Feed == BridgeFeed.Roads, Stands(table).SelectMany(stand => new[] { (Road: stand.Head, End: "head"), (Road: stand.Tail, End: "tail") }
                .Where(at => at.Road is not null).Select(at => ($"t{at.Road}", at.End, stand.Position)))),
            Piece.TransferTable table => (table.Feed == BridgeFeed.Roads, Numbers(table.RoadCount).SelectMany(number => new[] { ($"w{number}", "head", number), ($"e{number}", "tail", number) })),
            _ => (false, []),
        };
        foreach ((string road, string end, string position) in edges)
        {
            yield return new($"{road} R", $"{end} R", [position]);
            if (wipers)
            {
                yield return new($"{road} L", $"{end} L", [position]);
            }
        }
    }

    /// <summary>Two conductors that touch, in some positions or always. Rails are <c>a1 L</c>, others one word.</summary>
    internal sealed record Touch(string From, string To, params string[] Positions);
}
