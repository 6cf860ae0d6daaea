using System.Collections.Immutable;
using UnitsNet;
using WireUp.Layouts.Quantities;
using WireUp.Layouts.Reading;

namespace WireUp.Layouts.Writing;

/// <summary>Writes one piece of track as the layout file has it; lengths are bare numbers in millimetres.</summary>
internal static class PieceText
{
    public static Snippet.Map Of(Piece piece) => piece switch
    {
        Piece.Section section => Of(section),
        Piece.Stop => Snippet.Of(("stop", "true")),
        Piece.Turnout turnout => Of(turnout),
        Piece.MultiTurnout turnout => Of(turnout),
        Piece.Crossing crossing => Of(crossing),
        Piece.Slip slip => Of(slip),
        Piece.Scissors scissors => Of(scissors),
        Piece.Turntable turntable => Of(turntable),
        Piece.TransferTable table => Of(table),
        _ => throw new ArgumentOutOfRangeException(nameof(piece), piece, "the format has no such piece"),
    };

    public static Snippet.Map Of(RailMaterial rail) => Snippet.Of(
        ("code", Numbers.Exact(rail.Code)),
        ("alloy", rail.Alloy),
        ("ohms-per-metre", rail.OhmsPerMetre is { } ohms ? Numbers.Exact(ohms) : null));

    public static string Of(ImmutableArray<PlanPoint> points) => $"[{string.Join(", ", points.Select(Point))}]";

    private static Snippet.Map Of(Piece.Section section) => Snippet.Of(
        ("length", IsAsLongAsPath(section) ? null : Millimetres(section.Length)),
        ("rail", section.Rail is { } rail ? Of(rail).Flow : null),
        ("lift-out", Flag(section.LiftOut)),
        ("path", section.Path.IsEmpty ? null : Of(section.Path)));

    private static bool IsAsLongAsPath(Piece.Section section) =>
        section.LengthFromPath && section.Length.Meters == Polyline.Length(section.Path);

    private static Snippet.Map Of(Piece.Turnout turnout) => Snippet.Of(
        ("turnout", Words.Of(Words.Turnout, turnout.Hand)),
        ("curved", Flag(turnout.Curved)),
        ("stub", Flag(turnout.Stub)),
        ("frog", Words.Of(Words.Frog, turnout.Frog)),
        ("frog-feed", Feed(turnout.Feed)),
        ("contact", turnout.EarlyContact ? Words.Of(Words.Contact, true) : null),
        ("power-routing", Flag(turnout.PowerRouting)),
        ("heel", turnout.HeelInFrog ? Words.Of(Words.Heel, true) : null),
        ("ties", turnout.CopperClad ? Words.Of(Words.Ties, true) : null),
        ("uncut", turnout.Uncut == TieZones.None ? null : Zones(turnout.Uncut)),
        ("number", turnout.Number is { } number ? Numbers.Exact(number) : null),
        ("length", Optional(turnout.Length)),
        ("dead-length", Optional(turnout.DeadLength)));

    private static Snippet.Map Of(Piece.MultiTurnout turnout) => Snippet.Of(
        ("turnout", turnout.LegCount == 3 ? "three-way" : "multi"),
        ("legs", turnout.LegCount == 3 ? null : Numbers.Exact(turnout.LegCount)),
        ("frog", Words.Of(Words.Frog, turnout.Frog)),
        ("frog-feed", Feed(turnout.Feed)),
        ("power-routing", Flag(turnout.PowerRouting)),
        ("length", Optional(turnout.Length)),
        ("dead-length", Optional(turnout.DeadLength)));

    private static Snippet.Map Of(Piece.Crossing crossing) => Snippet.Of(
        ("crossing", Degrees(crossing.Angle)),
        ("frog", Words.Of(Words.Frog, crossing.Frog)),
        ("frog-feed", Feed(crossing.Feed)),
        ("phase", crossing.OppositePhase ? Words.Of(Words.CrossingPhase, true) : null),
        ("length", Optional(crossing.Length)),
        ("dead-length", Optional(crossing.DeadLength)));

    private static Snippet.Map Of(Piece.Slip slip) => Snippet.Of(
        ("slip", Words.Of(Words.Slip, slip.Double)),
        ("angle", slip.Angle is { } angle ? Degrees(angle) : null),
        ("frog", Words.Of(Words.Frog, slip.Frog)),
        ("frog-feed", Feed(slip.Feed)),
        ("frog-drive", slip.Drive == SlipDrive.OtherEnd ? null : Words.Of(Words.SlipDrive, slip.Drive)),
        ("length", Optional(slip.Length)),
        ("dead-length", Optional(slip.DeadLength)));

    private static Snippet.Map Of(Piece.Scissors scissors) => Snippet.Of(
        ("scissors", scissors.Angle is { } angle ? Degrees(angle) : "true"),
        ("frog", Words.Of(Words.Frog, scissors.Frog)),
        ("frog-feed", Feed(scissors.Feed)),
        ("length", Optional(scissors.Length)),
        ("dead-length", Optional(scissors.DeadLength)));

    private static Snippet.Map Of(Piece.Turntable turntable) => Snippet.Of(
        ("turntable", Numbers.Exact(turntable.RoadCount)),
        ("length", Millimetres(turntable.Length)),
        ("feed", BridgeFeed(turntable.Feed)),
        ("split-after", turntable.Feed == Layouts.BridgeFeed.SplitRing ? Numbers.Exact(turntable.SplitAfter) : null));

    private static Snippet.Map Of(Piece.TransferTable table) => Snippet.Of(
        ("transfer-table", Numbers.Exact(table.RoadCount)),
        ("length", Millimetres(table.Length)),
        ("feed", BridgeFeed(table.Feed)));

    private static string Zones(TieZones uncut)
    {
        ImmutableArray<string> zones = [.. Words.TieZones.Where(zone => (uncut & zone.Value) != 0).Select(zone => zone.Word)];
        return $"[{string.Join(", ", zones)}]";
    }

    private static string? Flag(bool value) => value ? "true" : null;

    private static string? Feed(FrogFeed feed) => feed == FrogFeed.None ? null : Words.Of(Words.FrogFeed, feed);

    private static string? BridgeFeed(BridgeFeed feed) => feed == Layouts.BridgeFeed.Wires ? null : Words.Of(Words.BridgeFeed, feed);

    private static string Degrees(Angle angle) => $"{Numbers.Exact(angle.Degrees)} deg";

    private static string Millimetres(Length length) => LengthText.WriteBare(LengthText.Metres(length));

    private static string? Optional(Length? length) => length is { } given ? Millimetres(given) : null;

    private static string Point(PlanPoint point) => $"[{LengthText.WriteBare(point.X)}, {LengthText.WriteBare(point.Y)}]";
}
