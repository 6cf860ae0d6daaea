using System.Collections.Immutable;
using WireUp.Faults.Network;
using WireUp.Layouts;

namespace WireUp.Faults.Search;

/// <summary>How well each hypothesis by itself explains the readings.</summary>
internal sealed class SingleFaults
{
    private readonly Respondents[] _respondents;
    private readonly Trips[] _trips;
    private readonly double[][] _shares;

    /// <param name="hypotheses">Every hypothesis.</param>
    /// <param name="evidence">The readings.</param>
    /// <param name="respondents">How hypotheses act in the case of each reading, in the order of the readings.</param>
    /// <param name="trips">What trips in the case of each.</param>
    internal SingleFaults(
        ImmutableArray<Hypothesis> hypotheses, Evidence evidence, ImmutableArray<Respondents> respondents, ImmutableArray<Trips> trips)
    {
        Hypotheses = hypotheses;
        (Evidence, _respondents, _trips) = (evidence, [.. respondents], [.. trips]);
        _shares = [.. evidence.Readings.Select((reading, r) => reading.Source is MeterReading.Breaker ? [] : trips[r].Shares(reading.Probe))];
    }

    internal Evidence Evidence { get; }

    internal ImmutableArray<Hypothesis> Hypotheses { get; }

    /// <summary>What every reading shows on a healthy railway.</summary>
    internal double[] Healthy() => [.. Evidence.Readings.Select(reading => reading.Probe.Healthy)];

    /// <summary>What every reading ought to show under a hypothesis with this value; NaN for a state without one.</summary>
    internal double[] Predicted(int hypothesis, double value)
    {
        double[] predicted = new double[Evidence.Count];
        Predict(Of(hypothesis), Q(Hypotheses[hypothesis], value), predicted);
        return predicted;
    }

    /// <summary>How well a hypothesis fits, its value integrated over.</summary>
    internal FaultFit Fit(int hypothesis)
    {
        Hypothesis asked = Hypotheses[hypothesis];
        Action action = Of(hypothesis);
        double[] predicted = new double[Evidence.Count];
        double LogLikelihood(double value)
        {
            Predict(action, Q(asked, value), predicted);
            return Evidence.LogLikelihood(predicted);
        }

        return asked is { Least: { } least, Most: { } most }
            ? ValueFit.Integrate(least, most, Seeds(asked, action), LogLikelihood)
            : FaultFit.Of(LogLikelihood(double.NaN));
    }

    private static double Q(Hypothesis hypothesis, double value) =>
        hypothesis.HasValue ? Respondents.QOf(hypothesis, value) : Respondents.FixedQ(hypothesis);

    /// <summary>The values for which single readings come out exactly.</summary>
    private double[] Seeds(Hypothesis hypothesis, in Action action)
    {
        double[] seeds = new double[2 * Evidence.Count];
        for (int r = 0; r < Evidence.Count; r++)
        {
            SessionReading reading = Evidence.Readings[r];
            double healthy = reading.Probe.Healthy, shown = reading.Measured * (healthy < 0 ? -1 : 1);
            double q = action.Readings[r].For(shown - healthy), turned = action.Readings[r].For(-shown - healthy);
            (seeds[2 * r], seeds[(2 * r) + 1]) = hypothesis.Joins ? (q, turned) : (1 / q, 1 / turned);
        }

        return seeds;
    }

    private void Predict(in Action action, double q, Span<double> predicted)
    {
        for (int r = 0; r < predicted.Length; r++)
        {
            double healthy = Evidence.Readings[r].Probe.Healthy, value = healthy + action.Readings[r].Change(q);
            predicted[r] = action.Guards.Length == 0 || _shares[r].Length == 0 ? value : _trips[r].Left(value, healthy, action.Guards[r], _shares[r], q);
        }
    }

    private Action Of(int hypothesis)
    {
        Response[] readings = new Response[Evidence.Count];
        for (int r = 0; r < readings.Length; r++)
        {
            readings[r] = _respondents[r].Respond(Evidence.Readings[r].Probe, hypothesis);
        }

        return new(readings, Hypotheses[hypothesis].Trips ? Guards(hypothesis) : []);
    }

    /// <summary>Readings of one case share what happens to its breakers.</summary>
    private Response[][] Guards(int hypothesis)
    {
        Response[][] guards = new Response[Evidence.Count][];
        for (int r = 0; r < guards.Length; r++)
        {
            int same = Array.IndexOf(_trips, _trips[r]);
            guards[r] = same < r ? guards[same] : _trips[r].Responses(hypothesis);
        }

        return guards;
    }

    /// <summary>What a hypothesis does to each reading and, where conductors meet, to the breakers of each reading's case.</summary>
    private readonly record struct Action(Response[] Readings, Response[][] Guards);
}
