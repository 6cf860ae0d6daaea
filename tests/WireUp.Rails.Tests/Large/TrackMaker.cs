using System.Collections.Immutable;
using System.Globalization;
using UnitsNet;
using WireUp.Layouts;

namespace WireUp.Testing;

/// <summary>Lays track by the thousand: pieces, joints, gaps and feeders, named by number.</summary>
internal sealed class TrackMaker
{
    private readonly List<Piece> _track = [];
    private readonly List<Joint> _joints = [];
    private readonly List<Gap> _gaps = [];
    private readonly List<Feeder> _feeders = [];
    private readonly List<District> _districts = [];
    private readonly List<Booster> _boosters = [];
    private readonly List<Switch> _switches = [];

    public ControlSystem Control { get; init; } = ControlSystem.Command;

    public static string Name(string prefix, int number) => prefix + number.ToString(CultureInfo.InvariantCulture);

    public Piece.Section Section(string name, double metres = 0.5) => Add(new Piece.Section(new(name), Length.FromMeters(metres)));

    public Piece.Turnout Turnout(string name, TurnoutHand hand, FrogKind frog = FrogKind.Live, FrogFeed feed = FrogFeed.None) =>
        Add(new Piece.Turnout(new(name), hand, frog) { Feed = feed, Length = Length.FromMillimeters(180) });

    public T Add<T>(T piece)
        where T : Piece
    {
        _track.Add(piece);
        return piece;
    }

    public TrackMaker Join(TrackEnd one, TrackEnd other)
    {
        _joints.Add(new(one, other) { Kind = JointKind.Soldered });
        return this;
    }

    /// <summary>Puts a section between two ends, its end a at the first; without a second end it ends in a buffer stop.</summary>
    public Piece.Section Between(string name, TrackEnd from, TrackEnd? to = null, double metres = 0.5)
    {
        Piece.Section section = Section(name, metres);
        Join(from, section.End("a"));
        Join(section.End("b"), to ?? Add(new Piece.Stop(new($"{name}-stop"))).End("a"));
        return section;
    }

    public void Gap(TrackEnd end, RailSet rails = RailSet.Both) => _gaps.Add(new(new GapPlace.InJoint(end), rails));

    public void Gap(Piece.Section section, double metres, RailSet rails, Setting? when = null) =>
        _gaps.Add(new(new GapPlace.InSection(new(section.Id, metres)), rails) { BridgedWhen = when });

    /// <summary>Cuts the two inner rails of a turnout beyond its frog.</summary>
    public void GapFrog(Piece.Turnout turnout)
    {
        Gap(turnout.End(turnout.LeftLeg), RailSet.Right);
        Gap(turnout.End(turnout.RightLeg), RailSet.Left);
    }

    public void Switch(string name, params string[] positions) => _switches.Add(new(new(name), [.. positions]));

    /// <summary>A district with a booster of its own and a bus that runs past all of its feeders, one tap after the other.</summary>
    public void District(string name, bool reversing = false)
    {
        _boosters.Add(new($"b-{name}", ElectricPotential.FromVolts(14.5), ElectricCurrent.FromAmperes(5), ElectricResistance.FromOhms(0.1)));
        _districts.Add(new(name, $"b-{name}", ElectricCurrent.FromAmperes(4), ElectricResistance.FromOhms(0.05)) { Reversing = reversing });
    }

    public void Feed(string district, Piece.Section section, bool swap = false, Setting? when = null, double? at = null)
    {
        string name = Name("f", _feeders.Count + 1);
        _feeders.Add(new(name, new(section.Id, at ?? (section.Length.Meters / 2)), district, $"p-{name}", new Wire.Awg(20), Length.FromMeters(0.3))
        {
            Swap = swap,
            When = when,
        });
    }

    public Layout Build()
    {
        ILookup<string, string> taps = _feeders.ToLookup(feeder => feeder.District, feeder => feeder.Tap);
        return Build([.. _districts.Select(district => BusOf(district, taps))]);
    }

    private Layout Build(ImmutableArray<Bus> buses) => new()
    {
        Name = "measured",
        Control = Control,
        LongestTrain = Length.FromMeters(1.5),
        ShortestPickup = Length.FromMillimeters(60),
        Track = [.. _track],
        Joints = [.. _joints],
        Wiring = Wiring.None with
        {
            Boosters = [.. _boosters],
            Districts = [.. _districts],
            Buses = buses,
            Gaps = [.. _gaps],
            Feeders = [.. _feeders],
            Switches = [.. _switches],
        },
    };

    private static Bus BusOf(District district, ILookup<string, string> taps)
    {
        string[] points = [$"b-{district.Name}", .. taps[district.Name]];
        return new(district.Name, [.. points.Skip(1).Select((point, i) => new BusRun(points[i], point, Length.FromMeters(0.6), new Wire.Awg(12)))]);
    }
}
