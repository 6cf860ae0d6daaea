using UnitsNet;

namespace WireUp.Layouts.Tests.Support;

/// <summary>One piece of each kind in each of its ways, as a person writes it and as it is read. Frogs are isolated by default.</summary>
internal static class EveryPiece
{
    private static readonly PieceId U = new("u");

    public static IReadOnlyDictionary<string, Piece> ByText { get; } = new Dictionary<string, Piece>(StringComparer.Ordinal)
    {
        ["length: 900"] = new Piece.Section(U, Metres(0.9)),
        ["length: 900, lift-out: true"] = new Piece.Section(U, Metres(0.9)) { LiftOut = true },
        ["length: 900, lift-out: false"] = new Piece.Section(U, Metres(0.9)),
        ["stop: true"] = new Piece.Stop(U),
        ["turnout: left"] = Left(FrogKind.Isolated),
        ["turnout: right, curved: true"] = new Piece.Turnout(U, TurnoutHand.Right, FrogKind.Isolated) { Curved = true },
        ["turnout: wye, stub: true, frog: live"] = new Piece.Turnout(U, TurnoutHand.Wye, FrogKind.Live) { Stub = true },
        ["turnout: left, frog: live, frog-feed: contact"] = Left(FrogKind.Live) with { Feed = FrogFeed.Contact },
        ["turnout: left, frog-feed: sensor"] = Left(FrogKind.Isolated) with { Feed = FrogFeed.Sensor },
        ["turnout: left, frog: insulated, power-routing: true"] = Left(FrogKind.Insulated) with { PowerRouting = true },
        ["turnout: left, heel: frog, frog-feed: contact"] = Left(FrogKind.Isolated) with { HeelInFrog = true, Feed = FrogFeed.Contact },
        ["turnout: left, heel: stock-rails"] = Left(FrogKind.Isolated),
        ["turnout: left, frog-feed: contact, contact: early"] = Left(FrogKind.Isolated) with { Feed = FrogFeed.Contact, EarlyContact = true },
        ["turnout: left, contact: centred"] = Left(FrogKind.Isolated),
        ["turnout: left, frog: live, ties: copper-clad"] = Left(FrogKind.Live) with { CopperClad = true },
        ["turnout: left, ties: copper-clad, uncut: [switch, frog-right, beyond]"] =
            Left(FrogKind.Isolated) with { CopperClad = true, Uncut = TieZones.Switch | TieZones.FrogRight | TieZones.Beyond },
        ["turnout: left, ties: copper-clad, uncut: [closure, frog-left]"] =
            Left(FrogKind.Isolated) with { CopperClad = true, Uncut = TieZones.Closure | TieZones.FrogLeft },
        ["turnout: three-way, frog: live, length: 220"] = new Piece.MultiTurnout(U, 3, FrogKind.Live) { Length = Metres(0.22) },
        ["turnout: multi, legs: 4, frog-feed: contact"] = new Piece.MultiTurnout(U, 4, FrogKind.Isolated) { Feed = FrogFeed.Contact },
        ["legs: 9, turnout: multi, frog: insulated, power-routing: true, dead-length: 9"] =
            new Piece.MultiTurnout(U, 9, FrogKind.Insulated) { PowerRouting = true, DeadLength = Metres(0.009) },
        ["crossing: 30 deg"] = Crossing(FrogKind.Isolated),
        ["crossing: 30 deg, frog-feed: sensor"] = Crossing(FrogKind.Isolated) with { Feed = FrogFeed.Sensor },
        ["crossing: 30 deg, frog: live, frog-feed: contact, phase: opposite"] = Crossing(FrogKind.Live) with { Feed = FrogFeed.Contact, OppositePhase = true },
        ["crossing: 30 deg, frog: live, phase: same, length: 150, dead-length: 8"] =
            Crossing(FrogKind.Live) with { Length = Metres(0.15), DeadLength = Metres(0.008) },
        ["slip: single, frog: insulated"] = new Piece.Slip(U, false, FrogKind.Insulated),
        ["slip: double, angle: 12.5 deg, length: 240"] = new Piece.Slip(U, true, FrogKind.Isolated) { Angle = Angle.FromDegrees(12.5), Length = Metres(0.24) },
        ["slip: double, frog: live, frog-feed: contact, frog-drive: other-end"] = new Piece.Slip(U, true, FrogKind.Live) { Feed = FrogFeed.Contact },
        ["slip: single, frog: live, frog-feed: contact, frog-drive: own-end"] =
            new Piece.Slip(U, false, FrogKind.Live) { Feed = FrogFeed.Contact, Drive = SlipDrive.OwnEnd },
        ["slip: single, frog-feed: contact, frog-drive: route"] =
            new Piece.Slip(U, false, FrogKind.Isolated) { Feed = FrogFeed.Contact, Drive = SlipDrive.Route },
        ["scissors: 20 deg, frog: live, frog-feed: contact"] =
            new Piece.Scissors(U, FrogKind.Live) { Feed = FrogFeed.Contact, Angle = Angle.FromDegrees(20) },
        ["scissors: true, length: 600, dead-length: 10"] = new Piece.Scissors(U, FrogKind.Isolated) { Length = Metres(0.6), DeadLength = Metres(0.01) },
        ["turntable: 24, length: 300"] = new Piece.Turntable(U, 24, Metres(0.3)),
        ["turntable: 9, length: 300, feed: roads"] = new Piece.Turntable(U, 9, Metres(0.3)) { Feed = BridgeFeed.Roads },
        ["turntable: 24, length: 300, feed: split-ring"] = new Piece.Turntable(U, 24, Metres(0.3)) { Feed = BridgeFeed.SplitRing, SplitAfter = 12 },
        ["turntable: 24, length: 300, feed: split-ring, split-after: 3"] =
            new Piece.Turntable(U, 24, Metres(0.3)) { Feed = BridgeFeed.SplitRing, SplitAfter = 3 },
        ["transfer-table: 5, length: 1 ft"] = new Piece.TransferTable(U, 5, Metres(0.3048)),
        ["transfer-table: 100, length: 300, feed: roads"] = new Piece.TransferTable(U, 100, Metres(0.3)) { Feed = BridgeFeed.Roads },
    };

