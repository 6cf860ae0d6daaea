using WireUp.Circuits.Numerics;
using WireUp.Rails;

namespace WireUp.Circuits.Network.WhatIfs;

/// <summary>The places that what-ifs are asked for, in the case that is changed; and which of them a cut leaves without a feed.</summary>
/// <remarks>Every load of the case must stand at one of the places: where a cut takes its feed, its current goes too.</remarks>
internal sealed class AskedPlaces
{
    private readonly NodalModel _model;
    private readonly AskedPlace[] _places;
    private readonly bool[] _isFed;
    private readonly (int First, int Second)[] _unknowns;
    private readonly double[] _potentials;
    private readonly int[] _sources;

    internal AskedPlaces(NodalModel model, double[] potentials, ReadOnlySpan<AskedPlace> places)
    {
        (_model, _potentials, _places) = (model, potentials, places.ToArray());
        Bridges = new(model.Unknowns.Count, model.System.From, model.System.To);
        _isFed = [.. _places.Select(place => model.Unknowns.AreFedTogether(place.First, place.Second))];
        _unknowns = [.. _places.Select((place, p) => _isFed[p]
            ? (model.Unknowns.Of(place.First), model.Unknowns.Of(place.Second))
            : (ConductanceWorkspace.Reference, ConductanceWorkspace.Reference))];
        Volts = [.. _places.Select((place, p) => _isFed[p] ? Between(place.First, place.Second) : 0)];
        _sources = [.. model.Circuit.Sources.Select(source => model.Unknowns.Of(source.Minus)).Where(unknown => unknown >= 0).Distinct()];
    }

    internal int Count => _places.Length;

    /// <summary>Volts at every place before anything changes; 0 without a feed.</summary>
    internal double[] Volts { get; }

    internal BridgeTree Bridges { get; }

    internal AskedPlace this[int place] => _places[place];

    /// <summary>The unknowns of a place; the reference twice where it has no feed.</summary>
    internal (int First, int Second) Unknowns(int place) => _unknowns[place];

    /// <summary>Whether a place has a feed before anything changes.</summary>
    internal bool IsFed(int place) => _isFed[place];

    /// <summary>Whether it has one still when a bridge is opened.</summary>
    internal bool IsFedWithout(int bridge, int place)
    {
        (int first, int second) = Unknowns(place);
        bool beyond = Bridges.IsBeyond(bridge, first);
        return beyond == Bridges.IsBeyond(bridge, second) && IsFed(place) && (!beyond || HasSourceBeyond(bridge));
    }

    /// <summary>Whether it has one still where unknowns fall into these sets; the reference is the last member.</summary>
    internal bool IsFedIn(DisjointSetsWorkspace sets, int place)
    {
        (int first, int second) = Unknowns(place);
        int part = SetOf(sets, first);
        return part == SetOf(sets, second) && IsFed(place)
            && (part == SetOf(sets, ConductanceWorkspace.Reference) || Array.Exists(_sources, source => SetOf(sets, source) == part));
    }

    /// <summary>The set of an unknown, or of the reference.</summary>
    internal int SetOf(DisjointSetsWorkspace sets, int unknown) => sets.Find(unknown < 0 ? _model.Unknowns.Count : unknown);

    /// <summary>Volts from one node to another in the case that is changed.</summary>
    internal double Between(int first, int second) => _model.VoltsBetween(first, second, _potentials);

    private bool HasSourceBeyond(int bridge)
    {
        foreach (int source in _sources)
        {
            if (Bridges.IsBeyond(bridge, source))
            {
                return true;
            }
        }

        return false;
    }
}
