namespace WireUp.Faults.Network;

/// <summary>
/// One reading put to the circuit of its case: what a healthy railway shows, and what any change makes of it, by two numbers a branch.
/// </summary>
/// <remarks>
/// <para>
/// A change is a resistance R between two nodes (a shunt, with the current j in it) or x in series with an element (with the volts e over
/// it). Z being the inverse of the healthy circuit, W = aᵀ·Z·b between two pairs of nodes, T = aᵀ·Z·u/r between a pair and an element of
/// r ohm, Y = (1 − uᵀ·Z·u/r)/r the conductance that an element sees in series with itself, v the volts at a shunt and i the current in an
/// element before anything changed:
/// </para>
/// <para>
/// R·j + Σ W·j − Σ T·e = v at each shunt, e/x + Σ Y·e + Σ T·j = i at each element. Opening an element is 1/x = 0, and a cut is nothing
/// special: there Y is exactly 0. The load and the meter itself are shunts of known resistance, eliminated first. Compensation theorem; W. W. Hager,
/// Updating the inverse of a matrix, SIAM Review 31 (1989), equation (17).
/// </para>
/// </remarks>
internal sealed class Probe
{
    private readonly double[] _column;
    private readonly Branch _at;
    private readonly ProbeKind _kind;
    private readonly Shunt? _load;
    private readonly Shunt? _meter;
    private readonly double _scale = 1;

    private Probe(CaseCircuit circuit, ProbeKind kind, in Branch at, (Branch At, double Ohms, double[] Column)? load, double? meterOhms)
    {
        (Circuit, _kind, _at) = (circuit, kind, at);
        _column = circuit.Column(at.From, at.To);
        if (kind == ProbeKind.Current)
        {
            Scale(_column, 1 / at.Ohms);
        }

        double value = kind == ProbeKind.Resistance ? circuit.Coupling(_column, at) : circuit.Drive(at);
        if (load is { } box)
        {
            double own = circuit.Coupling(box.Column, box.At), scale = 1 / (box.Ohms + own);
            _load = new(box.Column, circuit.Coupling(_column, box.At), circuit.Drive(box.At), scale);
            value -= _load.Coupling * _load.Drive * scale;
        }

        if (meterOhms is { } ohms)
        {
            double own = circuit.Coupling(_column, at) - ((_load?.Coupling ?? 0) * (_load?.Coupling ?? 0) * (_load?.Scale ?? 0));
            double scale = 1 / (ohms + own);
            _meter = new(_column, own, value, scale);
            (_scale, value) = (ohms * scale, value * ohms * scale);
        }

        Healthy = value;
    }

    internal CaseCircuit Circuit { get; }

    /// <summary>What a healthy railway shows, with its sign: volt, ampere or ohm.</summary>
    internal double Healthy { get; }

    /// <summary>Volts between two nodes, read by a meter of finite resistance.</summary>
    internal static Probe Volts(CaseCircuit circuit, int from, int to, double meterOhms, (Branch At, double Ohms, double[] Column)? load) =>
        new(circuit, ProbeKind.Volts, Branch.Joining(from, to), load, meterOhms);

    /// <summary>Current in an element.</summary>
    internal static Probe Current(CaseCircuit circuit, in Branch element, (Branch At, double Ohms, double[] Column)? load) =>
        new(circuit, ProbeKind.Current, element, load, null);

    /// <summary>Resistance between two nodes, power off.</summary>
    internal static Probe Resistance(CaseCircuit circuit, int from, int to) =>
        new(circuit, ProbeKind.Resistance, Branch.Joining(from, to), null, null);

    /// <summary>What one branch does.</summary>
    /// <param name="branch">The branch.</param>
    /// <param name="own">What it sees (<see cref="CaseCircuit.Own"/>).</param>
    /// <param name="drive">What it is offered (<see cref="CaseCircuit.Drive"/>); passed over where resistance is read.</param>
    internal Response Of(in Branch branch, double own, double drive)
    {
        Part part = PartOf(branch, drive);
        double gain = _scale * part.Coupling * part.Drive;
        return branch.IsSeries
            ? new(gain, own + part.Shared)
            : new(-gain, own - part.Shared);
    }

    /// <summary>What several branches do together, each with its q.</summary>
    internal double Value(ReadOnlySpan<Branch> branches, ReadOnlySpan<double> q) => Value(branches, q, Circuit.Couplings(branches));

    /// <summary>The same, by what couples them (<see cref="CaseCircuit.Couplings"/>), which is alike for all readings of a case.</summary>
    internal double Value(ReadOnlySpan<Branch> branches, ReadOnlySpan<double> q, double[,] couplings)
    {
        int n = branches.Length;
        Part[] parts = new Part[n];
        double[,] matrix = new double[n, n + 1];
        for (int i = 0; i < n; i++)
        {
            parts[i] = PartOf(branches[i], Circuit.Drive(branches[i]));
            for (int k = 0; k <= i; k++)
            {
                double between = Between(branches[i], branches[k], parts[i], parts[k], couplings[i, k]);
                bool differ = branches[i].IsSeries != branches[k].IsSeries;
                matrix[i, k] = differ && !branches[i].IsSeries ? -between : between;
                matrix[k, i] = differ && !branches[k].IsSeries ? -between : between;
            }

            matrix[i, i] += q[i];
            matrix[i, n] = parts[i].Drive;
        }

        double[] answers = SmallSystem.Solve(matrix);
        double change = 0;
        for (int i = 0; i < n; i++)
        {
            change += (branches[i].IsSeries ? 1 : -1) * parts[i].Coupling * answers[i];
        }

        return Healthy + (_scale * change);
    }

