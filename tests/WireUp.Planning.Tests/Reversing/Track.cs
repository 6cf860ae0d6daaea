using System.Globalization;
using UnitsNet;
using WireUp.Layouts;

namespace WireUp.Planning.Tests.Reversing;

/// <summary>Writes layouts down shortly: pieces and chains as in the layout file, lengths in metres.</summary>
internal static class Track
{
    /// <summary>A layout for a 1 m train.</summary>
    /// <param name="pieces">For instance <c>"loop 5.4; T1 right; X crossing"</c>; a frog kind may follow the kind.</param>
    /// <param name="chains">For instance <c>"T1.through > loop > T1.diverging"</c>; sections are passed from a to b.</param>
    public static Layout Of(string pieces, params string[] chains) => new()
    {
        Name = "Test track",
        LongestTrain = Length.FromMeters(1),
        ShortestPickup = Length.FromMillimeters(60),
        Track = [.. pieces.Split(';', StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries).Select(PieceOf)],
        Joints = [.. chains.SelectMany(Joined)],
    };

    public static Layout Train(this Layout layout, double metres) => layout with { LongestTrain = Length.FromMeters(metres) };

    public static Layout Wired(this Layout layout, Func<Wiring, Wiring> wire) => layout with { Wiring = wire(layout.Wiring) };

    public static Layout NoGap(this Layout layout, params string[] pieces) =>
        layout with { NoGap = [.. pieces.Select(name => new PieceId(name))] };

    public static Gap DoubleGap(string section, double metres) =>
        new(new GapPlace.InSection(new(new(section), metres)), RailSet.Both);

    public static Gap DoubleGapAt(string end) => new(new GapPlace.InJoint(EndOf(end)), RailSet.Both);

    public static TrackEnd EndOf(string text) => new(new(text.Split('.')[0]), text.Split('.')[1]);

    private static Piece PieceOf(string text)
    {
        string[] words = text.Split(' ', StringSplitOptions.RemoveEmptyEntries);
        PieceId id = new(words[0]);
        return words[1] switch
        {
            "right" => new Piece.Turnout(id, TurnoutHand.Right, Frog(words)),
            "left" => new Piece.Turnout(id, TurnoutHand.Left, Frog(words)),
            "wye" => new Piece.Turnout(id, TurnoutHand.Wye, Frog(words)),
            "crossing" => new Piece.Crossing(id, Angle.FromDegrees(30), Frog(words)) { OppositePhase = words.Contains("opposite") },
            "slip" => new Piece.Slip(id, Double: true, Frog(words)),
            "single-slip" => new Piece.Slip(id, Double: false, Frog(words)),
            "scissors" => new Piece.Scissors(id, Frog(words)),
            "three-way" => new Piece.MultiTurnout(id, 3, Frog(words)),
            "turntable" => new Piece.Turntable(id, int.Parse(words[2], CultureInfo.InvariantCulture), Length.FromMeters(0.3)) { Feed = Bridge(words) },
            "transfer" => new Piece.TransferTable(id, int.Parse(words[2], CultureInfo.InvariantCulture), Length.FromMeters(0.3)) { Feed = Bridge(words) },
            "lift-out" => new Piece.Section(id, Length.FromMeters(double.Parse(words[2], CultureInfo.InvariantCulture))) { LiftOut = true },
            "stop" => new Piece.Stop(id),
            _ => new Piece.Section(id, Length.FromMeters(double.Parse(words[1], CultureInfo.InvariantCulture))),
        };
    }

    private static BridgeFeed Bridge(string[] words) => words[^1] switch
    {
        "roads" => BridgeFeed.Roads,
        "split" => BridgeFeed.SplitRing,
        _ => BridgeFeed.Wires,
    };

    private static FrogKind Frog(string[] words) =>
        words.Length > 2 ? Enum.Parse<FrogKind>(words[2], ignoreCase: true) : FrogKind.Insulated;

    private static IEnumerable<Joint> Joined(string chain)
    {
        string[] links = chain.Split('>', StringSplitOptions.TrimEntries);
        for (int i = 1; i < links.Length; i++)
        {
            yield return new(End(links[i - 1], "b"), End(links[i], "a"));
        }
    }

    private static TrackEnd End(string text, string otherwise) =>
        text.Contains('.', StringComparison.Ordinal) ? EndOf(text) : new(new(text), otherwise);
}
