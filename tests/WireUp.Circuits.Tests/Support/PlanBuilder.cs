using System.Collections.Immutable;
using UnitsNet;
using WireUp.Layouts;

namespace WireUp.Circuits.Tests.Support;

/// <summary>Puts small layouts together in a few lines. Rails have 0.05 Ω/m and joints 10 mΩ where nothing else is said.</summary>
internal sealed class PlanBuilder
{
    private readonly List<Piece> _pieces = [];
    private readonly List<Joint> _joints = [];
    private readonly List<Booster> _boosters = [];
    private readonly List<District> _districts = [];
    private readonly List<Bus> _buses = [];
    private readonly List<Feeder> _feeders = [];
    private readonly List<Gap> _gaps = [];
    private readonly List<Switch> _switches = [];
    private LayoutDefaults _defaults = new() { Rail = new(100, "nickel-silver", 0.05) };
    private Stock _stock = Stock.None;
    private ControlSystem _control = ControlSystem.Command;

    internal PlanBuilder ThreeRail() => Control(ControlSystem.ThreeRail);

    internal PlanBuilder Control(ControlSystem control)
    {
        _control = control;
        return this;
    }

    internal PlanBuilder Defaults(Func<LayoutDefaults, LayoutDefaults> change)
    {
        _defaults = change(_defaults);
        return this;
    }

    internal PlanBuilder Runs(Stock stock)
    {
        _stock = stock;
        return this;
    }

    internal PlanBuilder Section(string name, double metres, double? ohmsPerMetre = null)
    {
        RailMaterial? rail = ohmsPerMetre is { } ohms ? new(100, "nickel-silver", ohms) : null;
        _pieces.Add(new Piece.Section(new(name), Length.FromMeters(metres)) { Rail = rail });
        return this;
    }

    internal PlanBuilder Turnout(string name, FrogKind frog = FrogKind.Insulated, double metres = 0, TurnoutHand hand = TurnoutHand.Right)
    {
        _pieces.Add(new Piece.Turnout(new(name), hand, frog) { Length = Length.FromMeters(metres) });
        return this;
    }

    internal PlanBuilder Add(Piece piece)
    {
        _pieces.Add(piece);
        return this;
    }

    internal PlanBuilder Switch(string name, params string[] positions)
    {
        _switches.Add(new(new(name), [.. positions]));
        return this;
    }

    /// <summary>The last feeder conducts in that position only.</summary>
    internal PlanBuilder OnlyWhen(string owner, string position)
    {
        _feeders[^1] = _feeders[^1] with { When = new(new(owner), position) };
        return this;
    }

    internal PlanBuilder Join(string first, string second, RailSet insulated = RailSet.None, double? ohms = null)
    {
        _joints.Add(new(End(first), End(second))
        {
            Insulated = insulated,
            Resistance = ohms is { } value ? ElectricResistance.FromOhms(value) : null,
        });
        return this;
    }

    internal PlanBuilder Booster(string name, double volts = 15, double ohms = 0.1)
    {
        _boosters.Add(new(name, ElectricPotential.FromVolts(volts), ElectricCurrent.FromAmperes(5), ElectricResistance.FromOhms(ohms)));
        return this;
    }

    internal PlanBuilder District(string name, string booster, double ohms = 0.05, double trip = 4)
    {
        _districts.Add(new(name, booster, ElectricCurrent.FromAmperes(trip), ElectricResistance.FromOhms(ohms)));
        return this;
    }

    internal PlanBuilder Run(string district, string from, string to, double metres, Wire? wire = null)
    {
        _buses.Add(new(district, [new(from, to, Length.FromMeters(metres), wire ?? new Wire.Awg(14))]));
        return this;
    }

    internal PlanBuilder Feeder(string name, string section, double at, string district, string tap, double metres = 0.3, bool swap = false)
    {
        _feeders.Add(new(name, new(new(section), at), district, tap, new Wire.Awg(20), Length.FromMeters(metres)) { Swap = swap });
        return this;
    }

    internal PlanBuilder Cut(string section, double at, RailSet rails = RailSet.Both, Setting? bridged = null)
    {
        _gaps.Add(new(new GapPlace.InSection(new(new(section), at)), rails) { BridgedWhen = bridged });
        return this;
    }

    internal Piece Piece(string name) => _pieces.Single(piece => piece.Id.Name == name);

    internal Layout Build() => new()
    {
        Name = "Test Branch",
        LongestTrain = Length.FromMeters(1),
        ShortestPickup = Length.FromMillimeters(60),
        Control = _control,
        Defaults = _defaults,
        Track = [.. _pieces],
        Joints = [.. _joints],
        Stock = _stock,
        Wiring = new()
        {
            Boosters = [.. _boosters],
            Districts = [.. _districts],
            Buses = [.. _buses],
            Feeders = [.. _feeders],
            Gaps = [.. _gaps],
            Switches = [.. _switches],
        },
    };

    /// <summary>Feeders and taps of no resistance and a booster of none: what is left is rail.</summary>
    internal PlanBuilder BareFeeds()
    {
        Defaults(defaults => defaults with { Tap = ElectricResistance.Zero });
        return this;
    }

    internal static ImmutableArray<TrackPlace> PlacesAlong(string section, double metres, int count) =>
        [.. Enumerable.Range(0, count).Select(i => new TrackPlace(new(section), metres * i / (count - 1)))];

    private static TrackEnd End(string text)
    {
        string[] parts = text.Split('.');
        return new(new(parts[0]), parts[1]);
    }
}
