using System.Collections.Immutable;
using UnitsNet;

namespace WireUp.Layouts.Tests.Support;

/// <summary>Layouts by chance from a seed, within the rules of the format and with everything the format has.</summary>
internal sealed class RandomLayout(int seed, int size)
{
    private static readonly string[] AwkwardNames = ["null", "true", "no", "1", "2e3", "Ü-1", "a_b", "wiring", "track", "12-AWG", "points", "_"];

    private readonly Random _random = new(seed);
    private readonly HashSet<string> _names = new(StringComparer.Ordinal);

    /// <summary>A layout with wiring.</summary>
    public static Layout Make(int seed, int size) => new RandomLayout(seed, size).Layout();

    /// <summary>The layout with about half of its wiring: what depends on a thing left out is left out too.</summary>
    public static Layout Half(Layout layout, int seed)
    {
        Random random = new(seed);
        bool Keep() => random.Next(2) == 0;
        Wiring all = layout.Wiring;
        ImmutableArray<Supply> supplies = [.. all.Supplies.Where(_ => Keep())];
        ImmutableArray<Booster> boosters = [.. all.Boosters.Where(booster => Keep() && (booster.Supply is null || supplies.Any(supply => supply.Name == booster.Supply)))];
        ImmutableArray<District> districts = [.. all.Districts.Where(district => Keep() && boosters.Any(booster => booster.Name == district.Booster))];
        ImmutableArray<Bus> buses = [.. all.Buses.Where(bus => Keep() && districts.Any(district => district.Name == bus.District))
            .Select(bus => bus with { Runs = bus.Runs[..random.Next(bus.Runs.Length + 1)] })];
        bool HasPoint(Feeder feeder) => boosters.Any(booster => booster.Name == feeder.Tap)
            || buses.Any(bus => bus.Runs.Any(run => run.To == feeder.Tap));
        ImmutableArray<Switch> switches = [.. all.Switches.Where(_ => Keep())];
        bool IsThere(Setting? setting) => setting is not { } given
            || switches.Any(one => one.Name == given.Owner) || layout.Track.Any(piece => piece.Id == given.Owner);
        Wiring half = new()
        {
            Supplies = supplies,
            Boosters = boosters,
            Districts = districts,
            Buses = buses,
            Switches = switches,
            Feeders = [.. all.Feeders.Where(feeder => Keep() && IsThere(feeder.When) && HasPoint(feeder) && districts.Any(district => district.Name == feeder.District))],
            Gaps = [.. all.Gaps.Where(gap => Keep() && IsThere(gap.BridgedWhen))],
        };
        return layout with { Wiring = random.Next(5) == 0 ? Layouts.Wiring.None : half };
    }

