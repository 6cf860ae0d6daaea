using System.Collections.Immutable;
using UnitsNet;
using WireUp.Circuits;
using WireUp.Layouts;
using WireUp.Layouts.Reference;
using WireUp.Planning.Buses;
using WireUp.Planning.Devices;
using WireUp.Planning.Districts;
using WireUp.Planning.Feeders;
using WireUp.Rails;
using static System.FormattableString;

namespace WireUp.Planning;

/// <summary>The feeders of one district, and how few would do at least.</summary>
/// <param name="Feeders">The feeders, in the order of the track.</param>
/// <param name="Bound">No choice among the candidates that keeps the limits has fewer.</param>
internal sealed record FewestFeeders(ImmutableArray<FeederSite> Feeders, int Bound);

/// <summary>
/// The fewest feeders of districts in which volts or fault current ask for more than the distance does. Where a feeder is needed the
/// circuit tells, one condition at a time: with a feeder at every place but some around one, that one is beyond its limits (<see cref="FeedNet"/>). The
/// fewest feeders that meet all conditions known are solved as a circuit; a place that is beyond its limits then gives the next one. No choice can have fewer than
/// those that meet all conditions. (E. Moreno-Centeno and R. M. Karp, The implicit hitting set approach to solve combinatorial optimization problems,
/// Operations Research 61, 2013, from memory.)
/// </summary>
/// <remarks>
/// The conditions hold for bus in the thickest wire where the plan lays it, and from there to every place. They take it that a feeder more never
/// makes the volts at a place lower. For what the train draws that is sure (Rayleigh); for the spread part of the load, the smaller one, it is not.
/// </remarks>
/// <param name="draft">The plan so far, every limit kept.</param>
/// <param name="options">What the person settled.</param>
/// <param name="stock">Bus wire.</param>
/// <param name="relaid">The draft with its bus laid to the feeders it has now.</param>
/// <param name="cancel">Stops the search by an exception: the draft is good as it is.</param>
internal sealed class FewerFeeders(PlanDraft draft, PlanOptions options, WireStock stock, Func<PlanDraft, PlanDraft> relaid, CancellationToken cancel)
{
    private const int MostRounds = 12, MostTries = 30;
    private const double OverStep = 0.2, EndMetres = 0.001;

    private readonly Layout _layout = draft.Layout;
    private readonly DistrictMap _map = DistrictMap.Of(draft.Layout, draft.Districts!.Districts);
    private readonly ILookup<string?, double> _metres = DistrictMap.Of(draft.Layout, draft.Districts!.Districts).Lengths.ToLookup(length => length.District, length => length.Metres);
    private readonly RailGraph _graph = RailGraph.Build(draft.Layout);
    private readonly PowerReport _report = PowerAnalysis.Solve(PlanAssembly.Of(draft, options, stock.System, (_, _) => stock.Thickest), PowerOptions.Default, cancel);

    /// <summary>Looks for fewer feeders in one district.</summary>
    /// <param name="district">The district, with new bus and within its limits.</param>
    public FewestFeeders In(string district)
    {
        ImmutableArray<FeederSite> before = [.. draft.Feeders.Where(site => site.District == district)];
        DistrictPower power = _report.Districts.First(each => each.District == district);
        FeedableTrack track = new(_graph, new FeederOptions().MarginMetres, before.Select(site => site.At));
        FeederChoiceWorkspace choice = new(_layout, track, place => _map.At(place) == district, cancel);
        FeedNet net = NetOf(draft, power, choice);
        choice.Need(net.Nearest());
        int bound = Bound(choice, net, before.Length);
        for (int round = 0; round < MostTries && choice.Count < before.Length; round++)
        {
            ImmutableArray<FeederSite> sites = [.. choice.Places.Select(pair => new FeederSite(pair.At, district, pair.For is { } needed ? Reason(power, needed) : null))];
            PlanDraft now = relaid(draft with { Feeders = [.. draft.Feeders.Where(site => site.District != district), .. sites] });
            Layout laid = PlanAssembly.Of(now, options, stock.System, (_, _) => stock.Thickest);
            PowerReport report = PowerAnalysis.Solve(laid, PowerOptions.Default, cancel);
            if (GaugeChooser.Verdict(laid, report.Districts.First(each => each.District == district), stock.Thickest).Length == 0)
            {
                FeederChoiceWorkspace anew = choice.ByDistance();
                FeedNet own = NetOf(now, power, anew);
                anew.Need(own.Nearest());
                return new(sites, Math.Min(sites.Length, Bound(anew, own, sites.Length)));
            }

            choice.Need(net.Beside(choice.Chosen, laid, Worst(report, district), OverStep * round));
        }

        return new(before, Math.Min(bound, before.Length));
    }

    /// <summary>The most that conditions of the circuit alone ask for.</summary>
    private static int Bound(FeederChoiceWorkspace choice, FeedNet net, int enough)
    {
        int bound = choice.Bound;
        for (int round = 0; round < MostRounds && bound < enough && net.Beside(choice.Chosen) is { IsEmpty: false } more; round++)
        {
            choice.Need(more);
            bound = Math.Max(bound, choice.Bound);
        }

        return bound;
    }

    private FeedNet NetOf(PlanDraft laid, DistrictPower power, FeederChoiceWorkspace choice)
    {
        Layout everywhere = Everywhere(laid, power, choice.Cells);
        return new(choice.Track, everywhere, everywhere.Wiring.Feeders.Length - choice.Cells.Length, power.DesignLoad, LimitOhms(power), Ends(power.District), choice.Candidates);
    }

