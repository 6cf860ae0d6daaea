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
    private readonly ImmutableArray<(Probe Probe, double Amps, bool IsLimit, Branch At)> _guards;

    internal Trips(Respondents respondents)
    {
        _respondents = respondents;
        CaseCircuit circuit = respondents.Circuit;
        _guards = circuit.Case.IsPowered ? [.. Breakers(circuit), .. Limits(circuit)] : [];
    }

    /// <summary>How much of each guard a reading hangs on: 1 where all that it shows comes through that one breaker.</summary>
    internal double[] Shares(Probe probe) =>
        [.. _guards.Select(guard => guard.IsLimit ? 1 : Math.Min(1, Math.Abs(probe.Sides(guard.At).Coupling)))];

    /// <summary>What a hypothesis does to the current in each guard.</summary>
    internal Response[] Responses(int hypothesis) => [.. _guards.Select(guard => _respondents.Respond(guard.Probe, hypothesis))];

    /// <summary>The part of a reading that is left.</summary>
    internal double Left(ReadOnlySpan<Response> responses, ReadOnlySpan<double> shares, double q)
    {
        double left = 1;
        for (int k = 0; k < responses.Length; k++)
        {
            double amps = Math.Abs(_guards[k].Probe.Healthy + responses[k].Change(q));
            left *= _guards[k].IsLimit ? Math.Min(1, _guards[k].Amps / Math.Max(amps, 1e-12)) : 1 - (shares[k] * Edges.Trips(amps, _guards[k].Amps));
        }

        return left;
    }

    /// <summary>A supply of limited current gives way before the breaker behind it trips, where it can give less than that.</summary>
    private static IEnumerable<(Probe Probe, double Amps, bool IsLimit, Branch At)> Breakers(CaseCircuit circuit) => circuit.Circuit.Districts
        .Where(district => !(circuit.Case.Supply is { } supply && supply.Booster == district.District.Booster && supply.Amps < district.District.Trip))
        .Select(district => (district, Branch: circuit.BreakerOf(district.District.Name)))
        .Select(entry => (Probe.Current(circuit, entry.Branch, null), entry.district.District.Trip.Amperes, false, entry.Branch));

    private static IEnumerable<(Probe Probe, double Amps, bool IsLimit, Branch At)> Limits(CaseCircuit circuit)
    {
        if (circuit.Case.Supply is { } supply)
        {
            Branch output = circuit.WireAt(new ReadingPoint.OfBooster(supply.Booster, Leg.A), -1);
            yield return (Probe.Current(circuit, output, null), supply.Amps.Amperes, true, output);
        }
    }
}
