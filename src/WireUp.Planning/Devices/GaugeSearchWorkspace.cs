using System.Collections.Immutable;
using WireUp.Circuits;
using WireUp.Layouts;
using WireUp.Layouts.Reference;

namespace WireUp.Planning.Devices;

/// <summary>The search for the wire of one district's runs: the best choice that passed, and what was learnt from those that did not.</summary>
internal sealed class GaugeSearchWorkspace
{
    /// <summary>Rounding of costs is no reason to go on.</summary>
    private const double Slack = 0.01;

    private const double WorthwhileGain = 3e-4;

    private const int FewRuns = 12, Patience = 3;

    private readonly WireStock _stock;
    private readonly Layout _layout;
    private readonly RunGaugeModel _model;
    private readonly double _trip;
    private readonly double _sourceVolts;
    private readonly List<GaugeLimit> _learnt = [];
    private readonly List<ImmutableArray<int>> _failed = [];
    private ImmutableArray<GaugeLimit> _kept = [], _least = [];
    private readonly HashSet<int> _tried = [];
    private bool _isPointKept = true;
    private int _idle;
    private double _bound;

    /// <param name="bus">The runs.</param>
    /// <param name="stock">The sizes.</param>
    /// <param name="layout">The layout with its wiring, whatever its bus wire.</param>
    /// <param name="uniform">What the district comes to with each size in all runs.</param>
    public GaugeSearchWorkspace(BusRuns bus, WireStock stock, Layout layout, ImmutableArray<DistrictPower> uniform)
    {
        (Bus, _stock, _layout) = (bus, stock, layout);
        (_trip, _sourceVolts) = (uniform[^1].Trip.Amperes, uniform[^1].SourceVolts.Volts);
        int last = stock.Sizes.Length - 1;
        Thinnest = Enumerable.Range(0, last + 1).Where(Suits).DefaultIfEmpty(last).First();
        int start = Enumerable.Range(Thinnest, last + 1 - Thinnest).Where(size => VerdictOf(size).Length == 0).DefaultIfEmpty(last).First();
        _model = new(bus, stock, [.. stock.Sizes.Select(size => Conductors.OhmsPerMetre(size.Wire, layout.Defaults.Temperature))], Thinnest);
        Best = Point = [.. bus.Metres.Select(_ => start)];
        (Power, Verdict) = (uniform[start], VerdictOf(start));
        _bound = CostOfThinnest;
        IsOpen = Verdict.Length == 0 && bus.Metres.Length > 0;

        bool Suits(int size) => Conductors.AmpacityAmps(stock.Sizes[size].Wire) >= _trip
            && Conductors.AreaSquareMillimetres(stock.Sizes[size].Wire) >= bus.LeastSquareMillimetres - 0.1;

        string VerdictOf(int size) => GaugeChooser.Verdict(layout, uniform[size], stock.Sizes[size].Wire);
    }

    public BusRuns Bus { get; }

    /// <summary>The thinnest size that may be used.</summary>
    public int Thinnest { get; }

    /// <summary>Size of each run in the cheapest choice that passed, or the thickest where none does.</summary>
    public ImmutableArray<int> Best { get; private set; }

    /// <summary>The choice that is looked at now.</summary>
    public ImmutableArray<int> Point { get; private set; }

    /// <summary>What the district comes to with <see cref="Best"/>.</summary>
    public DistrictPower Power { get; private set; }

    /// <summary>The limits that no choice keeps; empty where <see cref="Best"/> keeps all.</summary>
    public string Verdict { get; }

    /// <summary>
    /// No choice costs less. Were a choice that passed to cost less than the bound, the bound would be wrong for this bus, and only what the thinnest
    /// wire costs would be sure.
    /// </summary>
    public double LeastCost => _bound > Bus.Cost(_stock, Best) + Slack ? CostOfThinnest : Math.Min(_bound, Bus.Cost(_stock, Best));

    /// <summary>Whether ruling out another choice may bring the bound up: not where choices are many and the last ones hardly did.</summary>
    public bool IsWorthBounding => Bus.Metres.Length <= FewRuns || _idle < Patience;

    /// <summary>Whether something better may be found yet.</summary>
    public bool IsOpen { get; private set; }

