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
    private readonly Dictionary<int, Several?> _several = [];

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

        return SeveralOf(hypothesis) is { } several
            ? new(probe.Value(several.Branches, several.Q, several.Couplings) - probe.Healthy, 1)
            : Response.None;
    }

    /// <summary>Everything that a hypothesis changes in this case, each branch with its q; of a booster that is weak nothing.</summary>
    /// <param name="hypothesis">The hypothesis.</param>
    /// <param name="q">Its q, where it changes one branch.</param>
    internal IEnumerable<(Branch Branch, double Q)> Changes(int hypothesis, double q) =>
        Hypotheses[hypothesis].State == FaultState.Weak ? []
        : _branches[hypothesis] is { } branch ? [(branch, q)]
        : Changes(Hypotheses[hypothesis].Part.Spot);

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
        return Circuit.Case.IsPowered ? new(probe.Sides(branch).Coupling * Circuit.Circuit.Sources[SourceOf(branch)].Volts, 0) : Response.None;
    }

    /// <summary>The source in whose output a hypothesis of a booster is.</summary>
    internal int SourceOf(int hypothesis) => SourceOf(_branches[hypothesis]!.Value);

    private int SourceOf(Branch output)
    {
        int plus = Circuit.Circuit.Elements[output.Element].From;
        return Enumerable.Range(0, Circuit.Circuit.Sources.Length).First(i => Circuit.Circuit.Sources[i].Plus == plus);
    }

    private Several? SeveralOf(int hypothesis)
    {
        if (!_several.TryGetValue(hypothesis, out Several? several))
        {
            (Branch Branch, double Q)[] changes = [.. Changes(Hypotheses[hypothesis].Part.Spot)];
            Branch[] branches = [.. changes.Select(change => change.Branch)];
            several = changes.Length == 0 ? null : new(branches, [.. changes.Select(change => change.Q)], Circuit.Couplings(branches));
            _several[hypothesis] = several;
        }

        return several;
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

    /// <summary>Branches that a hypothesis changes together, and what couples them.</summary>
    private sealed record Several(Branch[] Branches, double[] Q, double[,] Couplings);
}
