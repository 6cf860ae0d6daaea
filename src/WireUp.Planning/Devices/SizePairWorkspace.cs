using System.Collections.Immutable;
using WireUp.Circuits.Network.WhatIfs;

namespace WireUp.Planning.Devices;

/// <summary>The search for the runs of one bus that get the thinner of two sizes: the cheapest choice that keeps the limits, and what none can cost less than.</summary>
/// <remarks>
/// A run made thin adds something to every value; how much depends on the other runs. Made thin from the ends of the bus inwards, a run finds all beyond
/// it thin and all before it thick. Of the others any may be thin, and least is added where none is: then most of the current goes another way.
/// The exact choice with these least rises is solved as a circuit. If it breaks a limit, the values there give one condition more: every run of it that is
/// thick instead takes away what it adds last at most, with those before it thick.
/// </remarks>
internal sealed class SizePairWorkspace
{
    private const int MostRounds = 12;

    /// <summary>Rounding of the circuit, V and Ω.</summary>
    private const double Same = 1e-9;

    private readonly BusRuns _bus;
    private readonly BusVariation _thick;
    private readonly double[] _limits, _more, _values;
    private readonly double _thickCost, _thinCost;
    private readonly Dictionary<int, ImmutableArray<double>> _rises = [];
    private readonly List<ThinLimit> _conditions = [];
    private readonly List<ImmutableArray<int>> _failed = [];

    /// <param name="bus">The runs.</param>
    /// <param name="thick">The district with the thicker size in all of them.</param>
    /// <param name="limits">What each of its values may be at most.</param>
    /// <param name="more">By how much the resistance of a metre of wire grows with the thinner size, Ω/m.</param>
    /// <param name="thickCost">What a metre of the thicker size costs.</param>
    /// <param name="thinCost">What a metre of the thinner size costs.</param>
    public SizePairWorkspace(BusRuns bus, BusVariation thick, double[] limits, double more, double thickCost, double thinCost)
    {
        (_bus, _thick, _limits, _thickCost, _thinCost) = (bus, thick, limits, thickCost, thinCost);
        _more = bus.OhmsMore(more);
        _values = thick.Values();
    }

    /// <summary>The thin runs of the cheapest choice found that keeps the limits; null where there is none.</summary>
    public ImmutableArray<int>? Best { get; private set; }

    /// <summary>What no choice of these two sizes costs less than; ∞ where none keeps the limits.</summary>
    public double Bound { get; private set; }

    /// <summary>What a choice costs.</summary>
    public double Cost(ImmutableArray<int> thin) => (_bus.Metres.Sum() * _thickCost) + (thin.Sum(run => _bus.Metres[run]) * (_thinCost - _thickCost));

    /// <summary>Searches until the choice is proved the best, or that no choice costs less than one that is known.</summary>
    /// <param name="known">What that one costs.</param>
    /// <param name="cancel">Stops the search.</param>
    public void Search(double known, CancellationToken cancel)
    {
        ImmutableArray<int> all = [.. Enumerable.Range(0, _bus.Metres.Length)];
        if (Broken(_values).Length > 0)
        {
            Bound = double.PositiveInfinity;
            return;
        }

        int[] breakable = Broken(With(all));
        Rise();
        _conditions.AddRange(breakable.Select(value => new ThinLimit(_limits[value] - _values[value], [.. all.Select(run => _rises[run][value])])));
        SizePairModel model = new(_bus, _thickCost, _thinCost);
        bool isProved = false;
        for (int round = 0; round < MostRounds && !isProved && Bound < known; round++)
        {
            cancel.ThrowIfCancellationRequested();
            if (model.Solve(_conditions, _failed) is not { } found)
            {
                // Thick wire in all runs is a choice: none was found in time.
                break;
            }

            Bound = Math.Max(Bound, found.Bound);
            double[] values = With(found.Thin);
            int[] broken = Broken(values);
            isProved = broken.Length == 0;
            if (!isProved)
            {
                Learn(found.Thin, values, broken);
            }

            Keep(isProved ? found.Thin : Thickened(found.Thin, broken));
        }

        if (Best is { } best && Cost(best) < Bound)
        {
            // Rounding, or a choice that should not be: then only the wire itself is sure.
            Bound = isProved ? Cost(best) : Math.Min(Cost([]), Cost(all));
        }
    }

    private void Keep(ImmutableArray<int>? thin)
    {
        if (thin is { } found && (Best is not { } best || Cost(found) < Cost(best)))
        {
            Best = found;
        }
    }

    private double[] With(ImmutableArray<int> thin) => _thick.Adding([.. thin.Select(_bus.WithBuilt)], _more)[^1];

    private int[] Broken(double[] values) => [.. Enumerable.Range(0, values.Length).Where(value => values[value] > _limits[value] + Same)];

    /// <summary>What each run adds with all beyond it thin and all others thick; a run and the longest branch beyond it are worked out in one go.</summary>
    private void Rise()
    {
        foreach (int top in Enumerable.Range(0, _bus.Metres.Length).Where(run => _bus.Parent[run] < 0 || _bus.Branches[_bus.Parent[run]][0] != run))
        {
            ImmutableArray<int> order = _bus.FromEnds(top);
            double[][] values = _thick.Adding([.. order.Select(_bus.WithBuilt)], _more);
            for (int run = top; run >= 0; run = _bus.Branches[run].FirstOrDefault(-1))
            {
                int step = order.IndexOf(run);
                _rises[run] = [.. values[step + 1].Zip(values[step], (after, before) => after - before)];
            }
        }
    }

    private void Learn(ImmutableArray<int> thin, double[] values, int[] broken)
    {
        double[][] taken = Taken(thin);
        foreach (int value in broken)
        {
            double[] byRun = [.. Enumerable.Range(0, _bus.Metres.Length).Select(run => _rises[run][value])];
            double room = _limits[value] - values[value];
            for (int i = 0; i < thin.Length; i++)
            {
                byRun[thin[i]] = taken[i][value];
                room += taken[i][value];
            }

            _conditions.Add(new(room, [.. byRun]));
        }

        _failed.Add(thin);
    }

    private double[][] Taken(ImmutableArray<int> thin) => _thick.Taking(
        [.. thin.Select(_bus.WithBuilt)], _more, i => [.. _bus.Before(thin[i]).Select(run => thin.IndexOf(run)).Where(at => at >= 0)]);

    /// <summary>A choice that broke limits with runs made thick, each time the one that takes most away for what it costs, until the limits are kept.</summary>
    private ImmutableArray<int>? Thickened(ImmutableArray<int> thin, int[] broken)
    {
        while (broken.Length > 0 && thin.Length > 0 && !(Best is { } best && Cost(thin) >= Cost(best)))
        {
            double[][] taken = Taken(thin);
            int thick = Enumerable.Range(0, thin.Length)
                .Where(i => !thin.Contains(_bus.Parent[thin[i]]))
                .MaxBy(i => broken.Sum(value => taken[i][value] / _limits[value]) / Math.Max(Same, _bus.Metres[thin[i]]));
            thin = thin.RemoveAt(thick);
            broken = Broken(With(thin));
        }

        return broken.Length == 0 ? thin : null;
    }
}
