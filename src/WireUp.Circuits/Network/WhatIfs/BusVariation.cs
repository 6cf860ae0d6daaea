using System.Collections.Immutable;
using WireUp.Circuits.Numerics;
using WireUp.Layouts;
using WireUp.Rails;

namespace WireUp.Circuits.Network.WhatIfs;

/// <summary>
/// What places of one district get when runs of its bus have more resistance than they are taken to have, without solving the railway again: drop
/// under the design load and resistance seen.
/// </summary>
/// <remarks>
/// A wire of resistance r that gets Δ more changes the resistance between two places to R + xᵀ·(D − M)⁻¹·y, with r·(r + Δ)/Δ for every changed wire on
/// the diagonal of D; M is what currents through the wires put across them, x and y what a current through either place does (Woodbury's formula). The spread part of the load
/// changes what a place gets likewise, with y for what it puts across the wires.
/// </remarks>
internal sealed class BusVariation
{
    private readonly double _trainAmps;
    private readonly double[] _wireOhms, _spread, _drop, _loop;
    private readonly double[][] _across, _place;

    private BusVariation(double trainAmps, double[] wireOhms, double[][] across, double[][] place, double[] spread, double[] drop, double[] loop) =>
        (_trainAmps, _wireOhms, _across, _place, _spread, _drop, _loop) = (trainAmps, wireOhms, across, place, spread, drop, loop);

    /// <summary>How many values there are: two for each place, the drop in V and after it the resistance seen in Ω.</summary>
    internal int Count => 2 * _drop.Length;

    /// <summary>The values with the resistances as they are.</summary>
    internal double[] Values() => [.. _drop.Zip(_loop, (drop, loop) => new[] { drop, loop }).SelectMany(pair => pair)];

    /// <summary>Solves the railway once for all districts; a place without a feed is left out, and a district without a place that has one.</summary>
    /// <param name="layout">The layout with its wiring.</param>
    /// <param name="places">Places by district.</param>
    internal static ImmutableDictionary<string, BusVariation> Of(Layout layout, ILookup<string, TrackPlace> places)
    {
        NodalModel model = NodalModel.Of(CircuitBuilder.Build(RailGraph.Build(layout), PowerOptions.Default.Turnouts));
        if (model.Outcome is not FactorOutcome.Solved)
        {
            return [];
        }

        Circuit circuit = model.Circuit;
        TrackSurvey survey = new(model, model.Potentials([]));
        DesignCase design = new(model, survey, DesignLoad.Of(layout), PowerOptions.Default);
        ILookup<PieceId, LiveSegment> live = survey.Live.ToLookup(each => circuit.Segments[each.Segment].Section);
        ILookup<string, CircuitElement> wires = Wires(circuit).ToLookup(pair => pair.District, pair => pair.Wire);
        return places.Select(One).OfType<KeyValuePair<string, BusVariation>>().ToImmutableDictionary();

        KeyValuePair<string, BusVariation>? One(IGrouping<string, TrackPlace> asked)
        {
            (LiveSegment Live, double Part)[] found = [.. asked
                .SelectMany(at => live[at.Section]
                    .Where(each => circuit.Segments[each.Segment] is var segment
                        && at.MetresFromA >= segment.FromMetres - 1e-9 && at.MetresFromA <= segment.ToMetres + 1e-9 && circuit.Districts[each.District].District.Name == asked.Key)
                    .Take(1)
                    .Select(each => (each, Fraction(circuit.Segments[each.Segment], at))))];
            if (found.Length == 0)
            {
                return null;
            }

            CircuitElement[] own = [.. wires[asked.Key]];
            DistrictStart start = circuit.Districts[found[0].Live.District];
            double[][] columns = model.Responses([.. own.Select(wire => new[] { (wire.From, 1.0), (wire.To, -1.0) })]);
            return new(asked.Key, new(
                design.TrainAmps[found[0].Live.District],
                [.. own.Select(wire => wire.Ohms)],
                [.. columns.Select(column => own.Select(wire => model.ValueBetween(wire.From, wire.To, column)).ToArray())],
                [.. found.Select(each => columns.Select(column => -At(circuit.Segments[each.Live.Segment], each.Live.Sign, each.Part, column)).ToArray())],
                [.. own.Select(wire => model.VoltsBetween(wire.From, wire.To, design.Potentials))],
                [.. found.Select(each => circuit.Sources[start.Source].Volts - design.Volts(each.Live).At(each.Part))],
                [.. found.Select(each => each.Live.Ohms.At(each.Part))]));
        }

        double At(TrackSegment segment, int sign, double part, double[] column) => sign
            * (((1 - part) * model.ValueBetween(segment.FirstAtStart, segment.SecondAtStart, column)) + (part * model.ValueBetween(segment.FirstAtEnd, segment.SecondAtEnd, column)));
    }

