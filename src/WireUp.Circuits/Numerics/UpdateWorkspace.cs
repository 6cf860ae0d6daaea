namespace WireUp.Circuits.Numerics;

/// <summary>
/// What a factorised network becomes when a few conductances are opened, changed or added, without a new factorisation.
/// </summary>
/// <remarks>
/// <para>
/// Symbols: a port p is a pair of unknowns, written as the vector a_p = e_from − e_to; W_pq = a_pᵀ·Z·a_q, ohm, the volts
/// across one port for each ampere through the other; v_p the volts across a port; δ a change of conductance, siemens, at port c,
/// q = 1/δ (opening r ohm: q = −r; an ideal short: q = 0).
/// </para>
/// <para>
/// One change takes Z·a_c·a_cᵀ·Z/(q + W_cc) from Z. Seen from the ports alone that is W_pq −= W_pc·W_cq·s and v_p −= W_pc·v_c·s,
/// s = 1/(q + W_cc); changes are made one after the other, each in the network the one before has left, which is Woodbury's formula
/// solved by elimination. q + W_cc = 0 means that opening takes away the only way: asked before dividing (<see cref="Pivot"/>).
/// Source: W. W. Hager, Updating the inverse of a matrix, SIAM Review 31 (1989), equations (2) and (17).
/// </para>
/// </remarks>
internal sealed class UpdateWorkspace
{
    private readonly HalfSolveWorkspace _solver;
    private readonly HalfSolution[] _halves;
    private readonly int _capacity;
    private readonly double[] _ohms;
    private readonly double[] _before;
    private readonly double[] _rows;
    private readonly double[] _volts;
    private readonly double[] _amps;
    private readonly double[] _scale;
    private readonly int[] _portOf;
    private readonly (int From, int To)[] _ends;
    private int _made;

    /// <param name="factor">The factorised network; factorised again, all ports have to be added again.</param>
    /// <param name="mostPorts">How many ports there can be at one time, and how many changes.</param>
    internal UpdateWorkspace(ConductanceWorkspace factor, int mostPorts)
    {
        _solver = new HalfSolveWorkspace(factor);
        _capacity = mostPorts;
        _halves = [.. Enumerable.Range(0, mostPorts).Select(_ => new HalfSolution())];
        int square = mostPorts * mostPorts;
        (_ohms, _before, _rows) = (new double[square], new double[square], new double[square]);
        (_volts, _amps, _scale, _portOf) = (new double[mostPorts], new double[mostPorts], new double[mostPorts], new int[mostPorts]);
        _ends = new (int, int)[mostPorts];
    }

    /// <summary>How many ports there are.</summary>
    internal int Count { get; private set; }

    /// <summary>Forgets all ports from this one on, and all changes. Ports that stay are as they were before any change.</summary>
    internal void Keep(int ports)
    {
        Count = Math.Min(ports, Count);
        _made = 0;
        for (int p = 0; p < Count; p++)
        {
            for (int q = p; q < Count; q++)
            {
                _ohms[(p * _capacity) + q] = _ohms[(q * _capacity) + p] = _before[(p * _capacity) + q];
            }
        }
    }

    /// <summary>Adds a pair of unknowns; only while no change has been made.</summary>
    /// <param name="from">One unknown, or the reference.</param>
    /// <param name="to">The other unknown, or the reference.</param>
    /// <returns>Its number.</returns>
    internal int Add(int from, int to)
    {
        int port = Count++;
        _ends[port] = (from, to);
        _solver.Solve(from, to, _halves[port]);
        for (int p = 0; p <= port; p++)
        {
            double ohms = _solver.Between(_halves[p], _halves[port]);
            _ohms[(p * _capacity) + port] = _ohms[(port * _capacity) + p] = _before[(p * _capacity) + port] = ohms;
        }

        return port;
    }

    /// <summary>One unknown of a port, or the reference.</summary>
    internal int From(int port) => _ends[port].From;

    /// <summary>The other unknown of a port, or the reference.</summary>
    internal int To(int port) => _ends[port].To;

    /// <summary>Volts across a port as the network stands; for a conductance with a source in it, those of the source included.</summary>
    internal ref double Volts(int port) => ref _volts[port];

    /// <summary>W of two ports as the network stands, ohm; of one with itself, its effective resistance.</summary>
    internal double Ohms(int first, int second) => _ohms[(first * _capacity) + second];

    /// <summary>q + W: what <see cref="Change"/> divides by, ohm. Below 0 while opening, above 0 while adding.</summary>
    internal double Pivot(int port, double inverseChange) => inverseChange + Ohms(port, port);

    /// <summary>Changes the conductance at a port.</summary>
    /// <param name="port">The port.</param>
    /// <param name="inverseChange">q, ohm: 1 over the change of conductance.</param>
    internal void Change(int port, double inverseChange)
    {
        double scale = 1 / Pivot(port, inverseChange);
        Span<double> row = _rows.AsSpan(_made * _capacity, Count);
        _ohms.AsSpan(port * _capacity, Count).CopyTo(row);
        (_portOf[_made], _scale[_made], _amps[_made]) = (port, scale, scale * _volts[port]);
        for (int p = 0; p < Count; p++)
        {
            double part = scale * row[p];
            Span<double> own = _ohms.AsSpan(p * _capacity, Count);
            for (int q = 0; q < own.Length; q++)
            {
                own[q] -= part * row[q];
            }

            _volts[p] -= _amps[_made] * row[p];
        }

        _made++;
    }

    /// <summary>
    /// Current that each change would have to draw from the network as it was, so that every potential becomes what it is now:
    /// t_c = s_c·(v_c − Σ W_cd·t_d over the changes d made after c), W and v as they stood when c was made.
    /// </summary>
    /// <param name="amps">On return one entry a change, in the order they were made.</param>
    internal void Currents(Span<double> amps)
    {
        for (int c = _made - 1; c >= 0; c--)
        {
            double value = _amps[c];
            for (int d = c + 1; d < _made; d++)
            {
                value -= _scale[c] * _rows[(c * _capacity) + _portOf[d]] * amps[d];
            }

            amps[c] = value;
        }
    }
}
