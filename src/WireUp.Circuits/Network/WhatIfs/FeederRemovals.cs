using System.Collections.Immutable;
using UnitsNet;
using WireUp.Circuits.Numerics;
using WireUp.Layouts;
using WireUp.Rails;

namespace WireUp.Circuits.Network.WhatIfs;

/// <summary>
/// What a train finds at places of a district when some of its feeders are taken away: volts lost under the design load for each ampere of the
/// train, Ω. That is the resistance seen, source included, and what the spread part of the load adds to it.
/// </summary>
/// <remarks>
/// Taking away elements of resistance r turns the resistance between two places into R + xᵀ·(diag r − M)⁻¹·y: M is what currents through the elements
/// put across them, x and y what a current through either place does (Woodbury's formula). The matrix is factorised row by row (Cholesky), so that feeders taken away
/// one after the other cost one factorisation together. Its pivots stay above zero until something is cut off.
/// </remarks>
internal sealed class FeederRemovals
{
    private readonly double _trainAmps;
    private readonly double[] _feederOhms, _ohms, _spreadAcross;
    private readonly double[][] _across, _placeAcross;

    /// <summary>Solves the circuit with all feeders.</summary>
    /// <param name="layout">A layout with one district.</param>
    /// <param name="amps">Design load of the district.</param>
    /// <param name="looks">The places, each as a feeder would be soldered there.</param>
    internal FeederRemovals(Layout layout, ElectricCurrent amps, ImmutableArray<Feeder> looks)
    {
        (NodalModel model, double[] spread, _trainAmps) = Loaded(RailGraph.Build(layout, looks.Select(feeder => feeder.At)), amps);
        CircuitElement[] elements = [.. model.Circuit.Elements.Where(element => element.Kind == ElementKind.Feeder)];
        (int First, int Second)[] places = [.. looks.Select(look => FeederPoints.Of(model.Circuit.Graph, look))];
        _feederOhms = [.. elements.Select(element => element.Ohms)];
        _spreadAcross = Across(spread);
        double[][] columns = model.Responses([.. elements.Select(element => new[] { (element.From, 1.0), (element.To, -1.0) })]);
        _across = [.. columns.Select(Across)];
        _placeAcross = [.. places.Select(place => columns.Select(column => model.ValueBetween(place.First, place.Second, column)).ToArray())];
        model.SelectInverse();
        _ohms = [.. places.Select(place => Ohms(model, place.First, place.Second, spread, _trainAmps, unfed: double.NaN))];

        double[] Across(double[] response) => [.. elements.Select(element => model.ValueBetween(element.From, element.To, response))];
    }

    /// <summary>Whether a place has a feed while all feeders are there.</summary>
    internal bool IsFed(int at) => !double.IsNaN(_ohms[at]);

    /// <summary>How many feeders, taken away one after the other, bring a place beyond a limit or cut any rail off; null where all of them do not.</summary>
    /// <param name="at">Index of the place.</param>
    /// <param name="order">Indices of the feeders to take away.</param>
    /// <param name="limitOhms">The limit.</param>
    internal int? Breaking(int at, ReadOnlySpan<int> order, double limitOhms)
    {
        double ohms = _ohms[at];
        int size = 2 * order.Length;
        GrowingFactorWorkspace factor = new(size);
        double[] place = new double[size], spread = new double[size];
        for (int i = 0; i < size && ohms <= limitOhms; i++)
        {
            int element = Element(order, i);
            double[] row = new double[i + 1];
            for (int k = 0; k <= i; k++)
            {
                row[k] = -_across[element][Element(order, k)];
            }

            row[i] += _feederOhms[element];
            if (!factor.Add(row))
            {
                return (i / 2) + 1;
            }

            place[i] = factor.Solved(place, i, _placeAcross[at][element]);
            spread[i] = factor.Solved(spread, i, _spreadAcross[element]);
            ohms += place[i] * (place[i] + (spread[i] / _trainAmps));
        }

        return ohms > limitOhms ? (factor.Count + 1) / 2 : null;
    }

    /// <summary>The same at places of a district with the feeders that a layout has; ∞ where a place has no feed.</summary>
    /// <param name="layout">The layout, with all of its districts or without the others.</param>
    /// <param name="district">The district.</param>
    /// <param name="amps">Its design load.</param>
    /// <param name="looks">The places, each as a feeder would be soldered there.</param>
    internal static ImmutableArray<double> OhmsAt(Layout layout, string district, ElectricCurrent amps, ImmutableArray<Feeder> looks)
    {
        District own = layout.Wiring.Districts.First(each => each.Name == district);
        Layout alone = layout with
        {
            Wiring = layout.Wiring with
            {
                Boosters = [.. layout.Wiring.Boosters.Where(booster => booster.Name == own.Booster)],
                Districts = [own],
                Buses = [.. layout.Wiring.Buses.Where(bus => bus.District == district)],
                Feeders = [.. layout.Wiring.Feeders.Where(feeder => feeder.District == district)],
            },
        };
        (NodalModel model, double[] spread, double trainAmps) = Loaded(RailGraph.Build(alone, looks.Select(feeder => feeder.At)), amps);
        model.SelectInverse();
        return [.. looks.Select(feeder =>
        {
            (int first, int second) = FeederPoints.Of(model.Circuit.Graph, feeder);
            return Ohms(model, first, second, spread, trainAmps, unfed: double.PositiveInfinity);
        })];
    }

    private static double Ohms(NodalModel model, int first, int second, double[] spread, double trainAmps, double unfed) => model.Unknowns.AreFedTogether(first, second)
        ? model.Inverse(first, first) + model.Inverse(second, second) - (2 * model.Inverse(first, second)) + (model.ValueBetween(first, second, spread) / trainAmps)
        : unfed;

    private static int Element(ReadOnlySpan<int> order, int i) => (2 * order[i / 2]) + (i % 2);

    /// <summary>The circuit of one district, what its spread load takes away from every potential, and the current of its train.</summary>
    private static (NodalModel Model, double[] Spread, double TrainAmps) Loaded(RailGraph graph, ElectricCurrent amps)
    {
        NodalModel model = NodalModel.Of(CircuitBuilder.Build(graph, PowerOptions.Default.Turnouts));
        PowerOptions options = PowerOptions.Default with
        {
            DistrictLoads = ImmutableSortedDictionary<string, ElectricCurrent>.Empty.Add(graph.Layout.Wiring.Districts[0].Name, amps),
        };
        DesignCase design = new(model, new TrackSurvey(model, model.Potentials([])), DesignLoad.Of(graph.Layout), options);
        return (model, model.Responses([design.Loads.SelectMany(load => new[] { (load.From, load.Amps), (load.To, -load.Amps) })])[0], design.TrainAmps[0]);
    }
}