    /// <summary>The choice in which current has most reason to pass a run by: thin wire in it and in all before and beyond it, thick in all others.</summary>
    public ImmutableArray<int> PassedBy(int run) => run >= Bus.Metres.Length
        ? Best
        : [.. Bus.Metres.Select((_, other) => Bus.IsBeyond(other, run) || Bus.IsBeyond(run, other) ? Thinnest : _stock.Sizes.Length - 1)];

    /// <summary>Takes note of what places get with the thickest wire in every run, and how little they follow each run at least.</summary>
    public void SetLeast(ImmutableArray<BusEffect> effects)
    {
        ImmutableArray<int> thickest = [.. Bus.Metres.Select(_ => _stock.Sizes.Length - 1)];
        _least = [.. effects.SelectMany(effect => Limits(effect, thickest))];
    }

    /// <summary>Works out the bound from that and from the choices that failed; the choice that it belongs to is looked at next.</summary>
    public void Bound()
    {
        if (_model.Solve(_least, _failed, roundUp: false) is { } least)
        {
            double before = _bound;
            _bound = Math.Max(least.Bound, _bound);
            _idle = _bound - before > WorthwhileGain * _bound ? 0 : _idle + 1;
            Point = least.Sizes;
        }

        IsOpen = _least.Length > 0 && _bound < Bus.Cost(_stock, Best) - Slack;
    }

    /// <summary>Proposes the cheapest choice by the straight line through what places get at the present point.</summary>
    public void Propose(ImmutableArray<BusEffect> effects)
    {
        ImmutableArray<GaugeLimit> here = [.. effects.SelectMany(effect => Limits(effect, Point))];
        if (_isPointKept)
        {
            _kept = here;
        }
        else
        {
            _learnt.AddRange(here);
        }

        if (_model.Solve(_kept.Concat(_learnt), _failed, roundUp: true) is { } better && Bus.Cost(_stock, better.Sizes) < Bus.Cost(_stock, Best) - Slack)
        {
            Point = better.Sizes;
        }
        else
        {
            (Point, IsOpen) = (Best, false);
        }
    }

    /// <summary>Keeps the present point if the circuit keeps every limit with it.</summary>
    public void Judge(DistrictPower power)
    {
        Wire thinnest = _stock.Sizes[Point.Min()].Wire;
        _isPointKept = GaugeChooser.Verdict(_layout, power, thinnest).Length == 0;
        if (_isPointKept)
        {
            (Best, Power) = (Point, power);
            IsOpen &= _bound < Bus.Cost(_stock, Best) - Slack;
            _learnt.Clear();
        }
        else
        {
            _failed.Add(Point);
        }
    }

    /// <summary>
    /// Looks at the best choice with one run thinner, in the order of what that saves; each run once. False when all have been tried.
    /// </summary>
    public bool TryThinner()
    {
        Point = Best;
        foreach (int run in Enumerable.Range(0, Best.Length).OrderByDescending(run => Bus.Metres[run]).Where(run => !_tried.Contains(run)))
        {
            int thinner = Best.Where(size => size < Best[run]).DefaultIfEmpty(-1).Max();
            bool isLast = Enumerable.Range(0, Best.Length).All(other => Bus.Parent[other] != run || Best[other] <= thinner);
            if (Verdict.Length == 0 && thinner >= 0 && isLast && CostOf(run, thinner) < CostOf(run, Best[run]) && _tried.Add(run))
            {
                Point = Best.SetItem(run, thinner);
                return true;
            }
        }

        return false;
    }

    private double CostOfThinnest => Bus.Cost(_stock, [.. Bus.Metres.Select(_ => Thinnest)]);

    private double CostOf(int run, int size) => _stock.CostPerMetre(size) * Bus.Metres[run];

    private IEnumerable<GaugeLimit> Limits(BusEffect effect, ImmutableArray<int> at)
    {
        ImmutableArray<double> ohms = [.. at.Select((size, run) => _model.Ohms(run, size))];
        yield return new(effect.DropVolts, _layout.MaxDrop.DecimalFractions * _sourceVolts, [.. effect.DropPerOhm.Skip(Bus.BuiltCount)], ohms);
        double mostOhms = (Math.Abs(effect.OpenVolts) / (Constants.FaultOverTripGood.Value * _trip)) - _layout.Defaults.Coin.Ohms;
        yield return new(effect.LoopOhms, mostOhms, [.. effect.LoopPerOhm.Skip(Bus.BuiltCount)], ohms);
    }
}
