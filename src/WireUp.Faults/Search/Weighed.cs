using System.Collections.Immutable;

namespace WireUp.Faults.Search;

/// <summary>One explanation with its weight: no hypothesis (nothing wrong), one, or two.</summary>
/// <param name="Hypotheses">Indices of the hypotheses.</param>
/// <param name="Fits">How they fit; of two, each with its value as it is beside the other.</param>
/// <param name="Predicted">What every reading ought to show.</param>
/// <param name="LogWeight">Logarithm of prior odds times likelihood.</param>
internal sealed record Explanation(ImmutableArray<int> Hypotheses, ImmutableArray<FaultFit> Fits, ImmutableArray<double> Predicted, double LogWeight);

/// <summary>Everything that was weighed, with its probabilities.</summary>
/// <param name="Explanations">Single faults and pairs, the most probable first.</param>
/// <param name="Probabilities">Of each explanation.</param>
/// <param name="NothingWrong">Probability that nothing is wrong.</param>
/// <param name="NotInModel">Probability that it is nothing that the model holds.</param>
internal sealed record Weighed(ImmutableArray<Explanation> Explanations, ImmutableArray<double> Probabilities, double NothingWrong, double NotInModel)
{
    private static readonly double LeastGain = Math.Log(3);

    /// <summary>Probability that all pairs which were not weighed have together at most.</summary>
    internal double PairsMissed { get; init; }

    internal static Weighed Of(Session session, FaultSearchOptions options, CancellationToken cancel)
    {
        Explanation[] singles = [.. InOrder(Singles(session, cancel))];
        if (!options.Pairs)
        {
            return Of(session, singles);
        }

        (List<Explanation> found, double left) = new PairSearch(session).Find(singles, options.BoundsPairs, cancel);
        Weighed weighed = Of(session, singles.Concat(found));
        if (!options.BoundsPairs)
        {
            return weighed with { PairsMissed = 1 };
        }

        double best = weighed.Explanations[0].LogWeight - Math.Log(weighed.Probabilities[0]);
        return weighed with { PairsMissed = 1 / (1 + Math.Exp(best - left)) };
    }

    /// <summary>
    /// The same with every pair of which one part makes what was read less than three times as likely as the other alone counted as that other part:
    /// whatever else may be out of order on the railway is no explanation.
    /// </summary>
    internal Weighed Folded(ImmutableArray<Hypothesis> hypotheses)
    {
        Dictionary<int, int> alone = Explanations.Index().Where(entry => entry.Item.Hypotheses.Length == 1).ToDictionary(entry => entry.Item.Hypotheses[0], entry => entry.Index);
        double[] probabilities = [.. Probabilities];
        List<int> kept = [];
        for (int i = 0; i < probabilities.Length; i++)
        {
            if (Explanations[i] is { Hypotheses: [int one, int other] } pair && Enough(pair, one, other) is { } enough) probabilities[alone[enough]] += probabilities[i];
            else kept.Add(i);
        }

        int[] order = [.. kept.OrderByDescending(i => Math.Round(Math.Log(probabilities[i]), 6))];
        return this with { Explanations = [.. order.Select(i => Explanations[i])], Probabilities = [.. order.Select(i => probabilities[i])] };

        int? Enough(Explanation pair, int one, int other)
        {
            double oneAlone = LogWeightOf(one), otherAlone = LogWeightOf(other);
            bool isOneEnough = pair.LogWeight - hypotheses[other].LogOdds < oneAlone + LeastGain, isOtherEnough = pair.LogWeight - hypotheses[one].LogOdds < otherAlone + LeastGain;
            return isOneEnough && (!isOtherEnough || oneAlone >= otherAlone) ? one : isOtherEnough ? other : null;
        }

        double LogWeightOf(int hypothesis) => Explanations[alone[hypothesis]].LogWeight;
    }

    private static Weighed Of(Session session, IEnumerable<Explanation> explanations)
    {
        Evidence evidence = session.Singles.Evidence;
        Explanation[] ordered = [.. InOrder(explanations)];
        double nothing = evidence.LogLikelihood(session.Singles.Healthy());
        double other = Math.Log(FaultSearch.NotInModelOdds) + evidence.LogLikelihoodOfAnything;
        double[] probabilities = Posterior.Of([nothing, other, .. ordered.Select(item => item.LogWeight)]);
        return new([.. ordered], [.. probabilities.Skip(2)], probabilities[0], probabilities[1]);
    }

    /// <summary>The most probable first; what differs in its last digits only stays in the order of the layout.</summary>
    private static IEnumerable<Explanation> InOrder(IEnumerable<Explanation> explanations) => explanations
        .OrderByDescending(item => Math.Round(item.LogWeight, 6)).ThenBy(item => item.Hypotheses[0]).ThenBy(item => item.Hypotheses[^1]);

    private static IEnumerable<Explanation> Singles(Session session, CancellationToken cancel)
    {
        for (int h = 0; h < session.Hypotheses.Length; h++)
        {
            cancel.ThrowIfCancellationRequested();
            FaultFit fit = session.Singles.Fit(h);
            yield return new([h], [fit], [.. session.Singles.Predicted(h, fit.Value)], session.Hypotheses[h].LogOdds + fit.LogLikelihood);
        }
    }
}
