using System.Globalization;
using UnitsNet;
using WireUp.Layouts;

namespace WireUp.Documents.Tests;

/// <summary>Layouts put together from a few words.</summary>
internal static class TrackKit
{
    /// <summary>A layout of trackwork and sections.</summary>
    /// <param name="name">Its name.</param>
    /// <param name="trackwork">Its trackwork.</param>
    /// <param name="chains">Joints: <c>west.b T1.points</c>, or a section passed from a to b: <c>T1.through east 1.2 T2.points</c>.</param>
    public static Layout Of(string name, IEnumerable<Piece> trackwork, params string[] chains)
    {
        List<Piece> track = [.. trackwork];
        List<Joint> joints = [];
        foreach (string chain in chains)
        {
            TrackEnd? last = null;
            string[] words = chain.Split(' ', StringSplitOptions.RemoveEmptyEntries);
            for (int i = 0; i < words.Length; i++)
            {
                if (words[i].Contains('.', StringComparison.Ordinal))
                {
                    string[] end = words[i].Split('.');
                    TrackEnd named = new(new(end[0]), end[1]);
                    if (last is { } before) joints.Add(new(before, named));
                    last = last is null ? named : null;
                    continue;
                }

                Piece.Section section = new(new(words[i]), Length.FromMeters(double.Parse(words[++i], CultureInfo.InvariantCulture)));
                track.Add(section);
                if (last is { } from) joints.Add(new(from, section.End("a")));
                last = section.End("b");
            }
        }

        return new()
        {
            Name = name,
            LongestTrain = Length.FromMeters(1),
            ShortestPickup = Length.FromMeters(0.06),
            Track = [.. track],
            Joints = [.. joints],
        };
    }

    /// <summary>One small railway for every kind of trackwork.</summary>
    public static IEnumerable<Layout> EveryKind()
    {
        Length length = Length.FromMeters(0.25);
        yield return Of("curved", [new Piece.Turnout(new("T1"), TurnoutHand.Left, FrogKind.Live) { Curved = true }, new Piece.Turnout(new("T2"), TurnoutHand.Right, FrogKind.Insulated) { Curved = true }],
            "w 1 T1.points", "T1.through T2.points", "T1.diverging s1 1", "T2.through s2 1", "T2.diverging s3 1");
        yield return Of("stub", [new Piece.Turnout(new("T1"), TurnoutHand.Left, FrogKind.Isolated) { Stub = true, Feed = FrogFeed.Contact }, new Piece.Turnout(new("T2"), TurnoutHand.Wye, FrogKind.Insulated) { Stub = true }],
            "w 1 T1.points", "T1.through e 1 T2.points", "T1.diverging s1 1", "T2.left s2 1", "T2.right s3 1");
        foreach (int legs in new[] { 3, 4, 6, 9 })
        {
            Piece.MultiTurnout turnout = new(new("M1"), legs, legs % 2 == 0 ? FrogKind.Live : FrogKind.Insulated);
            yield return Of($"multi-{legs}", [turnout], ["lead 1 M1.points", .. turnout.Legs.Select((leg, i) => $"M1.{leg} s{i + 1} 1")]);
        }

        yield return Of("double-slip", [new Piece.Slip(new("S1"), true, FrogKind.Isolated) { Feed = FrogFeed.Contact }], "aw 1 S1.a1", "bw 1 S1.b1", "S1.a2 ae 1", "S1.b2 be 1");
        yield return Of("single-slip", [new Piece.Slip(new("S1"), false, FrogKind.Live) { Feed = FrogFeed.Contact }], "aw 1 S1.a1", "bw 1 S1.b1", "S1.a2 ae 1", "S1.b2 be 1");
        yield return Of("live-crossing", [new Piece.Crossing(new("X1"), Angle.FromDegrees(45), FrogKind.Live) { Feed = FrogFeed.Contact }], "aw 1 X1.a1", "bw 1 X1.b1", "X1.a2 ae 1", "X1.b2 be 1");
        yield return Of("figure-eight", [new Piece.Crossing(new("X1"), Angle.FromDegrees(60), FrogKind.Live) { Feed = FrogFeed.Contact, OppositePhase = true }], "X1.a2 e1 2 X1.b2", "X1.b1 w1 2 X1.a1");
        yield return Of("scissors", [new Piece.Scissors(new("X1"), FrogKind.Isolated) { Feed = FrogFeed.Contact }], "aw 1 X1.a1", "bw 1 X1.b1", "X1.a2 ae 1", "X1.b2 be 1");
        yield return Of("turntable", [new Piece.Turntable(new("TT"), 24, length)], "lead 1 TT.t1", "TT.t9 s1 0.4", "TT.t10 s2 0.4", "TT.t11 s3 0.4", "TT.t12 s4 0.4", "TT.t13 s5 0.4");
        yield return Of("turntable-odd", [new Piece.Turntable(new("TT"), 5, length)], "lead 1 TT.t1", "TT.t3 s1 0.4");
        yield return Of("turntable-alone", [new Piece.Turntable(new("TT"), 12, length)]);
        yield return Of("transfer-table", [new Piece.TransferTable(new("TR"), 5, length)], "lead 1 TR.w2", "TR.e1 s1 0.4", "TR.e2 s2 0.4", "TR.e3 s3 0.4", "TR.e5 s5 0.4", "TR.w4 s6 0.4");
        yield return Of("transfer-table-one", [new Piece.TransferTable(new("TR"), 5, length)], "lead 1 TR.e2");
        Layout lift = Of("lift-out", [], "west 1 door 0.8 east 1");
        yield return lift with
        {
            Track = [.. lift.Track.Select(piece => piece is Piece.Section { Id.Name: "door" } section ? section with { LiftOut = true } : piece)],
            Joints = [new(new(new("west"), "b"), new(new("door"), "a")), new(new(new("door"), "b"), new(new("east"), "a"))],
        };
    }
}