    private Layout Layout()
    {
        ControlSystem control = Pick(ControlSystem.Command, ControlSystem.Command, ControlSystem.Direct, ControlSystem.ThreeRail);
        LayoutDefaults defaults = new()
        {
            Rail = Rail(),
            Joint = Pick(JointKind.Joiner, JointKind.Soldered),
            Frog = Pick(FrogKind.Insulated, FrogKind.Isolated, FrogKind.Live),
            Joiner = Ohms(),
            Coin = Ohms(),
            Contact = Ohms(),
            Connector = Ohms(),
            FrogWire = Chance() ? new WireLength(Metres(0.05, 3), Wire()) : null,
            Temperature = Temperature.FromDegreesCelsius(Number(-20, 60)),
        };
        ImmutableArray<Piece> track = [.. Enumerable.Range(0, size).Select(_ => new RandomPiece(_random).Make(new PieceId(Name("p")), Rail))];
        ImmutableArray<Joint> joints = Joints(track, defaults.Joint);
        ImmutableArray<Piece> places = [.. track.Where(piece => piece.PlacesMetres is not null)];
        return WithBenchwork(new Layout
        {
            Name = Pick("Plain", "With: colon", "\"quoted\" # no comment", "- dash", "Ünïcode ☂ \t tab", "42", "null"),
            Scale = Pick("N", "HO", "O", "G"),
            Control = control,
            LongestTrain = Length.FromMeters(10),
            ShortestPickup = Metres(0.01, 0.3),
            MaxDrop = Ratio.FromPercent(Number(1, 20)),
            MaxFeederDistance = Metres(0.2, 3),
            Defaults = defaults,
            Track = track,
            Joints = joints,
            Wiring = control == ControlSystem.Direct ? WithoutPhase(Wiring(track, places, joints)) : Wiring(track, places, joints),
            Stock = Stock(),
            DistrictsWanted = Some(2, () => new DistrictWish(Name("wish"), Pieces(track))),
            Wishes = new() { Apart = Some(2, () => new ApartWish(Some(3, () => Pieces(track)))), WayRound = Chance(), Accessories = Chance() ? ElectricCurrent.FromAmperes(Math.Max(Number(0.1, 9), 0.1)) : null, Blocks = Chance() ? BlockWish(track) : null },
            NoFeeder = Pieces(track),
            NoGap = Pieces(track),
            Stops = Pieces(track),
            Lengths = size % 2 == 0 ? LengthStyle.Metric : LengthStyle.Feet,
            WireSizes = Pick(WireSystem.Metric, WireSystem.Awg),
            Papers = Chance() ? Papers.Usual : Papers.Usual with
            {
                LegA = Pick(null, "BK", "no", "1"),
                LegBName = Pick(null, "to: the left", "yes"),
                Letters = Papers.Usual.Letters.Add("no", "light \"blue\"").Add("1", "true"),
                WorkSheet = Pick(null, "https://club.example:81/layouts/a%20b/sheet?x=1"),
            },
            FaultPriors = Chance() ? FaultPriors.Usual : new()
            {
                AgeYears = Chance() ? Number(0, 40) : null,
                Chances = ImmutableDictionary<FaultElementKind, double>.Empty.Add(Pick(Enum.GetValues<FaultElementKind>()), Pick(0.01, 0.0025, 0.3)),
            },
            Picture = Chance() ? null : new(Pick("plan.png", "1.jpg", "Süd 2.picture.jpeg"), Metres(0.3, 9)) { At = Chance() ? default : new(Number(-3, 3), Number(-3, 3)), Turn = Angle.FromDegrees(Pick(0, 0.5, 270)) },
        });
    }

    /// <summary>Now and then boards, corridors and areas out of reach; all corridors cross the first, and no area lies on them.</summary>
    private Layout WithBenchwork(Layout layout)
    {
        if (_random.Next(3) > 0)
        {
            return layout;
        }

        ImmutableArray<Piece> drawn = [.. layout.Track.Select(piece => piece is Piece.Section section
            ? section with { Path = [new(Number(-3, 3), Number(-3, 3)), new(Number(4, 6), 0)] }
            : piece)];
        BusCorridor first = new(Name("c"), [new(-5, 0), new(5, Number(-1, 1))]);
        return layout with
        {
            Track = drawn,
            Benchwork = new()
            {
                Boards = Some(2, () => Outline(Number(-3, 3))),
                Corridors = Chance() ? [] : [first, .. Some(2, () => new BusCorridor(Name("c"), [new(Number(-4, 4), -3), new(Number(-4, 4), 3), new(9, 3)]) { Closed = Chance() })],
                OutOfReach = Some(2, () => Outline(30)),
            },
        };
    }

    private PlanOutline Outline(double y) => new(Name("o"), [new(Number(-3, 0), y), new(Number(1, 3), y), new(Number(-3, 3), y + 1)]);

    private BlockWish BlockWish(ImmutableArray<Piece> track) => new(Pieces(track)) { Length = Chance() ? Metres(0.2, 8) : null, BothRails = Chance() };

    private RailMaterial Rail() => new(_random.Next(40, 250), Pick("nickel-silver", "brass", "steel"), Chance() ? Math.Max(Number(0.01, 0.3), 0.001) : null);

    /// <summary>Ends joined two by two; now and then sections in the direction a chain passes them.</summary>
    private ImmutableArray<Joint> Joints(ImmutableArray<Piece> track, JointKind usual)
    {
        List<TrackEnd> open = [.. track.SelectMany(piece => piece.Ends)];
        List<Joint> joints = [];
        while (open.Count > 3)
        {
            TrackEnd first = joints.Count > 0 && Chance() && joints[^1].Second.Name == "a" && open.Remove(joints[^1].Second with { Name = "b" })
                ? joints[^1].Second with { Name = "b" }
                : TakeOne(open);
            Joint joint = new(first, TakeOne(open)) { Kind = usual };
            joints.Add(_random.Next(4) > 0 ? joint : joint with
            {
                Kind = Pick(JointKind.Joiner, JointKind.Soldered),
                Insulated = Pick(RailSet.None, RailSet.Left, RailSet.Right, RailSet.Both),
                Resistance = Chance() ? Ohms() : null,
            });
        }

        return [.. joints];
    }

