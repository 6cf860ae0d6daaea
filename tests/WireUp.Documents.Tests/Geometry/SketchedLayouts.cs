using System.Collections.Immutable;
using System.Globalization;
using UnitsNet;
using WireUp.Layouts;

namespace WireUp.Documents.Tests.Geometry;

/// <summary>
/// Layouts in a few words. Pieces that are not plain track first: <c>T1 right, W wye, X crossing, E stop</c>. Then chains, one a
/// line: <c>T1.through > loop 5.4 > T1.diverging</c>; a name with a length in metres is a section, passed from a to b.
/// </summary>
internal static class SketchedLayouts
{
    public static Layout Of(string pieces, params string[] chains)
    {
        var track = ImmutableArray.CreateBuilder<Piece>();
        foreach (string[] words in pieces.Split(',', StringSplitOptions.RemoveEmptyEntries).Select(Words)) track.Add(Piece(words[0], words[1]));
        var joints = ImmutableArray.CreateBuilder<Joint>();
        foreach (string chain in chains)
        {
            TrackEnd? open = null;
            foreach (string[] words in chain.Split('>').Select(Words))
            {
                (TrackEnd enter, TrackEnd leave) = Pass(words, track);
                if (open is { } end) joints.Add(new(end, enter));
                open = leave;
            }
        }

        return new()
        {
            Name = "Sketch",
            LongestTrain = Length.FromMeters(1),
            ShortestPickup = Length.FromMeters(0.1),
            Track = track.ToImmutable(),
            Joints = joints.ToImmutable(),
        };
    }

    private static string[] Words(string text) => text.Split(' ', StringSplitOptions.RemoveEmptyEntries);

    private static Piece Piece(string name, string kind) => kind switch
    {
        "right" => new Piece.Turnout(new(name), TurnoutHand.Right, FrogKind.Insulated),
        "left" => new Piece.Turnout(new(name), TurnoutHand.Left, FrogKind.Insulated),
        "wye" => new Piece.Turnout(new(name), TurnoutHand.Wye, FrogKind.Insulated),
        "crossing" => new Piece.Crossing(new(name), Angle.FromDegrees(30), FrogKind.Insulated),
        "stop" => new Piece.Stop(new(name)),
        _ => throw new ArgumentException($"no piece of kind {kind}", nameof(kind)),
    };

    private static (TrackEnd Enter, TrackEnd Leave) Pass(string[] words, ImmutableArray<Piece>.Builder track)
    {
        if (words.Length == 2)
        {
            track.Add(new Piece.Section(new(words[0]), Length.FromMeters(double.Parse(words[1], CultureInfo.InvariantCulture))));
            return (new(new(words[0]), "a"), new(new(words[0]), "b"));
        }

        string[] parts = words[0].Split('.');
        TrackEnd end = new(new(parts[0]), parts.Length > 1 ? parts[1] : "a");
        return (end, end);
    }
}
