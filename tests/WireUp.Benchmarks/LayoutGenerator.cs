using System.Globalization;
using UnitsNet;
using WireUp.Layouts;

namespace WireUp.Benchmarks;

/// <summary>
/// Layouts of any size for measuring: districts of some 1,500 pieces, each an oval with passing loops and sidings, a bus that
/// follows the oval and a feeder every six pieces of it; neighbouring districts touch at two gapped joints.
/// </summary>
internal sealed class LayoutGenerator
{
    private const int PiecesADistrict = 1500;
    private const int RingPiecesATap = 6;
    private readonly List<Piece> _pieces = [];
    private readonly List<Joint> _joints = [];
    private readonly List<Booster> _boosters = [];
    private readonly List<District> _districts = [];
    private readonly List<Bus> _buses = [];
    private readonly List<Feeder> _feeders = [];
    private readonly List<TrackEnd> _stubs = [];
    private readonly Random _random;

    private LayoutGenerator(int seed) => _random = new Random(seed);

    /// <summary>A layout of about that many pieces.</summary>
    /// <param name="pieces">How many.</param>
    /// <param name="commonReturn">Whether the gaps between districts cut one rail only.</param>
    /// <param name="seed">Lengths and joint resistances are drawn from it.</param>
    internal static Layout Make(int pieces, bool commonReturn = true, int seed = 1)
    {
        LayoutGenerator generator = new(seed);
        int districts = Math.Max(1, (pieces + (PiecesADistrict / 2)) / PiecesADistrict);
        for (int d = 0; d < districts; d++)
        {
            generator.AddDistrict(d, pieces / districts, commonReturn ? RailSet.Left : RailSet.Both);
        }

        return generator.Build();
    }

    private void AddDistrict(int number, int pieces, RailSet gaps)
    {
        string name = Text("d", number);
        _boosters.Add(new($"b-{name}", ElectricPotential.FromVolts(16), ElectricCurrent.FromAmperes(5), ElectricResistance.FromOhms(0.05)));
        _districts.Add(new(name, $"b-{name}", ElectricCurrent.FromAmperes(4), ElectricResistance.FromOhms(0.03)));
        int firstStub = _stubs.Count, goal = _pieces.Count + pieces;
        List<BusRun> runs = [];
        TrackEnd? first = null, last = null, openLoop = null;
        for (int i = 0; _pieces.Count < goal; i++)
        {
            (TrackEnd from, TrackEnd to) = i % 7 == 3 ? RingTurnout(name, i, ref openLoop) : Section($"{name}-r{i.ToString(CultureInfo.InvariantCulture)}");
            first ??= from;
            if (last is { } end)
            {
                Join(end, from);
            }

            last = to;
            if (i % RingPiecesATap == 0)
            {
                AddTap(name, i / RingPiecesATap, from.Piece, runs);
            }
        }

        Join(last!.Value, first!.Value);
        _buses.Add(new(name, [.. runs]));
        ConnectToNeighbour(firstStub, gaps);
    }

    /// <summary>A turnout of the oval: in turn one to a siding, one that opens a passing loop, one that closes it.</summary>
    private (TrackEnd From, TrackEnd To) RingTurnout(string district, int at, ref TrackEnd? openLoop)
    {
        Piece.Turnout turnout = new(new(Text($"{district}-T", at)), TurnoutHand.Left, FrogKind.Insulated);
        _pieces.Add(turnout);
        TrackEnd leg = turnout.End("diverging");
        switch (at / 7 % 3)
        {
            case 0:
                _stubs.Add(Chain(leg, Text($"{district}-s", at), 4));
                break;
            case 1:
                openLoop = Chain(leg, Text($"{district}-l", at), 12);
                break;
            default:
                Join(openLoop!.Value, leg);
                openLoop = null;
                return (turnout.End("through"), turnout.End("points"));
        }

        return (turnout.End("points"), turnout.End("through"));
    }

    private TrackEnd Chain(TrackEnd from, string name, int count)
    {
        for (int i = 0; i < count; i++)
        {
            (TrackEnd a, TrackEnd b) = Section(Text($"{name}-", i));
            Join(from, a);
            from = b;
        }

        return from;
    }

    private (TrackEnd A, TrackEnd B) Section(string name)
    {
        double metres = _random.Next(3) switch { 0 => 0.17, 1 => 0.47, _ => 0.94 };
        Piece.Section section = new(new(name), Length.FromMeters(metres)) { Rail = new(100, "nickel-silver", 0.035) };
        _pieces.Add(section);
        return (section.End("a"), section.End("b"));
    }

    private void Join(TrackEnd first, TrackEnd second, RailSet insulated = RailSet.None) => _joints.Add(new(first, second)
    {
        Insulated = insulated,
        Resistance = ElectricResistance.FromOhms(0.002 * Math.Pow(25, _random.NextDouble())),
    });

    private void AddTap(string district, int number, PieceId at, List<BusRun> runs)
    {
        string point = Text($"{district}-P", number), from = number == 0 ? $"b-{district}" : Text($"{district}-P", number - 1);
        runs.Add(new(from, point, Length.FromMeters(3), new Wire.Awg(14)));
        if (_pieces[^1] is Piece.Section section && section.Id == at)
        {
            _feeders.Add(new(Text($"f-{district}-", number), new(at, section.Length.Meters / 2), district, point,
                new Wire.Awg(20), Length.FromMeters(0.5)));
        }
    }

    private void ConnectToNeighbour(int firstStub, RailSet gaps)
    {
        for (int i = 0; i < 2 && firstStub >= 4 && firstStub + i < _stubs.Count; i++)
        {
            Join(_stubs[firstStub - 1 - i], _stubs[firstStub + 2 + i], gaps);
        }
    }

    private Layout Build() => new()
    {
        Name = "Measuring layout",
        LongestTrain = Length.FromMeters(2),
        ShortestPickup = Length.FromMillimeters(60),
        Track = [.. _pieces],
        Joints = [.. _joints],
        Wiring = new() { Boosters = [.. _boosters], Districts = [.. _districts], Buses = [.. _buses], Feeders = [.. _feeders] },
    };

    private static string Text(string prefix, int number) => prefix + number.ToString(CultureInfo.InvariantCulture);
}