    private TrackEnd TakeOne(List<TrackEnd> open)
    {
        TrackEnd end = open[_random.Next(open.Count)];
        open.Remove(end);
        return end;
    }

    private Wiring Wiring(ImmutableArray<Piece> track, ImmutableArray<Piece> places, ImmutableArray<Joint> joints)
    {
        ImmutableArray<Supply> supplies = Some(2, () => new Supply(
            Name("s"), ElectricPotential.FromVolts(Number(10, 20)), Chance(), Power.FromWatts(Number(20, 200)), Pick(SupplyClass.Limited, SupplyClass.Other)));
        ImmutableArray<Booster> boosters = Some(3, () => Booster(supplies, places));
        ImmutableArray<District> districts = boosters.IsEmpty ? [] : Some(4, () =>
            new District(Name("d"), boosters[_random.Next(boosters.Length)].Name, Amps(), Ohms())
            {
                Use = Pick(DistrictUse.Running, DistrictUse.Running, DistrictUse.Programming, DistrictUse.Accessories),
                Delay = Seconds(),
                Reclose = Seconds(),
                Curve = Curve(),
            }).Select(district => district with { Reversing = district.Use == DistrictUse.Running && Chance() }).ToImmutableArray();
        ImmutableArray<Switch> switches = Some(3, Switch);
        ImmutableArray<Setting> settings =
        [
            .. switches.SelectMany(one => one.Positions.Select(position => new Setting(one.Name, position))),
            .. track.SelectMany(piece => PiecePositions.Of(piece).Select(position => new Setting(piece.Id, position))),
        ];
        Setting? Sometimes() => settings.IsEmpty || _random.Next(3) > 0 ? null : settings[_random.Next(settings.Length)];
        ImmutableArray<Bus> buses = [.. districts.Where(_ => _random.Next(4) > 0).Select(Bus)];
        return new Wiring
        {
            Supplies = supplies,
            Boosters = boosters,
            Districts = districts,
            Buses = buses,
            Switches = switches,
            Feeders = districts.IsEmpty || places.IsEmpty ? [] : Some(6, () => Feeder(districts, buses, places) with { When = Sometimes() }),
            Gaps = [.. places.Where(_ => Chance()).Select(GapIn).Concat(joints.Where(_ => Chance()).Select(GapIn)).Select(gap => gap with { BridgedWhen = Sometimes() })],
        };
    }

    private Switch Switch() => new(new PieceId(Name("w")), [.. Enumerable.Range(0, _random.Next(2, 5)).Select(i => i == 0 ? Pick("off", "1", "null", "cab-a") : $"p{i}")]);

    /// <summary>Direct current has no phase.</summary>
    private static Wiring WithoutPhase(Wiring wiring) =>
        wiring with { Boosters = [.. wiring.Boosters.Select(booster => booster with { PhaseTurned = false })] };

    private Booster Booster(ImmutableArray<Supply> supplies, ImmutableArray<Piece> places)
    {
        Booster booster = new(Name("b"), ElectricPotential.FromVolts(Number(8, 20)), Amps(), Ohms())
        {
            Supply = supplies.IsEmpty || Chance() ? null : supplies[_random.Next(supplies.Length)].Name,
            Isolated = Chance(),
            PhaseTurned = Chance(),
            Delay = Seconds(),
        };
        return _random.Next(3) switch
        {
            0 => booster with { At = new PlanPoint(Number(-2, 2), Number(-2, 2)) },
            1 when !places.IsEmpty => booster with { Beside = Place(places[_random.Next(places.Length)]) },
            _ => booster,
        };
    }

    private Bus Bus(District district)
    {
        List<string> points = [district.Booster];
        List<BusRun> runs = [];
        Wire usual = Wire();
        for (int i = _random.Next(12); i > 0; i--)
        {
            string to = Name("P");
            runs.Add(new BusRun(points[_random.Next(points.Count)], to, Metres(0.1, 9), Chance() ? usual : Wire()) { Connectors = Math.Max(0, _random.Next(-3, 4)) });
            points.Add(to);
        }

        return new Bus(district.Name, [.. runs]) { Spacing = Chance() ? Metres(0.001, 0.3) : null };
    }

    private Duration Seconds() => Duration.FromSeconds(Number(0, 3));

