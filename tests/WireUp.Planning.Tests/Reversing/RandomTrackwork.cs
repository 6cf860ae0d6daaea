using System.Globalization;
using UnitsNet;
using WireUp.Layouts;

namespace WireUp.Planning.Tests.Reversing;

/// <summary>Random track plans with every kind of trackwork, sections between their ends at random, a few ends left open.</summary>
internal static class RandomTrackwork
{
    /// <param name="seed">Same seed, same layout.</param>
    /// <param name="trackwork">How many pieces of trackwork; at least 1.</param>
    public static Layout Of(int seed, int trackwork)
    {
        Random random = new(seed);
        return RandomTrack.Around(Enumerable.Range(1, trackwork).Select(i => Make(new($"W{i}"), random)), random, seed, draw => draw.Next(12) == 0);
    }

    /// <summary>Pieces and joints in a few lines, for messages.</summary>
    public static string Describe(Layout layout) =>
        string.Join("; ", layout.Track.Select(Describe)) + " | " + string.Join(", ", layout.Joints.Select(joint => $"{joint.First}>{joint.Second}"));

    private static string Describe(Piece piece) => string.Create(CultureInfo.InvariantCulture, $"{piece.Id} {piece switch
    {
        Piece.Section section => $"{section.Length.Meters}{(section.LiftOut ? " lift-out" : "")}",
        Piece.Turnout turnout => $"{turnout.Hand} {turnout.Frog} {turnout.Feed}{(turnout.Stub ? " stub" : "")}{(turnout.HeelInFrog ? " heel" : "")}{(turnout.PowerRouting ? " routing" : "")}",
        Piece.MultiTurnout turnout => $"{turnout.LegCount} legs {turnout.Frog} {turnout.Feed}",
        Piece.Crossing crossing => $"crossing {crossing.Frog} {crossing.Feed}{(crossing.OppositePhase ? " opposite" : "")}",
        Piece.Slip slip => $"{(slip.Double ? "double" : "single")} slip {slip.Frog} {slip.Feed} {slip.Drive}",
        Piece.Scissors scissors => $"scissors {scissors.Frog} {scissors.Feed}",
        Piece.Turntable table => $"turntable {table.RoadCount} {table.Feed}",
        Piece.TransferTable table => $"transfer {table.RoadCount} {table.Feed}",
        _ => piece.GetType().Name,
    }}");

    private static Piece Make(PieceId id, Random random)
    {
        Length length = Length.FromMillimeters(random.Next(2) * 250);
        FrogFeed feed = (FrogFeed)random.Next(3);
        FrogKind frog = (FrogKind)random.Next(3);
        return random.Next(9) switch
        {
            0 => new Piece.Turnout(id, (TurnoutHand)random.Next(3), frog) { Length = length, Feed = feed },
            1 => new Piece.Turnout(id, (TurnoutHand)random.Next(3), frog)
            {
                Stub = random.Next(2) == 0,
                HeelInFrog = frog == FrogKind.Isolated,
                PowerRouting = frog == FrogKind.Insulated,
                Feed = feed,
            },
            2 => new Piece.MultiTurnout(id, random.Next(3, 6), frog) { Feed = feed, Length = length },
            3 => new Piece.Crossing(id, Angle.FromDegrees(30), frog) { Feed = feed, OppositePhase = random.Next(2) == 0, Length = length },
            4 or 5 => new Piece.Slip(id, random.Next(2) == 0, frog) { Feed = feed, Length = length, Drive = random.Next(2) == 0 ? SlipDrive.OtherEnd : SlipDrive.Route },
            6 => new Piece.Scissors(id, frog) { Feed = feed, Length = length },
            7 => new Piece.Turntable(id, random.Next(2, 7), Length.FromMillimeters(300)) { Feed = (BridgeFeed)random.Next(3) },
            _ => new Piece.TransferTable(id, random.Next(1, 4), Length.FromMillimeters(300)) { Feed = random.Next(2) == 0 ? BridgeFeed.Wires : BridgeFeed.Roads },
        };
    }
}
