using System.Collections.Immutable;
using WireUp.Circuits.Network;
using WireUp.Faults.Network;
using WireUp.Layouts;

namespace WireUp.Benchmarks.Faults;

/// <summary>What feeds the railway while a question is answered: which breakers have tripped, and what is left of the volts of a limited supply.</summary>
internal sealed class SpiceFeeding
{
    private readonly ImmutableArray<DistrictStart> _districts;
    private readonly double[] _before;
    private readonly double[] _volts;
    private readonly int _supply = -1;
    private readonly LimitedSupply? _limit;
    private readonly HashSet<int> _tripped = [];
    private (double Volts, double Amps)? _tried;

    internal SpiceFeeding(Circuit circuit, SpiceQuestion question)
    {
        (_districts, _limit) = (circuit.Districts, question.Reading.Supply);
        _before = [.. circuit.Sources.Select(source => source.Volts)];
        _volts = [.. _before.Select((volts, i) => volts * (1 - question.Fault.Weak.GetValueOrDefault(i)))];
        if (_limit is not null)
        {
            _supply = circuit.Sources.Select(source => source.Booster.Name).ToList().IndexOf(_limit.Booster);
            _volts[_supply] = _limit.Volts.Volts;
        }

        Guards = question.IsGuarded
            ? [.. _districts.Select(district => district.Breaker).Concat(_supply < 0 ? [] : Output(circuit, _supply)).Select(element => Series(circuit, element))]
            : [];
    }

    /// <summary>Where current is looked at: the breaker of each district, then the limited supply.</summary>
    internal ImmutableArray<Branch> Guards { get; }

    /// <summary>Breakers that are open.</summary>
    internal IEnumerable<Branch> Tripped => Guards.Where((_, k) => _tripped.Contains(k));

    /// <summary>Sources that have other volts than the netlist says.</summary>
    internal IEnumerable<(int Source, double Before, double Now)> Altered =>
        Enumerable.Range(0, _volts.Length).Where(i => _volts[i] != _before[i]).Select(i => (i, _before[i], _volts[i]));

    /// <summary>Gives way to what flows; true where nothing has to.</summary>
    internal bool Settle(ReadOnlySpan<double> amps)
    {
        bool isSettled = true;
        if (amps.Length > _districts.Length && Math.Abs(amps[^1]) is var drawn && (drawn > _limit!.Amps.Amperes * 1.000001 || _tried is not null))
        {
            isSettled = Math.Abs(drawn - _limit!.Amps.Amperes) < 1e-5 * _limit.Amps.Amperes;
            GiveWay(amps[^1]);
        }

        for (int k = 0; k < Math.Min(amps.Length, _districts.Length) && isSettled; k++)
        {
            bool isFedByLess = _limit is not null && _districts[k].District.Booster == _limit.Booster && _limit.Amps < _districts[k].District.Trip;
            if (!isFedByLess && Math.Abs(amps[k]) > _districts[k].District.Trip.Amperes && _tripped.Add(k))
            {
                isSettled = false;
                Restart();
            }
        }

        return isSettled;
    }

    /// <summary>With a breaker open the supply may give all its volts again.</summary>
    private void Restart()
    {
        _tried = null;
        if (_limit is not null)
        {
            _volts[_supply] = _limit.Volts.Volts;
        }
    }

    /// <summary>All is linear: two currents tell at which volts the supply gives just what it can.</summary>
    private void GiveWay(double amps)
    {
        double now = _volts[_supply], limit = _limit!.Amps.Amperes * Math.Sign(amps);
        (double volts, double before) = _tried ?? (0, 0);
        _tried = (now, amps);
        if (Math.Abs(amps - before) > 1e-12)
        {
            _volts[_supply] = now + ((limit - amps) * (now - volts) / (amps - before));
        }
    }

    private static IEnumerable<int> Output(Circuit circuit, int source) =>
        Enumerable.Range(0, circuit.Elements.Length).Where(i => circuit.Elements[i].Kind == ElementKind.BoosterOutput && circuit.Elements[i].From == circuit.Sources[source].Plus).Take(1);

    private static Branch Series(Circuit circuit, int element) =>
        new(true, circuit.Elements[element].From, circuit.Elements[element].To, circuit.Elements[element].Ohms, element);
}