    /// <summary>The values when runs get more resistance one after the other: none yet, the first, the first two, and so on.</summary>
    /// <param name="runs">The runs, each by its place in the district's bus.</param>
    /// <param name="ohms">By how much each run of the bus grows in either wire, Ω.</param>
    internal double[][] Adding(ReadOnlySpan<int> runs, ReadOnlySpan<double> ohms)
    {
        int places = _drop.Length;
        int[] wires = WiresOf(runs);
        double[][] values = new double[runs.Length + 1][];
        values[0] = Values();
        GrowingFactorWorkspace factor = new(wires.Length);
        double[][] solved = [.. Enumerable.Range(0, places).Select(_ => new double[wires.Length])];
        double[] spread = new double[wires.Length];
        for (int i = 0; i < wires.Length; i++)
        {
            double[] now = i % 2 == 0 ? values[(i / 2) + 1] = [.. values[i / 2]] : values[(i / 2) + 1];
            factor.Add(Row(wires, i, ohms));
            spread[i] = factor.Solved(spread, i, _spread[wires[i]]);
            for (int p = 0; p < places; p++)
            {
                solved[p][i] = factor.Solved(solved[p], i, _place[p][wires[i]]);
                AddTo(now, p, solved[p][i], spread[i]);
            }
        }

        return values;
    }

    /// <summary>
    /// For runs that all get more resistance, how much of the values each adds when it is the last but for some others that are left out.
    /// </summary>
    /// <param name="runs">The runs.</param>
    /// <param name="ohms">By how much each run of the bus grows in either wire, Ω.</param>
    /// <param name="without">Places in <paramref name="runs"/> of those that are left out, for the run at each place.</param>
    internal double[][] Taking(ReadOnlySpan<int> runs, ReadOnlySpan<double> ohms, Func<int, int[]> without)
    {
        int[] wires = WiresOf(runs);
        int size = wires.Length, places = _drop.Length;
        GrowingFactorWorkspace factor = Factor(wires, ohms);
        double[][] inverse = [.. Enumerable.Range(0, size).Select(i => Solved(k => k == i ? 1 : 0))];
        double[][] place = [.. _place.Select(across => Solved(k => across[wires[k]]))];
        double[] spread = Solved(k => _spread[wires[k]]);
        double[][] taken = new double[runs.Length][];
        for (int at = 0; at < runs.Length; at++)
        {
            int[] order = [.. without(at), at];
            GrowingFactorWorkspace small = new(2 * order.Length);
            double[] smallSpread = new double[2 * order.Length];
            double[][] smallPlace = [.. place.Select(_ => new double[2 * order.Length])];
            double[] values = taken[at] = new double[2 * places];
            int[] own = WiresOf(order);
            for (int i = 0; i < own.Length; i++)
            {
                double[] row = new double[i + 1];
                for (int k = 0; k <= i; k++)
                {
                    row[k] = inverse[own[i]][own[k]];
                }

                // A wire that stays as it is has no part in the others.
                row[i] = row[i] > 0 ? row[i] : double.PositiveInfinity;
                small.Add(row);
                smallSpread[i] = small.Solved(smallSpread, i, spread[own[i]]);
                for (int p = 0; p < places; p++)
                {
                    smallPlace[p][i] = small.Solved(smallPlace[p], i, place[p][own[i]]);
                    if (i >= 2 * (order.Length - 1))
                    {
                        AddTo(values, p, smallPlace[p][i], smallSpread[i]);
                    }
                }
            }
        }

        return taken;

        double[] Solved(Func<int, double> right)
        {
            double[] values = [.. Enumerable.Range(0, size).Select(right)];
            factor.Solve(values);
            return values;
        }
    }