    /// <summary>A branch as it is to this reading, worked out once for all that it is paired with.</summary>
    internal PlacedBranch Place(in Offered offered) => new(offered, PartOf(offered.Branch, offered.Drive));

    /// <summary>What a second branch does while a first one is changed already: the first one eliminated as load and meter are.</summary>
    /// <param name="first">The branch that is changed.</param>
    /// <param name="q">Its q.</param>
    /// <param name="second">The other.</param>
    /// <param name="between">What couples the two (<see cref="CaseCircuit.Between(double[], in Branch, in Branch)"/>).</param>
    /// <returns>The reading with the first branch alone, and what the second does to that.</returns>
    internal (double Value, Response Response) Given(in PlacedBranch first, double q, in PlacedBranch second, double between)
    {
        (Part one, Part other, bool isFirstSeries, bool isSecondSeries) = (first.Part, second.Part, first.Offered.Branch.IsSeries, second.Offered.Branch.IsSeries);
        bool areBoth = isFirstSeries && isSecondSeries, areAlike = isFirstSeries == isSecondSeries;
        double coupling = areBoth ? between + Shared(one, other) : between - Shared(one, other);
        double scale = 1 / (q + (isFirstSeries ? first.Offered.Own + one.Shared : first.Offered.Own - one.Shared));
        double sign = isFirstSeries ? 1 : -1;

        // Row of the first: (q + Y)·z + m·z' = o, m = −K where a shunt meets an element, else K.
        double turned = isFirstSeries || areAlike ? coupling : -coupling, back = isSecondSeries || areAlike ? coupling : -coupling;
        double own = (isSecondSeries ? second.Offered.Own + other.Shared : second.Offered.Own - other.Shared) - (back * turned * scale);
        double drive = other.Drive - (back * one.Drive * scale);
        double effect = ((isSecondSeries ? 1 : -1) * other.Coupling) - (sign * one.Coupling * turned * scale);
        return (Healthy + (_scale * sign * one.Coupling * one.Drive * scale), new(_scale * effect * drive, own));
    }

    /// <summary>What a branch does to the reading, and what it is offered, load and meter being there.</summary>
    internal (double Coupling, double Drive) Sides(in Branch branch)
    {
        Part part = PartOf(branch, Circuit.Drive(branch));
        return (_scale * part.Coupling, part.Drive);
    }

    private double Between(in Branch first, in Branch second, in Part one, in Part other, double between) =>
        first.IsSeries && second.IsSeries ? between + Shared(one, other) : between - Shared(one, other);

    /// <summary>What load and meter add to the coupling of two branches.</summary>
    private double Shared(in Part one, in Part other) =>
        ((_load?.Scale ?? 0) * one.ToLoad * other.ToLoad) + ((_meter?.Scale ?? 0) * one.ToMeter * other.ToMeter);

    private Part PartOf(in Branch branch, double drive)
    {
        double coupling = Circuit.Coupling(_column, branch);
        double offered = _kind == ProbeKind.Resistance ? coupling : drive;
        if (_kind == ProbeKind.Current && branch.Element == _at.Element)
        {
            coupling -= 1 / _at.Ohms;
        }

        double toLoad = 0, toMeter = 0, shared = 0;
        if (_load is { } load)
        {
            toLoad = Circuit.Coupling(load.Column, branch);
            offered -= toLoad * load.Drive * load.Scale;
            coupling -= load.Coupling * toLoad * load.Scale;
            shared += toLoad * toLoad * load.Scale;
        }

        if (_meter is { } meter)
        {
            toMeter = coupling;
            offered -= toMeter * meter.Drive * meter.Scale;
            shared += toMeter * toMeter * meter.Scale;
        }

        return new(coupling, offered, shared, toLoad, toMeter);
    }

    private static void Scale(double[] values, double factor)
    {
        for (int i = 0; i < values.Length; i++)
        {
            values[i] *= factor;
        }
    }

    private enum ProbeKind
    {
        Volts,
        Current,
        Resistance,
    }

    /// <summary>A shunt that is there in the healthy case: coupling with what is read, volts it is offered, 1/(its ohms + what it sees).</summary>
    private sealed record Shunt(double[] Column, double Coupling, double Drive, double Scale);

    /// <summary>A branch by what it does to the reading, what it is offered, and what load and meter share with it.</summary>
    internal readonly record struct Part(double Coupling, double Drive, double Shared, double ToLoad, double ToMeter);

    /// <summary>A branch with what the circuit offers it and what it is to one reading.</summary>
    internal readonly record struct PlacedBranch(Offered Offered, Part Part);
}