    private ImmutableArray<TripPoint> Curve()
    {
        double amps = 0.1, seconds = 100;
        List<TripPoint> points = [];
        for (int i = _random.Next(5); i > 0; i--)
        {
            (amps, seconds) = (amps + Number(0.1, 3), seconds / (1 + _random.Next(9)));
            points.Add(new(ElectricCurrent.FromAmperes(amps), Duration.FromSeconds(seconds)));
        }

        return [.. points];
    }

    private Feeder Feeder(ImmutableArray<District> districts, ImmutableArray<Bus> buses, ImmutableArray<Piece> places)
    {
        District district = districts[_random.Next(districts.Length)];
        ImmutableArray<BusRun> runs = buses.FirstOrDefault(bus => bus.District == district.Name)?.Runs ?? [];
        string tap = runs.IsEmpty || _random.Next(4) == 0 ? district.Booster : runs[_random.Next(runs.Length)].To;
        TrackPlace place = Place(places[_random.Next(places.Length)]);
        return new Feeder(Name("f"), place, district.Name, tap, Wire(), Metres(0.05, 2)) { Swap = Chance() };
    }

    private Gap GapIn(Piece piece) => new(new GapPlace.InSection(Place(piece)), SomeRails());

    private Gap GapIn(Joint joint) => new(new GapPlace.InJoint(Pick(joint.First, joint.Second)), SomeRails());

    private RailSet SomeRails() => Pick(RailSet.Left, RailSet.Right, RailSet.Both);

    private TrackPlace Place(Piece piece) => new(piece.Id, piece.PlacesMetres!.Value * (1 + _random.Next(98)) / 100);

    private Wire Wire() => Chance()
        ? new Wire.Awg(_random.Next(-3, 31)) { Stranded = Chance() }
        : new Wire.Metric(Pick(0.5, 0.75, 1.5, 2.5, 4)) { Solid = Chance() };

    private Stock Stock()
    {
        ImmutableArray<Locomotive> kinds = Some(3, () => new Locomotive(
            Name("loco no. "), Amps(), Amps(), Amps(), Amps(), Metres(0.02, 0.3), _random.Next(1, 5))
        {
            Draw = Pick(LoadKind.Current, LoadKind.Power, LoadKind.Resistance),
            StayAlive = Chance() ? ElectricCapacitance.FromFarads(Math.Max(Number(0.0001, 0.5), 1e-6)) : null,
            Charging = ElectricResistance.FromOhms(Math.Max(Number(0.1, 100), 0.1)),
        });
        return new Stock
        {
            Locomotives = kinds,
            Trains = kinds.IsEmpty ? [] : Some(3, () => new Train(
                Name("train "), [.. Enumerable.Range(0, _random.Next(3)).Select(_ => kinds[_random.Next(kinds.Length)].Name)],
                _random.Next(8), Amps(), Metres(0.2, 8))),
            MovingAtOnce = Chance() ? _random.Next(1, 9) : null,
        };
    }

    private ImmutableArray<PieceId> Pieces(ImmutableArray<Piece> track) => [.. track.Where(_ => _random.Next(5) == 0).Select(piece => piece.Id)];

    private ImmutableArray<T> Some<T>(int most, Func<T> make) => [.. Enumerable.Range(0, _random.Next(most + 1)).Select(_ => make())];

    private string Name(string prefix)
    {
        string name = _random.Next(8) == 0 ? AwkwardNames[_random.Next(AwkwardNames.Length - 1)] : $"{prefix}{_names.Count}";
        return _names.Add(name) ? name : Name(prefix + "x");
    }

    private bool Chance() => _random.Next(2) == 0;

    private T Pick<T>(params ReadOnlySpan<T> choices) => choices[_random.Next(choices.Length)];

    /// <summary>Round numbers, as people write them, and now and then one with every digit.</summary>
    private double Number(double least, double most)
    {
        double number = least + ((most - least) * _random.NextDouble());
        return (_random.Next(4) == 0 ? number : Math.Round(number, _random.Next(1, 4))) + 0.0;   // no negative zero
    }

    private Length Metres(double least, double most) => Length.FromMeters(Math.Max(Number(least, most), 0.001));

    private ElectricResistance Ohms() => ElectricResistance.FromOhms(Number(0, 2));

    private ElectricCurrent Amps() => ElectricCurrent.FromAmperes(Math.Max(Number(0, 8), 0.01));
}
