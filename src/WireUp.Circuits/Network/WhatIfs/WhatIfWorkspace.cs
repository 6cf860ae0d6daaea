using WireUp.Circuits.Numerics;
using WireUp.Rails;

namespace WireUp.Circuits.Network.WhatIfs;

/// <summary>
/// What becomes of volts and resistances when a few elements are opened, changed or added: any elements, any places, one half of a
/// sparse solution each. Nothing is allocated for a what-if, except where several openings together cut something off.
/// </summary>
/// <remarks>
/// A cut is told by the graph, never by dividing: an opening whose pivot vanishes within rounding is asked of the graph. What lies
/// beyond a cut draws and gives nothing, so for the rest the opened element may as well stay: it carries no current once the
/// loads beyond are gone. That is how the rest is answered.
/// </remarks>
internal sealed class WhatIfWorkspace
{
    /// <summary>
    /// Part of the opened resistance that the way round must at least add for the update to keep half of its digits.
    /// </summary>
    private const double LeastPivot = 1e-8;

    private readonly NodalModel _model;
    private readonly AskedPlaces _places;
    private readonly UpdateWorkspace _update;
    private readonly (int Port, double InverseChange)[] _made;
    private readonly bool[] _isFed;
    private int _madeCount;

    internal WhatIfWorkspace(NodalModel model, AskedPlaces places, int mostChanges)
    {
        (_model, _places) = (model, places);
        _update = new(model.Factor, places.Count + mostChanges);
        _made = new (int, double)[mostChanges];
        _isFed = new bool[places.Count];
        for (int p = 0; p < places.Count; p++)
        {
            (int first, int second) = places.Unknowns(p);
            _update.Add(first, second);
        }

        Change([]);
    }

    /// <summary>Makes these changes, and no others, in the case that was given.</summary>
    internal WhatIfOutcome Change(ReadOnlySpan<ElementChange> changes)
    {
        Begin(changes);
        WhatIfOutcome outcome = Make(changes, opening: false);
        outcome = outcome == WhatIfOutcome.Solved ? Make(changes, opening: true) : outcome;
        if (outcome == WhatIfOutcome.CutsOff)
        {
            DropLoads(changes);
        }

        return outcome;
    }

    /// <summary>Whether a place has a feed now.</summary>
    internal bool IsFed(int place) => _isFed[place];

    /// <summary>Volts at a place now, first conductor against second; 0 without a feed.</summary>
    internal double Volts(int place) => _isFed[place] ? _update.Volts(place) : 0;

    /// <summary>Resistance seen between the conductors of a place now, ohm, loads not counted; ∞ without a feed.</summary>
    internal double Ohms(int place) => _isFed[place] ? _update.Ohms(place, place) : double.PositiveInfinity;

    /// <summary>Potentials of all unknowns now: one solution, however many changes. Meaningless beyond a cut.</summary>
    /// <param name="before">Potentials in the case that was given.</param>
    /// <param name="now">On return those after the changes.</param>
    internal void Potentials(ReadOnlySpan<double> before, Span<double> now)
    {
        now.Clear();
        Span<double> amps = stackalloc double[_madeCount];
        _update.Currents(amps);
        for (int c = 0; c < _madeCount; c++)
        {
            Inject(now, _update.From(_made[c].Port), -amps[c]);
            Inject(now, _update.To(_made[c].Port), amps[c]);
        }

        for (int p = 0; p < _places.Count; p++)
        {
            if (IsDropped(p))
            {
                (int first, int second) = _places.Unknowns(p);
                Inject(now, first, _places[p].Amps);
                Inject(now, second, -_places[p].Amps);
            }
        }

        _model.Factor.Solve(now);
        for (int i = 0; i < now.Length; i++)
        {
            now[i] += before[i];
        }
    }

    private static void Inject(Span<double> values, int unknown, double amps)
    {
        if (unknown >= 0)
        {
            values[unknown] += amps;
        }
    }

    private bool IsDropped(int place) => !_isFed[place] && _places.IsFed(place) && _places[place].Amps != 0;

    private void Begin(ReadOnlySpan<ElementChange> changes)
    {
        _update.Keep(_places.Count);
        _madeCount = 0;
        for (int p = 0; p < _places.Count; p++)
        {
            _isFed[p] = _places.IsFed(p);
        }

        foreach (ElementChange change in changes)
        {
            (int first, int second) = Ends(change);
            bool isFed = _model.Unknowns.AreFedTogether(first, second);
            int reference = ConductanceWorkspace.Reference;
            _update.Add(isFed ? _model.Unknowns.Of(first) : reference, isFed ? _model.Unknowns.Of(second) : reference);
        }

        ResetVolts(changes);
    }

    private void ResetVolts(ReadOnlySpan<ElementChange> changes)
    {
        for (int p = 0; p < _places.Count; p++)
        {
            _update.Volts(p) = _places.Volts[p];
        }

        for (int c = 0; c < changes.Length; c++)
        {
            (int first, int second) = Ends(changes[c]);
            _update.Volts(_places.Count + c) = _model.Unknowns.AreFedTogether(first, second) ? _places.Between(first, second) : 0;
        }
    }

    private (int First, int Second) Ends(in ElementChange change) => change.Element < 0
        ? (change.First, change.Second)
        : (_model.Circuit.Elements[change.Element].From, _model.Circuit.Elements[change.Element].To);

