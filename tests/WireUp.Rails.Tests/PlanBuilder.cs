using System.Collections.Immutable;
using System.Globalization;
using UnitsNet;
using WireUp.Layouts;
using WireUp.Rails;

namespace WireUp.Testing;

/// <summary>Builds small layouts for tests, in the words of the layout file.</summary>
internal sealed class PlanBuilder
{
    private readonly List<Piece> _track = [];
    private readonly List<Joint> _joints = [];
    private readonly List<Gap> _gaps = [];
    private readonly List<Feeder> _feeders = [];
    private readonly List<District> _districts = [];
    private readonly List<Booster> _boosters = [];
    private readonly List<Switch> _switches = [];

    public ControlSystem Control { get; init; } = ControlSystem.Command;

    public static ImmutableHashSet<PieceId> Set(string names) => [.. names.Split(' ').Select(name => new PieceId(name))];

    public PlanBuilder Sections(string names, double metres = 2)
    {
        _track.AddRange(names.Split(' ').Select(name => new Piece.Section(new(name), Length.FromMeters(metres))));
        return this;
    }

    public PlanBuilder Turnouts(string names, TurnoutHand hand = TurnoutHand.Right, FrogKind frog = FrogKind.Insulated, FrogFeed feed = FrogFeed.None)
    {
        _track.AddRange(names.Split(' ').Select(name => new Piece.Turnout(new(name), hand, frog) { Feed = feed }));
        return this;
    }

    public PlanBuilder Crossing(string name)
    {
        _track.Add(new Piece.Crossing(new(name), Angle.FromDegrees(30), FrogKind.Insulated));
        return this;
    }

    public PlanBuilder Piece(Piece piece)
    {
        _track.Add(piece);
        return this;
    }

    public PlanBuilder Stop(string name)
    {
        _track.Add(new Piece.Stop(new(name)));
        return this;
    }

    /// <summary>Joins ends in a row: <c>T1.through > loop > T1.diverging</c>; a bare name is a section passed from a to b.</summary>
    public PlanBuilder Chain(string chain)
    {
        string[] names = chain.Split(" > ");
        for (int i = 1; i < names.Length; i++)
        {
            _joints.Add(new(EndOf(names[i - 1], "b"), EndOf(names[i], "a")));
        }

        return this;
    }

    public PlanBuilder LiftOut(string name, double metres = 1)
    {
        _track.Add(new Piece.Section(new(name), Length.FromMeters(metres)) { LiftOut = true });
        return this;
    }

    /// <summary>Cuts rails: <c>loop@0.5</c> in metres from end a, or <c>T1.through</c> in its joint; a contact may bridge the gap.</summary>
    public PlanBuilder Gap(string at, RailSet rails = RailSet.Both, string? when = null)
    {
        GapPlace place = at.Contains('@') ? new GapPlace.InSection(Place(at)) : new GapPlace.InJoint(EndOf(at, ""));
        _gaps.Add(new(place, rails) { BridgedWhen = Setting(when) });
        return this;
    }

    /// <summary>A hand switch with its positions, the first one first.</summary>
    public PlanBuilder Switch(string name, string positions)
    {
        _switches.Add(new(new(name), [.. positions.Split(' ')]));
        return this;
    }

    public PlanBuilder Booster(string name, bool isolated = true, bool turned = false)
    {
        _boosters.Add(new(name, ElectricPotential.FromVolts(14.5), ElectricCurrent.FromAmperes(5), ElectricResistance.FromOhms(0.1))
        {
            Isolated = isolated,
            PhaseTurned = turned,
        });
        return this;
    }

    public PlanBuilder District(string name, bool reversing = false, string booster = "main", DistrictUse use = DistrictUse.Running)
    {
        if (_boosters.All(known => known.Name != booster))
        {
            Booster(booster);
        }

        _districts.Add(new(name, booster, ElectricCurrent.FromAmperes(4), ElectricResistance.FromOhms(0.05)) { Reversing = reversing, Use = use });
        return this;
    }

    /// <summary>
    /// Feeds places of a district; the feeders are named f1, f2, … in order. <c>loop@0.5</c>, with <c>!</c> for exchanged wires, then
    /// <c>?B1.on</c> for the position in which it conducts.
    /// </summary>
    public PlanBuilder Feed(string district, params string[] places)
    {
        if (_districts.All(known => known.Name != district))
        {
            District(district);
        }

        foreach (string place in places)
        {
            string[] parts = place.Split('?');
            string at = parts[0].TrimEnd('!');
            string name = string.Create(CultureInfo.InvariantCulture, $"f{_feeders.Count + 1}");
            _feeders.Add(new(name, Place(at), district, "P", new Wire.Awg(20), Length.FromMeters(0.3))
            {
                Swap = parts[0].EndsWith('!'),
                When = Setting(parts.ElementAtOrDefault(1)),
            });
        }

        return this;
    }

    public Layout Build() => new()
    {
        Name = "test",
        Control = Control,
        LongestTrain = Length.FromMeters(1.5),
        ShortestPickup = Length.FromMillimeters(60),
        Track = [.. _track],
        Joints = [.. _joints],
        Wiring = Wiring.None with
        {
            Boosters = [.. _boosters],
            Districts = [.. _districts],
            Gaps = [.. _gaps],
            Feeders = [.. _feeders],
            Switches = [.. _switches],
        },
    };

    public LayoutIndex Index() => new(Build());

    public RailGraph Graph() => RailGraph.Build(Build());

    public ParityGraph Parity() => ParityGraph.Of(Index());

    private static Setting? Setting(string? text) => text?.Split('.') is { } parts ? new Setting(new(parts[0]), parts[1]) : null;

    private static TrackEnd EndOf(string name, string otherwise)
    {
        string[] parts = name.Split('.');
        return new(new(parts[0]), parts.Length > 1 ? parts[1] : otherwise);
    }

    private static TrackPlace Place(string at)
    {
        string[] parts = at.Split('@');
        return new(new(parts[0]), double.Parse(parts[1], CultureInfo.InvariantCulture));
    }
}
