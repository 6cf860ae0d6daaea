using System.Collections.Immutable;
using WireUp.Faults.Network;
using WireUp.Layouts;

namespace WireUp.Faults.Search;

/// <summary>
/// Two faults at a time. One of the two is taken from the faults that explain most by themselves and those that move an unexplained reading most;
/// with it in the circuit, every other is tried in the circuit that is left. The best pairs are then fitted in turn.
/// </summary>
/// <remarks>
/// Conductors that meet which must be apart are left out of pairs, and so is what needs several branches: with a breaker open little is to
/// be read. The weight of a pair takes the two values as independent about the best ones.
/// </remarks>
internal sealed class PairSearch
{
    private const int MostFirst = 48, MostSecond = 40, MostFitted = 160, MostBounded = 80, Rounds = 3;

    /// <summary>A reading further off than this under the best single fault counts as unexplained, standard deviations.</summary>
    private const double UnexplainedSigmas = 3;

    private readonly Evidence _evidence;
    private readonly ImmutableArray<Hypothesis> _hypotheses;
    private readonly Respondents[] _cases;
    private readonly int[] _asked;
    private readonly Probe.PlacedBranch?[][] _placed;

    internal PairSearch(Session session)
    {
        (_evidence, _hypotheses) = (session.Singles.Evidence, session.Hypotheses);
        _cases = [.. _evidence.Readings.Select(reading => session.Case(reading.Probe.Circuit).Respondents)];
        _asked = [.. Enumerable.Range(0, _hypotheses.Length).Where(h => !_hypotheses[h].Joins && _hypotheses[h].State != FaultState.Weak
            && _cases.Any(all => all[h] is not null))];
        _placed = [.. _evidence.Readings.Select((reading, r) => _hypotheses.Select((_, h) => _cases[r].Offered(h) is { } offered ? reading.Probe.Place(offered) : (Probe.PlacedBranch?)null).ToArray())];
    }

    /// <summary>The pairs worth weighing, and the logarithm of what all others weigh at most.</summary>
    /// <param name="singles">What single faults explain, the best first.</param>
    /// <param name="bounds">Whether that is asked for.</param>
    /// <param name="cancel">Stops the search.</param>
    internal (List<Explanation> Pairs, double LogLeft) Find(IReadOnlyList<Explanation> singles, bool bounds, CancellationToken cancel)
    {
        if (_evidence.Count == 0)
        {
            return ([], double.NegativeInfinity);
        }

        List<Explanation> pairs = [.. Likely(singles, cancel)];
        if (!bounds)
        {
            return (pairs, double.PositiveInfinity);
        }

        (List<BoundedPair> weightiest, double left) = new PairBound(_evidence, _cases, _asked)
            .Find(pairs.Select(pair => (pair.Hypotheses[0], pair.Hypotheses[1])).ToHashSet(), MostBounded, cancel);
        pairs.AddRange(weightiest.Select(pair => Fitted((pair.First, pair.Second), pair.FirstValue, pair.SecondValue)));
        return (pairs, left);
    }

    private IEnumerable<Explanation> Likely(IReadOnlyList<Explanation> singles, CancellationToken cancel)
    {

        Dictionary<(int, int), (double Log, double First, double Second)> found = [];
        foreach ((int first, double value) in Firsts(singles))
        {
            cancel.ThrowIfCancellationRequested();
            foreach ((int second, double other, double log) in Seconds(first, value))
            {
                (int, int) pair = (Math.Min(first, second), Math.Max(first, second));
                if (!found.TryGetValue(pair, out (double Log, double, double) known) || log > known.Log)
                {
                    found[pair] = first < second ? (log, value, other) : (log, other, value);
                }
            }
        }

        return [.. found.OrderByDescending(entry => entry.Value.Log).ThenBy(entry => entry.Key).Take(MostFitted)
            .Select(entry => Fitted(entry.Key, entry.Value.First, entry.Value.Second))];
    }

    private IEnumerable<(int Hypothesis, double Value)> Firsts(IReadOnlyList<Explanation> singles)
    {
        HashSet<int> asked = [.. _asked];
        IEnumerable<(int, double)> best = singles.Select(item => (Hypothesis: item.Hypotheses[0], item.Fits[0].Value)).Where(item => asked.Contains(item.Hypothesis)).Take(MostFirst);
        double[] predicted = [.. singles[0].Predicted];
        double scale = _evidence.Scale(predicted);
        int[] open = [.. Enumerable.Range(0, predicted.Length).Where(r => Math.Abs(_evidence.Readings[r].Sigmas(predicted[r], scale)) > UnexplainedSigmas)];
        int[] unexplained = open.Length > 0 ? open : [.. Enumerable.Range(0, predicted.Length)];
        IEnumerable<(int, double)> movers = _asked.OrderByDescending(h => unexplained.Max(r => Moved(r, h))).ThenBy(h => h).Take(MostFirst / 2)
            .SelectMany(h => Values(h).Select(value => (h, value)));
        return best.Concat(movers).Distinct();
    }

    /// <summary>By how many standard deviations a reading moves when a part opens.</summary>
    private double Moved(int reading, int hypothesis)
    {
        SessionReading asked = _evidence.Readings[reading];
        return _cases[reading][hypothesis] is null ? 0 : Math.Abs(_cases[reading].Respond(asked.Probe, hypothesis).Change(Respondents.OpenSiemens)) / asked.Sigma;
    }

