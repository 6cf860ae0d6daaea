using UnitsNet;

namespace WireUp.Layouts.Tests.Support;

/// <summary>Pieces of every kind by chance, within the rules of the format.</summary>
internal sealed class RandomPiece(Random random)
{
    /// <summary>A piece of that name; about every other one is a section.</summary>
    public Piece Make(PieceId id, Func<RailMaterial> rail) => random.Next(16) switch
    {
        0 => Turnout(id),
        1 => MultiTurnout(id),
        2 => Crossing(id),
        3 => Slip(id),
        4 => Scissors(id),
        5 => Turntable(id),
        6 => new Piece.TransferTable(id, random.Next(1, 101), Metres(0.1, 1)) { Feed = Pick(BridgeFeed.Wires, BridgeFeed.Roads) },
        7 => new Piece.Stop(id),
        _ => new Piece.Section(id, Metres(0.05, 12))
        {
            Rail = Chance() ? rail() : null,
            LiftOut = random.Next(4) == 0,
            Path = Chance() ? [new(Number(-3, 3), Number(-3, 3)), new(Number(-3, 3), 0)] : [],
        },
    };

    private Piece.Turnout Turnout(PieceId id)
    {
        TurnoutHand hand = Pick(TurnoutHand.Left, TurnoutHand.Right, TurnoutHand.Wye);
        FrogKind frog = Frog();
        FrogFeed feed = Feed(frog);
        bool stub = Chance(), copper = Chance();
        return new(id, hand, frog)
        {
            Feed = feed,
            Curved = hand != TurnoutHand.Wye && Chance(),
            Stub = stub,
            PowerRouting = frog == FrogKind.Insulated && !stub && Chance(),
            HeelInFrog = frog == FrogKind.Isolated && Chance(),
            EarlyContact = feed == FrogFeed.Contact && Chance(),
            CopperClad = copper,
            Uncut = copper ? (TieZones)random.Next(32) : TieZones.None,
            Number = Chance() ? Number(4, 12) : null,
            Length = Some(0.5),
            DeadLength = Some(0.05),
        };
    }

    private Piece.MultiTurnout MultiTurnout(PieceId id)
    {
        FrogKind frog = Frog();
        return new(id, random.Next(3, 10), frog)
        {
            Feed = Feed(frog),
            PowerRouting = frog == FrogKind.Insulated && Chance(),
            Length = Some(0.5),
            DeadLength = Some(0.05),
        };
    }

    private Piece.Crossing Crossing(PieceId id)
    {
        FrogKind frog = Frog();
        return new(id, Degrees(), frog) { Feed = Feed(frog), OppositePhase = frog == FrogKind.Live && Chance(), Length = Some(0.5), DeadLength = Some(0.05) };
    }

    private Piece.Slip Slip(PieceId id)
    {
        FrogKind frog = Frog();
        FrogFeed feed = Feed(frog);
        return new(id, Chance(), frog)
        {
            Feed = feed,
            Drive = feed == FrogFeed.Contact ? Pick(SlipDrive.OtherEnd, SlipDrive.OwnEnd, SlipDrive.Route) : SlipDrive.OtherEnd,
            Angle = Chance() ? Degrees() : null,
            Length = Some(0.5),
            DeadLength = Some(0.05),
        };
    }

    private Piece.Scissors Scissors(PieceId id)
    {
        FrogKind frog = Frog();
        return new(id, frog) { Feed = Feed(frog), Angle = Chance() ? Degrees() : null, Length = Some(0.5), DeadLength = Some(0.05) };
    }

    private Piece.Turntable Turntable(PieceId id)
    {
        int roads = random.Next(2, 101);
        Piece.Turntable turntable = new(id, roads, Metres(0.1, 1)) { Feed = Pick(BridgeFeed.Wires, BridgeFeed.SplitRing, BridgeFeed.Roads) };
        return turntable.Feed == BridgeFeed.SplitRing && Chance() ? turntable with { SplitAfter = random.Next(1, roads + 1) } : turntable;
    }

    private FrogKind Frog() => Pick(FrogKind.Insulated, FrogKind.Isolated, FrogKind.Live);

    private FrogFeed Feed(FrogKind frog) => frog == FrogKind.Insulated ? FrogFeed.None : Pick(FrogFeed.None, FrogFeed.Contact, FrogFeed.Sensor);

    private Length? Some(double most) => Chance() ? Metres(0, most) : null;

    private Length Metres(double least, double most) => Length.FromMeters(Math.Max(Number(least, most), 0.001));

    private Angle Degrees() => Angle.FromDegrees(Number(5, 90));

    private bool Chance() => random.Next(2) == 0;

    private T Pick<T>(params ReadOnlySpan<T> choices) => choices[random.Next(choices.Length)];

    private double Number(double least, double most) => Math.Round(least + ((most - least) * random.NextDouble()), random.Next(1, 5)) + 0.0;
}