    /// <summary>A file with the piece, comments around it, and a section joined to its first end.</summary>
    public static string File(string text) => $$"""
        wireup: 1
        name: Every piece
        longest-train: 1 m          # first to last wheel
        defaults: { frog: isolated }
        track:
          # the one that matters
          u: { {{text}}, x-bought: spring }   # from the club
          s: { length: 2 m }
        joined:
          - s > u.{{ByText[text].EndNames[0]}}   # here
        wiring:
          boosters: { main: { amps: 5 A } }
          districts: { east: { booster: main, trip: 3 A } }
          # no feeders yet

        """;

    /// <summary>All of them in one file, with switches and what they switch.</summary>
    public static string Whole { get; } =
        "wireup: 1\nname: All\nlongest-train: 1 m\ndefaults: { frog: isolated }\ntrack:\n  s: { length: 2 m }\n"
        + string.Concat(ByText.Keys.Select((text, i) => $"  u{i}: {{ {text} }}\n"))
        + "joined:\n"
        + string.Concat(ByText.Values.Select((piece, i) => (piece, i)).Where(one => one.piece.EndNames.Length > 2).Chunk(2).Where(pair => pair.Length == 2)
            .Select(pair => $"  - u{pair[0].i}.{pair[0].piece.EndNames[0]} > u{pair[1].i}.{pair[1].piece.EndNames[1]}\n"))
        + """
        wiring:
          boosters: { main: { amps: 5 A, isolated: false, phase: turned } }
          districts: { east: { booster: main, trip: 3 A }, test: { booster: main, trip: 1 A, use: programming } }
          switches: { B1: [cab-a, cab-b, off] }
          feeders: { f1: { at: s@1 m, bus: main, district: east, wire: 20 AWG, length: 200, when: B1.cab-a } }
          gaps: [ { at: s@500, rails: left, bridged-when: u4.diverging } ]

        """;

    private static Length Metres(double metres) => Length.FromMeters(metres);

    private static Piece.Turnout Left(FrogKind frog) => new(U, TurnoutHand.Left, frog);

    private static Piece.Crossing Crossing(FrogKind frog) => new(U, Angle.FromDegrees(30), frog);
}
