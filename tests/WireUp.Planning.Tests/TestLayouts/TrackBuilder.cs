using UnitsNet;
using WireUp.Layouts;

namespace WireUp.Planning.Tests.TestLayouts;

/// <summary>Makes small layouts in tests, piece by piece.</summary>
internal sealed class TrackBuilder
{
    private readonly List<Piece> _track = [];
    private readonly List<Joint> _joints = [];
    private readonly List<Gap> _gaps = [];

    public TrackBuilder Section(string name, double metres)
    {
        _track.Add(new Piece.Section(new(name), Length.FromMeters(metres)));
        return this;
    }

    public TrackBuilder Turnout(string name, TurnoutHand hand = TurnoutHand.Right, FrogKind frog = FrogKind.Insulated)
    {
        _track.Add(new Piece.Turnout(new(name), hand, frog));
        return this;
    }

    public TrackBuilder Piece(Piece piece)
    {
        _track.Add(piece);
        return this;
    }

    public TrackBuilder Stop(string name)
    {
        _track.Add(new Piece.Stop(new(name)));
        return this;
    }

    /// <summary>Joins two ends, written as <c>T1.points</c>.</summary>
    public TrackBuilder Join(string first, string second, JointKind kind = JointKind.Joiner)
    {
        _joints.Add(new(End(first), End(second)) { Kind = kind });
        return this;
    }

    public TrackBuilder Gap(string section, double metres, RailSet rails = RailSet.Both)
    {
        _gaps.Add(new(new GapPlace.InSection(new(new(section), metres)), rails));
        return this;
    }

    public TrackBuilder GapAtJoint(string end, RailSet rails = RailSet.Both)
    {
        _gaps.Add(new(new GapPlace.InJoint(End(end)), rails));
        return this;
    }

    public Layout Build(double feederDistanceMetres = 1) => new()
    {
        Name = "test",
        LongestTrain = Length.FromMeters(1),
        ShortestPickup = Length.FromMillimeters(60),
        MaxFeederDistance = Length.FromMeters(feederDistanceMetres),
        Track = [.. _track],
        Joints = [.. _joints],
        Wiring = Wiring.None with { Gaps = [.. _gaps] },
    };

    public static TrackEnd End(string text)
    {
        string[] parts = text.Split('.');
        return new(new(parts[0]), parts[1]);
    }

    /// <summary>A straight line of sections joined end to end, all of one length.</summary>
    public static TrackBuilder Line(int sections, double metres, JointKind kind = JointKind.Joiner)
    {
        TrackBuilder line = new();
        for (int i = 0; i < sections; i++)
        {
            line.Section($"s{i}", metres);
            if (i > 0)
            {
                line.Join($"s{i - 1}.b", $"s{i}.a", kind);
            }
        }

        return line;
    }
}
