using MathNet.Numerics.LinearAlgebra;
using WireUp.Circuits.Network;
using WireUp.Faults.Network;
using WireUp.Rails;

namespace WireUp.Faults.Tests.Support;

/// <summary>The circuit of a case solved from nothing: dense equations with a row for each ideal source, by a library.</summary>
internal sealed class DenseSolver
{
    private readonly CaseCircuit _circuit;
    private readonly List<(int From, int To, double Ohms)> _elements;
    private readonly int[] _set;

    internal DenseSolver(CaseCircuit circuit)
    {
        _circuit = circuit;
        _elements = [.. circuit.Circuit.Elements.Select(element => (element.From, element.To, element.Ohms))];
        DisjointSetsWorkspace joined = new(circuit.Circuit.NodeCount);
        foreach (CircuitElement element in circuit.Circuit.Elements.Where(element => element.Ohms == 0))
        {
            joined.Join(element.From, element.To);
        }

        _set = joined.Numbers();
    }

    /// <summary>Makes a change: q as in <see cref="Response"/>.</summary>
    internal DenseSolver Change(Branch branch, double q)
    {
        if (branch.IsSeries)
        {
            _elements[branch.Element] = _elements[branch.Element] with { Ohms = branch.Ohms + (1 / q) };
        }
        else
        {
            _elements.Add((branch.From, branch.To, q));
        }

        return this;
    }

    internal DenseSolver Add(int from, int to, double ohms)
    {
        _elements.Add((from, to, ohms));
        return this;
    }

    /// <summary>Volts between two nodes, the sources on.</summary>
    internal double Volts(int from, int to) => Between(Solve(isOn: true, null), from, to);

    /// <summary>Current in an element.</summary>
    internal double Amps(int element) =>
        Between(Solve(isOn: true, null), _elements[element].From, _elements[element].To) / _elements[element].Ohms;

    /// <summary>Resistance between two nodes, the sources off.</summary>
    internal double Ohms(int from, int to) => Between(Solve(isOn: false, (from, to)), from, to);

    private double Between(Vector<double> potentials, int from, int to) => potentials[_set[from]] - potentials[_set[to]];

    private Vector<double> Solve(bool isOn, (int From, int To)? ampere)
    {
        int nodes = _set.Max() + 1, sources = _circuit.Circuit.Sources.Length, n = nodes + sources + 1;
        Matrix<double> matrix = Matrix<double>.Build.Dense(n, n);
        Vector<double> side = Vector<double>.Build.Dense(n);
        foreach ((int from, int to, double ohms) in _elements.Where(element => _set[element.From] != _set[element.To]))
        {
            (int a, int b) = (_set[from], _set[to]);
            matrix[a, a] += 1 / ohms;
            matrix[b, b] += 1 / ohms;
            matrix[a, b] -= 1 / ohms;
            matrix[b, a] -= 1 / ohms;
        }

        for (int s = 0; s < sources; s++)
        {
            CircuitSource source = _circuit.Circuit.Sources[s];
            Tie(matrix, nodes + s, _set[source.Plus], _set[source.Minus]);
            side[nodes + s] = isOn ? source.Volts : 0;
        }

        // The first source's terminal B is at 0 V.
        Tie(matrix, n - 1, _set[_circuit.Circuit.Sources[0].Minus], -1);
        if (ampere is { } pair)
        {
            side[_set[pair.From]] += 1;
            side[_set[pair.To]] -= 1;
        }

        return matrix.Solve(side);
    }

    private static void Tie(Matrix<double> matrix, int row, int plus, int minus)
    {
        matrix[row, plus] += 1;
        matrix[plus, row] += 1;
        if (minus >= 0)
        {
            matrix[row, minus] -= 1;
            matrix[minus, row] -= 1;
        }
    }
}
