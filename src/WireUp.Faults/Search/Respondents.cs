using System.Collections.Immutable;
using WireUp.Faults.Network;
using WireUp.Faults.Parts;
using WireUp.Layouts;
using WireUp.Layouts.Reference;

namespace WireUp.Faults.Search;

/// <summary>How every hypothesis acts in the circuit of one case; worked out once for all readings of the case.</summary>
internal sealed class Respondents
{
    /// <summary>Conductance of what is open, siemens.</summary>
    internal const double OpenSiemens = 1e-12;

    private readonly Branch?[] _branches;
    private readonly double[] _own;
    private readonly double[] _drive;

    internal Respondents(CaseCircuit circuit, ImmutableArray<Hypothesis> hypotheses)
    {
        (Circuit, Hypotheses) = (circuit, hypotheses);
        (_branches, _own, _drive) = (new Branch?[hypotheses.Length], new double[hypotheses.Length], new double[hypotheses.Length]);
        for (int h = 0; h < hypotheses.Length; h++)
        {
            _branches[h] = BranchOf(circuit, hypotheses[h].Part.Spot);
            if (_branches[h] is { } branch)
            {
                bool isNext = h > 0 && _branches[h - 1] == branch;
                (_own[h], _drive[h]) = isNext ? (_own[h - 1], _drive[h - 1]) : (circuit.Own(branch), circuit.Drive(branch));
            }
        }
    }

    internal CaseCircuit Circuit { get; }

    internal ImmutableArray<Hypothesis> Hypotheses { get; }

    /// <summary>The branch that a hypothesis changes; null where it changes none in this case, or several.</summary>
    internal Branch? this[int hypothesis] => _branches[hypothesis];

    /// <summary>That branch with what it is offered.</summary>
    internal Offered? Offered(int hypothesis) =>
        _branches[hypothesis] is { } branch ? new(branch, _own[hypothesis], _drive[hypothesis]) : null;

    /// <summary>What the hypothesis does to a reading.</summary>
    internal Response Respond(Probe probe, int hypothesis)
    {
        Hypothesis asked = Hypotheses[hypothesis];
        if (_branches[hypothesis] is { } branch)
        {
            Response response = probe.Of(branch, _own[hypothesis], _drive[hypothesis]);
            return asked.State == FaultState.Weak ? Weak(probe, branch) : response;
        }

        (Branch Branch, double Q)[] changes = [.. Changes(asked.Part.Spot)];
        return changes.Length == 0
            ? Response.None
            : new(probe.Value([.. changes.Select(change => change.Branch)], [.. changes.Select(change => change.Q)]) - probe.Healthy, 1);
    }

    /// <summary>q of a state that comes without a value.</summary>
    internal static double FixedQ(Hypothesis hypothesis) => hypothesis.State switch
    {
        FaultState.Open or FaultState.NotTouching => OpenSiemens,
        FaultState.Bridged => Constants.Get("bridged-gap-resistance").Value,
        FaultState.Short => Constants.Get("coin-resistance").Value,
        FaultState.Swapped or FaultState.Reversed => 0,
        _ => throw new ArgumentOutOfRangeException(nameof(hypothesis), hypothesis.State, "comes with a value"),
    };

    /// <summary>q of a value: the resistance of what joins two nodes, else one over what is put in series.</summary>
    internal static double QOf(Hypothesis hypothesis, double value) => hypothesis.Joins ? value : 1 / value;

    /// <summary>A booster that lacks a part of its volts: as if these stood against it in its output.</summary>
    private Response Weak(Probe probe, in Branch branch)
    {
        int element = branch.Element;
        double volts = Circuit.Circuit.Sources.First(source => source.Plus == Circuit.Circuit.Elements[element].From).Volts;
        return Circuit.Case.IsPowered ? new(probe.Sides(branch).Coupling * volts, 0) : Response.None;
    }

    private static Branch? BranchOf(CaseCircuit circuit, Spot spot) => spot switch
    {
        Spot.OfLink link => circuit.SeriesOfLink(link.Link),
        Spot.OfWire wire => IsOff(circuit, wire.Wire) ? null : circuit.SeriesOfWire(wire.Wire),
        Spot.Between pair => Branch.Joining(pair.From, pair.To),
        Spot.OfFeeder or Spot.OfContact => null,
        _ => throw new InvalidOperationException($"not a spot: {spot}"),
    };

    /// <summary>Power off, a booster is a loop of its own.</summary>
    private static bool IsOff(CaseCircuit circuit, int wire) =>
        circuit.SeriesOfWire(wire) is { } branch && branch.From == branch.To;

    private IEnumerable<(Branch Branch, double Q)> Changes(Spot spot) => spot switch
    {
        Spot.OfFeeder feeder => SwappedFeeder(feeder.FirstWire),
        Spot.OfContact contact => ReversedContact(contact),
        _ => [],
    };

    /// <summary>Both wires off their rails and each on the other's.</summary>
    private IEnumerable<(Branch Branch, double Q)> SwappedFeeder(int first)
    {
        (Branch a, Branch b) = (Circuit.SeriesOfWire(first + 1)!.Value, Circuit.SeriesOfWire(first + 3)!.Value);
        return
        [
            (a, OpenSiemens), (b, OpenSiemens),
            (Branch.Joining(a.From, b.To), a.Ohms), (Branch.Joining(b.From, a.To), b.Ohms),
        ];
    }

    private IEnumerable<(Branch Branch, double Q)> ReversedContact(Spot.OfContact contact)
    {
        (int Link, int Other)[] closed = [.. contact.Ways.Where(way => Circuit.SeriesOfLink(way.Link) is not null)];
        if (closed.Length != 1)
        {
            return [];
        }

        Branch branch = Circuit.SeriesOfLink(closed[0].Link)!.Value;
        int other = contact.Ways.First(way => way.Link != closed[0].Link).Other;
        return [(branch, OpenSiemens), (Branch.Joining(contact.Common, other), branch.Ohms)];
    }
}