    /// <summary>The same with more resistance in runs for good.</summary>
    /// <param name="ohms">By how much each run of the bus grows in either wire, Ω.</param>
    internal BusVariation With(ReadOnlySpan<double> ohms)
    {
        double[] more = [.. ohms];
        int[] wires = [.. Enumerable.Range(0, _wireOhms.Length)];
        GrowingFactorWorkspace factor = Factor(wires, more);
        double[][] across = [.. _across.Select(Half)], place = [.. _place.Select(Half)];
        double[] spread = Half(_spread);
        return new BusVariation(
            _trainAmps,
            [.. _wireOhms.Select((own, wire) => own + more[wire / 2])],
            [.. _across.Select((row, i) => row.Select((value, k) => k >= i ? value + Dot(across[i], across[k]) : 0).ToArray())],
            [.. _place.Select((row, p) => row.Select((value, k) => value + Dot(place[p], across[k])).ToArray())],
            [.. _spread.Select((value, k) => value + Dot(spread, across[k]))],
            [.. _drop.Select((value, p) => value + Dot(place[p], spread) + (_trainAmps * Dot(place[p], place[p])))],
            [.. _loop.Select((value, p) => value + Dot(place[p], place[p]))]).Mirrored();

        double[] Half(double[] row)
        {
            double[] half = new double[wires.Length];
            for (int k = 0; k < half.Length; k++)
            {
                half[k] = factor.Solved(half, k, row[wires[k]]);
            }

            return half;
        }
    }

    /// <summary>The two wires of each run.</summary>
    private static int[] WiresOf(ReadOnlySpan<int> runs)
    {
        int[] wires = new int[2 * runs.Length];
        for (int i = 0; i < wires.Length; i++)
        {
            wires[i] = (2 * runs[i / 2]) + (i % 2);
        }

        return wires;
    }

    private GrowingFactorWorkspace Factor(int[] wires, ReadOnlySpan<double> ohms)
    {
        GrowingFactorWorkspace factor = new(wires.Length);
        for (int i = 0; i < wires.Length; i++)
        {
            factor.Add(Row(wires, i, ohms));
        }

        return factor;
    }

    /// <summary>A row of D − M as far as the diagonal. A wire that has no resistance or gets no more stays as it is.</summary>
    private double[] Row(int[] wires, int i, ReadOnlySpan<double> ohms)
    {
        double[] row = new double[i + 1];
        for (int k = 0; k <= i; k++)
        {
            row[k] = -_across[wires[i]][wires[k]];
        }

        double own = _wireOhms[wires[i]], more = ohms[wires[i] / 2];
        row[i] = own > 0 && more > 0 ? row[i] + (own * (own + more) / more) : double.PositiveInfinity;
        return row;
    }

    /// <summary>Adds to both values of a place what one more wire makes of them.</summary>
    private void AddTo(double[] values, int place, double part, double spread)
    {
        values[2 * place] += part * ((_trainAmps * part) + spread);
        values[(2 * place) + 1] += part * part;
    }

    private BusVariation Mirrored()
    {
        for (int i = 0; i < _across.Length; i++)
        {
            for (int k = 0; k < i; k++)
            {
                _across[i][k] = _across[k][i];
            }
        }

        return this;
    }

    private static double Dot(double[] a, double[] b)
    {
        double sum = 0;
        for (int i = 0; i < a.Length; i++)
        {
            sum += a[i] * b[i];
        }

        return sum;
    }

    private static double Fraction(in TrackSegment segment, TrackPlace place) => segment.LengthMetres > 0
        ? Math.Clamp((place.MetresFromA - segment.FromMetres) / segment.LengthMetres, 0, 1)
        : 0;

    /// <summary>The two wires of every run: the circuit has them in the order of the layout.</summary>
    private static IEnumerable<(string District, CircuitElement Wire)> Wires(Circuit circuit)
    {
        CircuitElement[] wires = [.. circuit.Elements.Where(element => element.Kind == ElementKind.Bus)];
        return circuit.Graph.Layout.Wiring.Buses.SelectMany(bus => bus.Runs.SelectMany(_ => new[] { bus.District, bus.District })).Zip(wires);
    }
}
