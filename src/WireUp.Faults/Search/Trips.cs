using System.Collections.Immutable;
using WireUp.Faults.Network;
using WireUp.Layouts;

namespace WireUp.Faults.Search;

/// <summary>
/// What becomes of readings when conductors meet that must be apart: breakers trip and their districts are dead, or a supply of limited current
/// gives way.
/// </summary>
internal sealed class Trips
{
    private readonly Respondents _respondents;
    private readonly IReadOnlyDictionary<string, bool> _seen;
    private readonly ImmutableArray<Guard> _guards;
    private readonly Dictionary<int, Response[]> _responses = [];

    /// <param name="respondents">How hypotheses act in the case.</param>
    /// <param name="seen">What breakers were seen to do in the case, by their districts.</param>
    internal Trips(Respondents respondents, IReadOnlyDictionary<string, bool> seen)
    {
        (_respondents, _seen) = (respondents, seen);
        CaseCircuit circuit = respondents.Circuit;
        _guards = circuit.Case.IsPowered ? [.. Breakers(circuit), .. Limits(circuit)] : [];
    }

    /// <summary>How much of each guard a reading hangs on: 1 where all that it shows comes through that one breaker.</summary>
    internal double[] Shares(Probe probe) =>
        [.. _guards.Select(guard => guard.IsLimit ? 1 : Math.Min(1, Math.Abs(probe.Sides(guard.At).Coupling)))];

    /// <summary>The district through whose breaker most of a reading comes, or null where it comes through none.</summary>
    internal string? Feeding(Probe probe)
    {
        double[] shares = Shares(probe);
        int most = Array.IndexOf(shares, shares.DefaultIfEmpty().Max());
        return most >= 0 && shares[most] > 0.5 ? _guards[most].District : null;
    }

    /// <summary>What a hypothesis does to the current in each guard.</summary>
    internal Response[] Responses(int hypothesis)
    {
        if (!_responses.TryGetValue(hypothesis, out Response[]? responses))
        {
            _responses[hypothesis] = responses = [.. _guards.Select(guard => _respondents.Respond(guard.Probe, hypothesis))];
        }

        return responses;
    }

    /// <summary>
    /// What is read in the end: a breaker that trips takes its share of the reading and lets the rest be as if nothing touched; a supply that gives
    /// way takes the same part of everything. What a breaker was seen to do counts, whatever it ought to do: how probable that was is another reading.
    /// </summary>
    /// <param name="value">What would be read if none did.</param>
    /// <param name="healthy">What is read where nothing touches.</param>
    /// <param name="responses">What the hypothesis does to the current in each guard.</param>
    /// <param name="shares">How much of each guard the reading hangs on.</param>
    /// <param name="q">The q of the hypothesis.</param>
    internal double Left(double value, double healthy, ReadOnlySpan<Response> responses, ReadOnlySpan<double> shares, double q)
    {
        for (int k = 0; k < responses.Length; k++)
        {
            double amps = Math.Abs(_guards[k].Probe.Healthy + responses[k].Change(q));
            if (_guards[k].IsLimit)
            {
                value *= Math.Min(1, _guards[k].Amps / Math.Max(amps, 1e-12));
            }
            else
            {
                double trips = _seen.TryGetValue(_guards[k].District!, out bool did) ? did ? 1 : 0 : Edges.Trips(amps, _guards[k].Amps);
                value = (value * (1 - trips)) + (healthy * (1 - shares[k]) * trips);
            }
        }

        return value;
    }

    /// <summary>A supply of limited current gives way before the breaker behind it trips, where it can give less than that.</summary>
    private static IEnumerable<Guard> Breakers(CaseCircuit circuit) => circuit.Circuit.Districts
        .Where(district => !(circuit.Case.Supply is { } supply && supply.Booster == district.District.Booster && supply.Amps < district.District.OpensFrom))
        .Select(district => (district, Branch: circuit.BreakerOf(district.District.Name)))
        .Select(entry => new Guard(Probe.Current(circuit, entry.Branch, null), entry.district.District.OpensFrom.Amperes, entry.district.District.Name, entry.Branch));

    private static IEnumerable<Guard> Limits(CaseCircuit circuit)
    {
        if (circuit.Case.Supply is { } supply)
        {
            Branch output = circuit.WireAt(new ReadingPoint.OfBooster(supply.Booster, Leg.A), -1);
            yield return new(Probe.Current(circuit, output, null), supply.Amps.Amperes, null, output);
        }
    }

    /// <summary>Where too much current ends something: a breaker, or a supply of limited current.</summary>
    /// <param name="Probe">The current.</param>
    /// <param name="Amps">How much is too much.</param>
    /// <param name="District">The breaker's district; null of a supply.</param>
    /// <param name="At">The wire.</param>
    private sealed record Guard(Probe Probe, double Amps, string? District, Branch At)
    {
        internal bool IsLimit => District is null;
    }
}
