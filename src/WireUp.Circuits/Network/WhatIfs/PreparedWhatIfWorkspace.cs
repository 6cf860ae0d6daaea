using WireUp.Circuits.Numerics;

namespace WireUp.Circuits.Network.WhatIfs;

/// <summary>
/// What becomes of volts and resistances at a handful of places when one element is opened or changed: the quick way for
/// asking of every joint in turn.
/// </summary>
/// <remarks>
/// Prepared once: a column of the inverse for each place, c_p = Z·(e_first − e_second), and the selected inverse. Then with
/// R = Z_uu + Z_vv − 2·Z_uv of the element's ends, w the volts across it and q as in <see cref="UpdateWorkspace"/>, each place costs two
/// numbers: v_p −= (c_p(u) − c_p(v))·w/(q + R), and its own resistance Z_p −= (c_p(u) − c_p(v))²/(q + R). Nothing is allocated.
/// </remarks>
internal sealed class PreparedWhatIfWorkspace
{
    /// <summary>What rounding may take from q + R, as a part of it, before R is worked out again without taking differences of Z.</summary>
    private const double RoundingLimit = 1e-10;

    private const double LeastPivot = 1e-8;

    private readonly NodalModel _model;
    private readonly AskedPlaces _places;
    private readonly double[] _columns;
    private readonly double[] _ownOhms;
    private readonly double[] _volts;
    private readonly double[] _ohms;
    private readonly HalfSolveWorkspace _solver;
    private readonly HalfSolution _half = new();

    /// <param name="model">The model; its selected inverse must have been worked out.</param>
    /// <param name="places">The places.</param>
    internal PreparedWhatIfWorkspace(NodalModel model, AskedPlaces places)
    {
        (_model, _places) = (model, places);
        _columns = Columns();
        _solver = new HalfSolveWorkspace(model.Factor);
        (_volts, _ohms) = ([.. places.Volts], new double[places.Count]);
        _ownOhms = [.. Enumerable.Range(0, places.Count).Select(p => Across(p, places.Unknowns(p)))];
    }

    /// <summary>Volts at every place after the last change; 0 without a feed.</summary>
    internal ReadOnlySpan<double> Volts => _volts;

    /// <summary>Resistance seen at every place after the last change, ohm; ∞ without a feed.</summary>
    internal ReadOnlySpan<double> Ohms => _ohms;

    /// <summary>Opens one element.</summary>
    internal WhatIfOutcome Open(int element) => Set(element, double.PositiveInfinity);

    /// <summary>Gives one element another resistance, 0 to ∞ ohm.</summary>
    internal WhatIfOutcome Set(int element, double ohms)
    {
        CircuitElement changed = _model.Circuit.Elements[element];
        (int u, int v) = (_model.Unknowns.Of(changed.From), _model.Unknowns.Of(changed.To));
        if (changed.Ohms == 0)
        {
            return WhatIfOutcome.NeedsNewModel;
        }

        if (u == v || ohms == changed.Ohms)
        {
            Take(u, v, 0, 0);
            return WhatIfOutcome.Solved;
        }

        int bridge = ohms == double.PositiveInfinity ? _places.Bridges.Beyond(u, v) : BridgeTree.None;
        if (bridge != BridgeTree.None)
        {
            Cut(bridge);
            return WhatIfOutcome.CutsOff;
        }

        double inverseChange = ohms == double.PositiveInfinity ? -changed.Ohms : changed.Ohms * ohms / (changed.Ohms - ohms);
        double pivot = Pivot(u, v, inverseChange);
        if (Math.Abs(pivot) <= LeastPivot * changed.Ohms)
        {
            return WhatIfOutcome.NeedsNewModel;
        }

        Take(u, v, 1 / pivot, _places.Between(changed.From, changed.To));
        return WhatIfOutcome.Solved;
    }

    private double Pivot(int u, int v, double inverseChange)
    {
        ConductanceWorkspace factor = _model.Factor;
        double sum = factor.Inverse(u, u) + factor.Inverse(v, v), pivot = inverseChange + sum - (2 * factor.Inverse(u, v));
        if (sum * 1e-15 <= RoundingLimit * Math.Abs(pivot))
        {
            return pivot;
        }

        _solver.Solve(u, v, _half);
        return inverseChange + _solver.Between(_half, _half);
    }

    private void Take(int u, int v, double scale, double volts)
    {
        for (int p = 0; p < _volts.Length; p++)
        {
            double across = Across(p, (u, v)), part = scale * across;
            _volts[p] = _places.Volts[p] - (part * volts);
            _ohms[p] = _places.IsFed(p) ? _ownOhms[p] - (part * across) : double.PositiveInfinity;
        }
    }

    private void Cut(int bridge)
    {
        Take(ConductanceWorkspace.Reference, ConductanceWorkspace.Reference, 0, 0);
        for (int lost = 0; lost < _volts.Length; lost++)
        {
            for (int p = 0; _places[lost].Amps != 0 && !_places.IsFedWithout(bridge, lost) && p < _volts.Length; p++)
            {
                _volts[p] += _places[lost].Amps * Across(p, _places.Unknowns(lost));
            }
        }

        for (int p = 0; p < _volts.Length; p++)
        {
            bool isFed = _places.IsFedWithout(bridge, p);
            (_volts[p], _ohms[p]) = isFed ? (_volts[p], _ohms[p]) : (0, double.PositiveInfinity);
        }
    }

    /// <summary>Volts between two unknowns for each ampere through a place, ohm.</summary>
    private double Across(int place, (int First, int Second) unknowns) =>
        Entry(unknowns.First, place) - Entry(unknowns.Second, place);

    private double Entry(int unknown, int place) => unknown >= 0 ? _columns[(unknown * _places.Count) + place] : 0;

    private double[] Columns()
    {
        int count = _model.Unknowns.Count, width = _places.Count;
        double[][] sides = [.. Enumerable.Range(0, width).Select(Ampere)];
        new ManySolveWorkspace(_model.Factor).Solve(sides);
        double[] columns = new double[count * width];
        for (int i = 0; i < columns.Length; i++)
        {
            columns[i] = sides[i % width][i / width];
        }

        return columns;
    }

    private double[] Ampere(int place)
    {
        double[] amps = new double[_model.Unknowns.Count];
        (int first, int second) = _places.Unknowns(place);
        if (first >= 0)
        {
            amps[first] += 1;
        }

        if (second >= 0)
        {
            amps[second] -= 1;
        }

        return amps;
    }
}
