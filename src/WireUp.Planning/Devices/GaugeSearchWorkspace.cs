using System.Collections.Immutable;
using WireUp.Circuits;
using WireUp.Circuits.Network.WhatIfs;
using WireUp.Layouts;
using WireUp.Layouts.Reference;

namespace WireUp.Planning.Devices;

/// <summary>The search for the wire of one district's runs: the best choice that the whole circuit passed, and the one that is proposed next.</summary>
internal sealed class GaugeSearchWorkspace
{
    /// <summary>Rounding of costs is no reason to go on.</summary>
    private const double Slack = 1e-6;

    private const double NearLimit = 1.05, MostMargin = 0.999;

    private readonly WireStock _stock;
    private readonly Layout _layout;
    private readonly ImmutableArray<double> _ohmsPerMetre;
    private readonly double _dropVolts, _loopOhms;
    private readonly HashSet<TrackPlace> _places = [];
    private double _margin = 1;

    /// <param name="bus">The runs.</param>
    /// <param name="stock">The sizes.</param>
    /// <param name="layout">The layout with its wiring, whatever its bus wire.</param>
    /// <param name="uniform">What the district comes to with each size in all runs.</param>
    public GaugeSearchWorkspace(BusRuns bus, WireStock stock, Layout layout, ImmutableArray<DistrictPower> uniform)
    {
        (Bus, _stock, _layout) = (bus, stock, layout);
        double trip = uniform[^1].Trip.Amperes;
        _ohmsPerMetre = [.. stock.Sizes.Select(size => Conductors.OhmsPerMetre(size.Wire, layout.Defaults.Temperature))];
        _dropVolts = layout.MaxDrop.DecimalFractions * uniform[^1].SourceVolts.Volts;
        _loopOhms = GaugeChooser.MostLoopOhms(layout, uniform[^1]);
        int last = stock.Sizes.Length - 1;
        Thinnest = Enumerable.Range(0, last + 1).Where(Suits).DefaultIfEmpty(last).First();
        int start = Enumerable.Range(Thinnest, last + 1 - Thinnest).Where(size => VerdictOf(size).Length == 0).OrderBy(UniformCost).FirstOrDefault(last);
        Best = Point = Uniform(start);
        (Power, Verdict) = (uniform[start], VerdictOf(start));
        LeastCost = Verdict.Length == 0 ? Enumerable.Range(Thinnest, last + 1 - Thinnest).Min(UniformCost) : UniformCost(start);
        IsOpen = LeastCost < UniformCost(start) - Slack;

        bool Suits(int size) => Conductors.AmpacityAmps(stock.Sizes[size].Wire) >= trip
            && Conductors.AreaSquareMillimetres(stock.Sizes[size].Wire) >= bus.LeastSquareMillimetres - 0.1;

        string VerdictOf(int size) => GaugeChooser.Verdict(layout, uniform[size], stock.Sizes[size].Wire);
    }

    public BusRuns Bus { get; }

    /// <summary>The thinnest size that may be used.</summary>
    public int Thinnest { get; }

    /// <summary>Size of each run in the cheapest choice that passed, or the thickest where none does.</summary>
    public ImmutableArray<int> Best { get; private set; }

    /// <summary>The choice that is proposed.</summary>
    public ImmutableArray<int> Point { get; private set; }

    /// <summary>What the district comes to with <see cref="Best"/>.</summary>
    public DistrictPower Power { get; private set; }

    /// <summary>The limits that no choice keeps; empty where <see cref="Best"/> keeps all.</summary>
    public string Verdict { get; }

    /// <summary>No choice costs less.</summary>
    public double LeastCost { get; private set; }

    /// <summary>Whether something better may be found yet.</summary>
    public bool IsOpen { get; private set; }

    /// <summary>The places that are looked at.</summary>
    public IEnumerable<TrackPlace> Places => _places;

    /// <summary>Looks at the places too that are out of their limits in a solved circuit, or nearly are.</summary>
    /// <returns>Whether there was a new one among them.</returns>
    public bool LookAt(PowerReport report)
    {
        DistrictPower power = report.Districts.First(each => each.District == Bus.District);
        int before = _places.Count;
        _places.UnionWith(report.Sections
            .Where(section => section.District == Bus.District && IsNearLimit(section.LargestLoop))
            .Select(section => section.LargestLoop.At)
            .Concat([power.LowestVolts.At, power.LowestFault.At]));
        return _places.Count > before;

        bool IsNearLimit(PlacePower place) => place.Drop * NearLimit > _layout.MaxDrop
            || place.FaultCurrent < NearLimit * Constants.FaultOverTripGood.Value * power.Trip;
    }

    /// <summary>Searches through every pair of sizes for the choice that costs least, as far as the places go that are looked at.</summary>
    /// <param name="thickest">The district with the thickest size in all of its new runs.</param>
    /// <param name="cancel">Stops the search.</param>
    public void Propose(BusVariation thickest, CancellationToken cancel)
    {
        double[] limits = [.. Enumerable.Range(0, thickest.Count).Select(value => _margin * (value % 2 == 0 ? _dropVolts : _loopOhms))];
        double known = Bus.Cost(_stock, Best), bound = known;
        int last = _stock.Sizes.Length - 1;
        for (int thick = last; thick > Thinnest; thick--)
        {
            BusVariation at = thick == last ? thickest : thickest.With(Bus.OhmsMore(_ohmsPerMetre[thick] - _ohmsPerMetre[last]));
            for (int thin = Thinnest; thin < thick; thin++)
            {
                if (Math.Min(UniformCost(thick), UniformCost(thin)) >= known - Slack)
                {
                    continue;
                }

                SizePairWorkspace pair = new(Bus, at, limits, _ohmsPerMetre[thin] - _ohmsPerMetre[thick], _stock.CostPerMetre(thick), _stock.CostPerMetre(thin));
                pair.Search(known - Slack, cancel);
                bound = Math.Min(bound, pair.Bound);
                if (pair.Best is { } found && pair.Cost(found) < known - Slack)
                {
                    known = pair.Cost(found);
                    Point = [.. Bus.Metres.Select((_, run) => found.Contains(run) ? thin : thick)];
                }
            }
        }

        LeastCost = _margin < 1 ? LeastCost : Math.Max(LeastCost, Math.Min(bound, known));
        IsOpen = !Point.SequenceEqual(Best);
    }

    /// <summary>
    /// Keeps the proposed choice if the whole circuit keeps every limit with it; else looks at the places where it does not. Where these were looked
    /// at, the wire of other districts matters to this one, over a rail they share: then it is to keep away from its limits.
    /// </summary>
    public void Judge(PowerReport report)
    {
        DistrictPower power = report.Districts.First(each => each.District == Bus.District);
        if (GaugeChooser.Verdict(_layout, power, _stock.Sizes[Point.Min()].Wire).Length == 0)
        {
            (Best, Power, IsOpen) = (Point, power, false);
        }
        else
        {
            Point = Best;
            if (!LookAt(report))
            {
                double over = Math.Max(power.LowestVolts.Drop / _layout.MaxDrop, Constants.FaultOverTripGood.Value / power.FaultOverTrip);
                _margin *= Math.Min(MostMargin, 1 / over);
            }
        }
    }

    private ImmutableArray<int> Uniform(int size) => [.. Bus.Metres.Select(_ => size)];

    private double UniformCost(int size) => Bus.Cost(_stock, Uniform(size));
}
