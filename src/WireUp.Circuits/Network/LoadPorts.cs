using WireUp.Circuits.Numerics;

namespace WireUp.Circuits.Network;

/// <summary>A load between two nodes of one fed part.</summary>
/// <param name="High">The node that is higher without load.</param>
/// <param name="Low">The other one.</param>
/// <param name="Load">What stands there.</param>
internal readonly record struct LoadPort(int High, int Low, PlacedLoad Load);

/// <summary>
/// Finds the currents of loads that answer to their volts, all of one part of the circuit together.
/// </summary>
/// <remarks>
/// <para>
/// Symbols, over the ports of the loads: u volts, e open-circuit volts, Z the matrix of volts lost at one port for each ampere drawn at
/// another; currents I given, G·u of resistances, P/u of constant powers. Kirchhoff's laws are u = e − Z·(I + G·u + P/u). The resistances
/// go into the matrix, A = 1 + Z·G, u₁ = A⁻¹(e − Z·I), Z₁ = A⁻¹·Z, which leaves u = u₁ − Z₁·P/u at the ports of constant power.
/// </para>
/// <para>
/// That has several solutions or none. The one that a railway settles at is the highest. Newton's method from u₁, which lies above it:
/// where no entry of Z₁ is negative, u − u₁ + Z₁·P/u is convex and its derivative J = 1 − Z₁·diag(P/u²) has no positive entry off the
/// diagonal, so every step goes down and none passes the solution, and J is an M-matrix at every step if there is one: when it is not,
/// or volts reach zero, there is none. Source: J. M. Ortega, W. C. Rheinboldt, Iterative Solution of Nonlinear Equations in Several
/// Variables, SIAM 2000, theorem 13.3.4 (number from memory). Where an entry is negative, as between loads of opposite polarity on one
/// return, the same steps are taken without that promise: a solution is one all the same, a failure proves nothing.
/// </para>
/// </remarks>
internal sealed class LoadPorts
{
    private const int MostSteps = 200;
    private const double Precision = 1e-13;

    private readonly NodalModel _model;
    private readonly LoadPort[] _ports;
    private readonly double[][] _response;

    private LoadPorts(NodalModel model, LoadPort[] ports)
    {
        (_model, _ports) = (model, ports);
        _response = model.Responses([.. ports.Select(port => ((int, double)[])[(port.High, 1), (port.Low, -1)])]);
    }

    /// <summary>Currents of the loads of one part, ampere, in their order, or the problem that they have.</summary>
    /// <param name="model">The circuit.</param>
    /// <param name="open">Its potentials without load.</param>
    /// <param name="ports">Loads that are all in one part of it.</param>
    internal static (double[] Amps, CircuitProblem? Problem) Solve(NodalModel model, double[] open, LoadPort[] ports) =>
        ports.All(port => port.Load.Demand is LoadDemand.Current)
            ? ([.. ports.Select(port => Given(port.Load.Demand))], null)
            : new LoadPorts(model, ports).Solve(open);

    private (double[] Amps, CircuitProblem? Problem) Solve(double[] open)
    {
        int n = _ports.Length;
        DenseWorkspace withResistances = new(n);
        double[] volts = new double[n];
        for (int k = 0; k < n; k++)
        {
            volts[k] = _model.VoltsBetween(_ports[k].High, _ports[k].Low, open);
            for (int j = 0; j < n; j++)
            {
                volts[k] -= Lost(k, j) * Given(_ports[j].Load.Demand);
                withResistances[k, j] = (k == j ? 1 : 0) + (Lost(k, j) * Siemens(_ports[j].Load.Demand));
            }
        }

        // Never fails: 1 + Z·G has the principal minors of 1 + √G·Z·√G, which is positive definite.
        withResistances.Factor();
        withResistances.Solve(volts);
        return WithPowers(volts, withResistances);
    }

    private (double[] Amps, CircuitProblem? Problem) WithPowers(double[] volts, DenseWorkspace withResistances)
    {
        int[] powers = [.. Enumerable.Range(0, _ports.Length).Where(k => Watts(_ports[k].Load.Demand) > 0)];
        double[][] lost = [.. powers.Select(j => Column(j, withResistances))];
        double[] start = [.. powers.Select(k => volts[k])];
        if (Settle(start, powers, lost) is not { } settled)
        {
            bool proved = powers.All(k => lost.All(column => column[k] >= 0));
            int lowest = powers.MinBy(k => volts[k]);
            return ([], new CircuitProblem.NoOperatingPoint(_ports[lowest].Load.At.ToString(), proved));
        }

        for (int j = 0; j < powers.Length; j++)
        {
            double amps = Watts(_ports[powers[j]].Load.Demand) / settled[j];
            for (int k = 0; k < volts.Length; k++)
            {
                volts[k] -= lost[j][k] * amps;
            }
        }

        return ([.. _ports.Select((port, k) => AmpsAt(port.Load.Demand, volts[k]))], null);
    }

    /// <summary>The highest volts at the ports of constant power, or null.</summary>
    private double[]? Settle(double[] start, int[] powers, double[][] lost)
    {
        int n = powers.Length;
        double[] volts = [.. start];
        double[] step = new double[n];
        for (int round = 0; round < MostSteps; round++)
        {
            DenseWorkspace derivative = new(n);
            for (int k = 0; k < n; k++)
            {
                step[k] = start[k] - volts[k];
                for (int j = 0; j < n; j++)
                {
                    double amps = Watts(_ports[powers[j]].Load.Demand) / volts[j];
                    step[k] -= lost[j][powers[k]] * amps;
                    derivative[k, j] = (k == j ? 1 : 0) - (lost[j][powers[k]] * amps / volts[j]);
                }
            }

            if (volts.Any(one => !(one > 0)) || !derivative.Factor())
            {
                return null;
            }

            derivative.Solve(step);
            double largest = 0;
            for (int k = 0; k < n; k++)
            {
                volts[k] += step[k];
                largest = Math.Max(largest, Math.Abs(step[k]) / start[k]);
            }

            if (largest <= Precision)
            {
                return volts;
            }
        }

        // As close as rounding lets it come to a load that takes the very most that can be had.
        return Array.TrueForAll(step, one => Math.Abs(one) < Math.Sqrt(Precision)) ? volts : null;
    }

    private double[] Column(int j, DenseWorkspace withResistances)
    {
        double[] column = [.. Enumerable.Range(0, _ports.Length).Select(k => Lost(k, j))];
        withResistances.Solve(column);
        return column;
    }

    /// <summary>Volts lost at one port for each ampere drawn at another.</summary>
    private double Lost(int at, int drawn) =>
        _model.ValueBetween(_ports[at].High, _ports[at].Low, _response[drawn]);

    private static double AmpsAt(LoadDemand demand, double volts) =>
        Given(demand) + (Siemens(demand) * volts) + (Watts(demand) > 0 ? Watts(demand) / volts : 0);

    private static double Given(LoadDemand demand) => demand is LoadDemand.Current current ? current.Amps.Amperes : 0;

    private static double Siemens(LoadDemand demand) => demand is LoadDemand.Resistance resistance ? 1 / resistance.Ohms.Ohms : 0;

    private static double Watts(LoadDemand demand) => demand is LoadDemand.Power power ? (double)power.Watts.Watts : 0;
}