    private double[] Values(int hypothesis) => _hypotheses[hypothesis].HasValue ? [3, 30, 300] : [double.NaN];

    private List<(int Hypothesis, double Value, double Log)> Seconds(int first, double value)
    {
        double[]?[] columns = [.. _cases.Select(all => all[first] is { } branch ? all.Circuit.Column(branch.From, branch.To) : null)];
        List<(int Hypothesis, double Value, double Log)> tried = [];
        (double[] values, Response[] responses, double[] predicted) = (new double[_evidence.Count], new Response[_evidence.Count], new double[_evidence.Count]);
        foreach (int second in _asked.Where(h => _hypotheses[h].Part.Element != _hypotheses[first].Part.Element))
        {
            Prepare(first, value, second, columns, values, responses);
            (double best, double log) = (double.NaN, double.NegativeInfinity);
            foreach (double other in Values(second).Concat(_hypotheses[second].HasValue ? Seeds(values, responses) : []))
            {
                double fit = LogLikelihood(second, other, values, responses, predicted);
                (best, log) = fit > log ? (other, fit) : (best, log);
            }

            tried.Add((second, best, log + _hypotheses[first].LogOdds + _hypotheses[second].LogOdds));
        }

        return [.. tried.OrderByDescending(item => item.Log).ThenBy(item => item.Hypothesis).Take(MostSecond)];
    }

    /// <summary>Values for which single readings come out exactly, within the usual range.</summary>
    private IEnumerable<double> Seeds(double[] values, Response[] responses)
    {
        for (int r = 0; r < values.Length; r++)
        {
            double shown = _evidence.Readings[r].Measured * (values[r] < 0 ? -1 : 1), value = 1 / responses[r].For(shown - values[r]);
            if (value is > 0.1 and < 1000)
            {
                yield return value;
            }
        }
    }

    private void Prepare(int first, double value, int second, double[]?[] columns, double[] values, Response[] responses)
    {
        double q = QOf(first, value);
        for (int r = 0; r < values.Length; r++)
        {
            Probe probe = _evidence.Readings[r].Probe;
            (Probe.PlacedBranch? one, Probe.PlacedBranch? other) = (_placed[r][first], _placed[r][second]);
            if (one is { } changed && other is { } added)
            {
                double between = probe.Circuit.Between(columns[r]!, changed.Offered.Branch, added.Offered.Branch);
                (values[r], responses[r]) = probe.Given(changed, q, added, between);
            }
            else
            {
                values[r] = probe.Healthy + (one is null ? 0 : _cases[r].Respond(probe, first).Change(q));
                responses[r] = other is null ? Response.None : _cases[r].Respond(probe, second);
            }
        }
    }

    private double LogLikelihood(int second, double value, double[] values, Response[] responses, double[] predicted)
    {
        double q = QOf(second, value);
        for (int r = 0; r < predicted.Length; r++)
        {
            predicted[r] = values[r] + responses[r].Change(q);
        }

        return _evidence.LogLikelihood(predicted);
    }

    private double QOf(int hypothesis, double value) => _hypotheses[hypothesis].HasValue
        ? Respondents.QOf(_hypotheses[hypothesis], value)
        : Respondents.FixedQ(_hypotheses[hypothesis]);

    /// <summary>Each value in turn, the other held; then how much each range narrows counts against the pair.</summary>
    private Explanation Fitted((int First, int Second) pair, double first, double second)
    {
        (FaultFit one, FaultFit other) = (FaultFit.Of(0), FaultFit.Of(0));
        (double oneLog, double otherLog) = (0, 0);
        double[] predicted = new double[_evidence.Count];
        for (int round = 0; round < Rounds; round++)
        {
            (other, otherLog) = FitSecond(pair.First, first, pair.Second, predicted);
            second = other.Value;
            (one, oneLog) = FitSecond(pair.Second, second, pair.First, predicted);
            first = one.Value;
        }

        double log = one.LogLikelihood + (other.LogLikelihood - otherLog);
        return new([pair.First, pair.Second], [one, other], [.. predicted],
            log + _hypotheses[pair.First].LogOdds + _hypotheses[pair.Second].LogOdds);
    }

    /// <summary>Fits the second while the first is held; on return also what is predicted at the best value and its likelihood there.</summary>
    private (FaultFit Fit, double BestLog) FitSecond(int held, double value, int fitted, double[] predicted)
    {
        double[]?[] columns = [.. _cases.Select(all => all[held] is { } branch ? all.Circuit.Column(branch.From, branch.To) : null)];
        (double[] values, Response[] responses) = (new double[_evidence.Count], new Response[_evidence.Count]);
        Prepare(held, value, fitted, columns, values, responses);
        FaultFit fit = _hypotheses[fitted] is { Least: { } least, Most: { } most }
            ? ValueFit.Integrate(least, most, [.. Seeds(values, responses)], at => LogLikelihood(fitted, at, values, responses, predicted))
            : FaultFit.Of(LogLikelihood(fitted, double.NaN, values, responses, predicted));
        return (fit, LogLikelihood(fitted, fit.Value, values, responses, predicted));
    }
}