    /// <summary>How many volts a place may lose for each ampere of the train, Ω: by the drop, and by the fault current.</summary>
    private double LimitOhms(DistrictPower power) => Math.Min(Ohms(power, _layout.MaxDrop), GaugeChooser.MostLoopOhms(_layout, power));

    /// <summary>The ends of all sections of a district, as a feeder would be soldered there: no feeder is so near to a joint, and volts are often lowest there.</summary>
    private ImmutableArray<Feeder> Ends(string district) =>
    [
        .. _report.Sections.Where(section => section.District == district).Select(section => section.Section).Distinct()
            .SelectMany(section => new[] { EndMetres, Math.Round(_graph.Index.Piece(section).PlacesMetres!.Value - EndMetres, 4) }.Select(metres => new TrackPlace(section, metres)))
            .Where(place => place.MetresFromA > 0 && _map.At(place) == district)
            .Select(place => new Feeder("", place, district, "", stock.Thickest, Length.Zero) { Swap = draft.Reversing!.SwapAt(place) }),
    ];

    private IEnumerable<(TrackPlace At, double Ohms)> Worst(PowerReport report, string district)
    {
        DistrictPower power = report.Districts.First(each => each.District == district);
        return report.Sections.Where(section => section.District == district).Select(section => section.LargestLoop).Append(power.LowestVolts).Append(power.LowestFault)
            .Select(place => (place.At, Ohms(power, place.Drop)));
    }

    /// <summary>A drop as volts for each ampere of the train, less what others on the booster take from it.</summary>
    private double Ohms(DistrictPower power, Ratio drop)
    {
        DesignLoad load = _report.DesignLoad!;
        double train = Math.Min(load.HeaviestTrain.Amperes, power.DesignLoad.Amperes), all = _metres.Sum(metres => metres.Sum());
        double booster = _layout.Wiring.Boosters.First(each => each.Name == power.Booster).Resistance.Ohms;
        double others = _report.Districts.Where(other => other.District != power.District && other.Booster == power.Booster).Sum(Others);
        return ((drop.DecimalFractions * power.SourceVolts.Volts) - (booster * others)) / train;

        // The part of the design load that a district's track has; less where its train alone is more.
        double Others(DistrictPower other) => Math.Max(
            load.Total.Amperes * _metres[other.District].Sum() / all,
            other.DesignLoad.Amperes - Math.Min(load.HeaviestTrain.Amperes, other.DesignLoad.Amperes));
    }

    /// <summary>The district alone, with a feeder at every cell; bus of the thickest wire where it is laid, and from there to every cell.</summary>
    private Layout Everywhere(PlanDraft laid, DistrictPower power, ImmutableArray<TrackPlace> cells)
    {
        BusTask task = laid.Buses.First(bus => bus.District == power.District).Task;
        BusWays ways = BusWays.For(_layout, task with { Feeders = [.. cells.Concat(task.Feeders).Distinct()] });
        ImmutableArray<int> roots = [.. task.Built.Select(built => ways.Places[built.At].Tap).DefaultIfEmpty(ways.Booster).Distinct().Order()];
        Wiring wiring = _layout.Wiring;
        ImmutableArray<BusRun> runs =
        [
            new(power.Booster, Point(ways.Booster), options.BoosterLead, stock.Thickest),
            .. task.Built.Select(built => new BusRun(built.Tap, Point(ways.Places[built.At].Tap), Length.Zero, stock.Thickest)),
            .. wiring.Buses.Where(bus => bus.District == power.District).SelectMany(bus => bus.Runs),
            .. Joined(ways.Graph, EdgesTo(task.Feeders).Concat(EdgesTo(cells)))
                .Select(edge => new BusRun(Point(edge.From), Point(edge.To), Length.FromMeters(edge.Metres * (1 + options.BusSlack.DecimalFractions)), stock.Thickest)),
        ];
        return _layout with
        {
            Wiring = wiring with
            {
                Boosters = [.. wiring.Boosters.Where(booster => booster.Name == power.Booster)],
                Districts = [.. wiring.Districts.Where(district => district.Name == power.District)],
                Buses = [new(power.District, runs)],
                Feeders =
                [
                    .. wiring.Feeders.Where(feeder => feeder.District == power.District),
                    .. cells.Select((at, i) => new Feeder(
                        Invariant($"cell {i}"), at, power.District, Point(ways.Places[at].Tap), GaugeChooser.FeederWire(stock.System, power.Trip.Amperes),
                        options.FeederLength + Length.FromMeters(ways.Places[at].LeadMetres)) { Swap = draft.Reversing!.SwapAt(at) }),
                ],
            },
        };

        static string Point(int point) => Invariant($"point {point}");

        IEnumerable<int> EdgesTo(ImmutableArray<TrackPlace> places)
        {
            ImmutableArray<int> taps = [.. places.Select(place => ways.Places[place].Tap).Distinct()];
            return ShallowTree.Of(ways.Graph, BusTreeFinder.Find(ways.Graph, roots, taps), roots, taps).Edges;
        }
    }

    /// <summary>Edges without those that would close a ring; the first are kept.</summary>
    private static IEnumerable<CorridorEdge> Joined(Corridor ways, IEnumerable<int> edges)
    {
        DisjointSetsWorkspace joined = new(ways.PointCount);
        foreach (CorridorEdge edge in edges.Select(edge => ways.Edges[edge]))
        {
            if (joined.Find(edge.From) != joined.Find(edge.To))
            {
                joined.Join(edge.From, edge.To);
                yield return edge;
            }
        }
    }

    private string Reason(DistrictPower power, NeededFeeder needed) =>
        NearerFeeders.Reason(_layout, power, (power.LowestVolts.Drop / _layout.MaxDrop) > (Constants.FaultOverTripGood.Value / power.FaultOverTrip), needed.At, needed.WithinMetres);
}