    /// <summary>Makes those changes that raise conductances, or those that lower them: raised first, nothing is cut on the way.</summary>
    private WhatIfOutcome Make(ReadOnlySpan<ElementChange> changes, bool opening)
    {
        bool cuts = false;
        for (int c = 0; c < changes.Length; c++)
        {
            double before = changes[c].Element < 0 ? double.PositiveInfinity : _model.Circuit.Elements[changes[c].Element].Ohms;
            if (changes[c].Ohms == before || changes[c].Ohms > before != opening)
            {
                continue;
            }

            WhatIfOutcome outcome = MakeOne(changes, c, before);
            if (outcome == WhatIfOutcome.NeedsNewModel)
            {
                return outcome;
            }

            cuts |= outcome == WhatIfOutcome.CutsOff;
        }

        return cuts ? WhatIfOutcome.CutsOff : WhatIfOutcome.Solved;
    }

    private WhatIfOutcome MakeOne(ReadOnlySpan<ElementChange> changes, int c, double before)
    {
        (int first, int second) = Ends(changes[c]);
        bool isUnfed = _model.Unknowns.Of(first) == Unknowns.Unfed && _model.Unknowns.Of(second) == Unknowns.Unfed;
        if (before == 0 || (!isUnfed && !_model.Unknowns.AreFedTogether(first, second)))
        {
            return WhatIfOutcome.NeedsNewModel;
        }

        int port = _places.Count + c;
        if (_update.From(port) == _update.To(port))
        {
            // Nothing of the kind has a feed, or both ends are one unknown.
            return WhatIfOutcome.Solved;
        }

        double inverseChange = InverseChange(before, changes[c].Ohms);
        if (changes[c].Ohms > before && Math.Abs(_update.Pivot(port, inverseChange)) <= LeastPivot * before)
        {
            return changes[c].Ohms == double.PositiveInfinity && IsCut(changes, c) ? WhatIfOutcome.CutsOff : WhatIfOutcome.NeedsNewModel;
        }

        _made[_madeCount++] = (port, inverseChange);
        _update.Change(port, inverseChange);
        return WhatIfOutcome.Solved;
    }

    /// <summary>q = 1/(1/now − 1/before).</summary>
    private static double InverseChange(double before, double now) =>
        now == double.PositiveInfinity ? -before
        : before == double.PositiveInfinity ? now
        : before * now / (before - now);

    /// <summary>Whether opening this one cuts something off, those opened that are made already.</summary>
    private bool IsCut(ReadOnlySpan<ElementChange> changes, int c)
    {
        (int from, int to) = (_update.From(_places.Count + c), _update.To(_places.Count + c));
        if (changes.Length == 1)
        {
            return _places.Bridges.Beyond(from, to) != BridgeTree.None;
        }

        DisjointSetsWorkspace sets = SetsWithout(changes, c);
        return _places.SetOf(sets, from) != _places.SetOf(sets, to);
    }

    private void DropLoads(ReadOnlySpan<ElementChange> changes)
    {
        DisjointSetsWorkspace? sets = changes.Length == 1 ? null : SetsWithout(changes, -1);
        int bridge = sets is null ? _places.Bridges.Beyond(_update.From(_places.Count), _update.To(_places.Count)) : BridgeTree.None;
        for (int p = 0; p < _places.Count; p++)
        {
            _isFed[p] = sets is null ? _places.IsFedWithout(bridge, p) : _places.IsFedIn(sets, p);
        }

        _update.Keep(_update.Count);
        ResetVolts(changes);
        for (int p = 0; p < _places.Count; p++)
        {
            for (int port = 0; IsDropped(p) && port < _update.Count; port++)
            {
                _update.Volts(port) += _places[p].Amps * _update.Ohms(port, p);
            }
        }

        for (int c = 0; c < _madeCount; c++)
        {
            _update.Change(_made[c].Port, _made[c].InverseChange);
        }
    }

    /// <summary>What hangs together without the elements opened so far and this one, or without all that are opened (−1).</summary>
    private DisjointSetsWorkspace SetsWithout(ReadOnlySpan<ElementChange> changes, int one)
    {
        HashSet<int> opened = [];
        for (int c = 0; c < changes.Length; c++)
        {
            if (changes[c].Ohms == double.PositiveInfinity && (one < 0 || c == one || IsMade(c)))
            {
                opened.Add(changes[c].Element);
            }
        }

        DisjointSetsWorkspace sets = new(_model.Unknowns.Count + 1);
        for (int i = 0; i < _model.Circuit.Elements.Length; i++)
        {
            if (!opened.Contains(i))
            {
                Join(sets, _model.Circuit.Elements[i].From, _model.Circuit.Elements[i].To);
            }
        }

        foreach (ElementChange change in changes)
        {
            if (change.Element < 0)
            {
                Join(sets, change.First, change.Second);
            }
        }

        return sets;
    }

    private bool IsMade(int change)
    {
        for (int c = 0; c < _madeCount; c++)
        {
            if (_made[c].Port == _places.Count + change)
            {
                return true;
            }
        }

        return false;
    }

    private void Join(DisjointSetsWorkspace sets, int first, int second)
    {
        if (_model.Unknowns.Of(first) != Unknowns.Unfed && _model.Unknowns.Of(second) != Unknowns.Unfed)
        {
            sets.Join(_places.SetOf(sets, _model.Unknowns.Of(first)), _places.SetOf(sets, _model.Unknowns.Of(second)));
        }
    }
}
