using WireUp.Faults.Network;
using WireUp.Faults.Search;
using WireUp.Faults.Tests.Support;
using WireUp.Layouts;

namespace WireUp.Faults.Tests.Properties;

/// <summary>What pairs that were not weighed can have at most, against those pairs integrated over a grid of both values, every reading of the circuit with both parts changed.</summary>
public sealed class PairBoundTests
{
    /// <summary>Points of the grid along each value.</summary>
    private const int Grid = 16;

    public static TheoryData<double, double, double> Readings => new()
    {
        { 14.75, 9.0, 8.2 },
        { 12.1, 6.3, 0.4 },
        { 14.8, 14.6, 14.5 },
    };

    [Theory]
    [MemberData(nameof(Readings))]
    public void No_pair_that_was_left_out_weighs_more_than_the_bound(double first, double middle, double last)
    {
        Session session = Session.Open(Chain.Of(6), Chain.Readings(Chain.Volts("s1", first), Chain.Volts("s3", middle), Chain.Volts("s5", last)), FaultPriors.Usual)!;
        Weighed weighed = Weighed.Of(session, new() { Pairs = true }, TestContext.Current.CancellationToken);
        double total = weighed.Explanations[0].LogWeight - Math.Log(weighed.Probabilities[0]);
        HashSet<(int, int)> known = [.. weighed.Explanations.Where(item => item.Hypotheses.Length == 2).Select(item => (item.Hypotheses[0], item.Hypotheses[1]))];
        double[] left = [.. LeftOut(session, known).Select(pair => LogWeight(session, pair.One, pair.Other) - total)];

        Assert.InRange(left.Length, 100, int.MaxValue);
        double sum = left.Sum(Math.Exp), missed = sum / (1 + sum);
        Assert.True(missed > 0 && missed <= weighed.PairsMissed, $"{left.Length} pairs left out weigh {missed}, the bound is {weighed.PairsMissed}");
    }

    /// <summary>Pairs of two parts that can be paired at all, of which each moves a reading beside the other.</summary>
    private static IEnumerable<(int One, int Other)> LeftOut(Session session, HashSet<(int, int)> known)
    {
        Respondents all = session.Case(session.Circuit).Respondents;
        int[] asked = [.. Enumerable.Range(0, session.Hypotheses.Length)
            .Where(h => all[h] is not null && session.Hypotheses[h] is { Joins: false, State: not FaultState.Weak })];
        return
            from one in asked
            from other in asked
            where one < other && !known.Contains((one, other)) && session.Hypotheses[one].Part != session.Hypotheses[other].Part && AreTwo(session, all, one, other)
            select (one, other);
    }

    private static bool AreTwo(Session session, Respondents all, int one, int other)
    {
        Evidence evidence = session.Singles.Evidence;
        double[] healthy = session.Singles.Healthy(), both = Predicted(session, all, one, Respondents.OpenSiemens, other, Respondents.OpenSiemens);
        double[] first = Alone(session, all, one), second = Alone(session, all, other);
        return !(evidence.AreAlike(both, first) && evidence.AreAlike(second, healthy)) && !(evidence.AreAlike(both, second) && evidence.AreAlike(first, healthy));
    }

    private static double[] Alone(Session session, Respondents all, int h) =>
        [.. session.Singles.Evidence.Readings.Select(reading => reading.Probe.Healthy + all.Respond(reading.Probe, h).Change(Respondents.OpenSiemens))];

    private static double LogWeight(Session session, int one, int other)
    {
        Respondents all = session.Case(session.Circuit).Respondents;
        double[] logs =
        [
            .. from q in Values(session.Hypotheses[one])
               from r in Values(session.Hypotheses[other])
               select session.Singles.Evidence.LogLikelihood(Predicted(session, all, one, q, other, r)),
        ];
        double most = logs.Max();
        return most + Math.Log(logs.Average(log => Math.Exp(log - most))) + session.Hypotheses[one].LogOdds + session.Hypotheses[other].LogOdds;
    }

    /// <summary>Conductances in the middles of equal parts of the logarithm of the range; of what is open the one.</summary>
    private static IEnumerable<double> Values(Hypothesis hypothesis) => hypothesis is { Least: { } least, Most: { } most }
        ? Enumerable.Range(0, Grid).Select(i => 1 / (least * Math.Pow(most / least, (i + 0.5) / Grid)))
        : [Respondents.FixedQ(hypothesis)];

    private static double[] Predicted(Session session, Respondents all, int one, double q, int other, double r)
    {
        Branch[] branches = [all[one]!.Value, all[other]!.Value];
        return [.. session.Singles.Evidence.Readings.Select(reading => reading.Probe.Value(branches, [q, r]))];
    }
}
