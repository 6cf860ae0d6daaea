using System.Globalization;
using UnitsNet;
using WireUp.Layouts;

namespace WireUp.Benchmarks;

/// <summary>
/// Large layouts on which nothing is wired: the ovals of <see cref="LayoutGenerator"/>, and on every fifth siding a balloon loop,
/// so that something must be reversed. As many locomotives for their size as on the club sample; half of them move at once.
/// </summary>
internal static class UnwiredLayouts
{
    private const int SidingsALoop = 5, SectionsALoop = 12, PiecesALocomotive = 20;

    /// <summary>A layout of about that many pieces, with a locomotive for every twenty of them.</summary>
    internal static Layout Make(int pieces)
    {
        Layout plain = LayoutGenerator.Make(pieces, commonReturn: false);
        HashSet<TrackEnd> joined = [.. plain.Joints.SelectMany(joint => new[] { joint.First, joint.Second })];
        List<Piece> track = [.. plain.Track];
        List<Joint> joints = [.. plain.Joints.Select(joint => joint with { Insulated = RailSet.None })];
        TrackEnd[] sidings = [.. plain.Track.OfType<Piece.Section>().Select(section => section.End("b")).Where(end => !joined.Contains(end))];
        for (int i = 0; i < sidings.Length; i += SidingsALoop)
        {
            AddLoop(i / SidingsALoop, sidings[i], track, joints);
        }

        Locomotive locomotive = new(
            "road engine",
            Running: ElectricCurrent.FromAmperes(0.35),
            Stopped: ElectricCurrent.FromAmperes(0.05),
            Starting: ElectricCurrent.FromAmperes(0.5),
            Stalled: ElectricCurrent.FromAmperes(1),
            Pickup: Length.FromMillimeters(60),
            Count: Math.Max(1, pieces / PiecesALocomotive));
        return plain with { Track = [.. track], Joints = [.. joints], Wiring = new(), Stock = new() { Locomotives = [locomotive], MovingAtOnce = locomotive.Count / 2 } };
    }

    private static void AddLoop(int number, TrackEnd from, List<Piece> track, List<Joint> joints)
    {
        Piece.Turnout turnout = new(new(Text("loop", number)), TurnoutHand.Left, FrogKind.Insulated);
        track.Add(turnout);
        joints.Add(new(from, turnout.End("points")));
        TrackEnd last = turnout.End("diverging");
        for (int i = 0; i < SectionsALoop; i++)
        {
            Piece.Section section = new(new(Text($"loop{number.ToString(CultureInfo.InvariantCulture)}-", i)), Length.FromMeters(0.47));
            track.Add(section);
            joints.Add(new(last, section.End("a")));
            last = section.End("b");
        }

        joints.Add(new(last, turnout.End("through")));
    }

    private static string Text(string prefix, int number) => prefix + number.ToString(CultureInfo.InvariantCulture);
}
