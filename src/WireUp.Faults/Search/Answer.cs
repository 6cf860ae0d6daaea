using System.Collections.Immutable;
using UnitsNet;
using WireUp.Faults.Next;
using WireUp.Layouts;

namespace WireUp.Faults.Search;

/// <summary>Puts what was weighed into the words of a diagnosis.</summary>
internal static class Answer
{
    /// <summary>A reading further off than this under the best explanation contradicts it.</summary>
    private const double ContradictionSigmas = 4;

    /// <summary>For so many explanations a reading that would confirm them is looked for.</summary>
    private const int Confirmed = 3;

    internal static Diagnosis Of(Session session, Weighed weighed, FaultSearchOptions options, CancellationToken cancel)
    {
        int listed = Enumerable.Range(0, Math.Min(options.Most, weighed.Explanations.Length))
            .TakeWhile(i => i < 2 || weighed.Probabilities[i] >= options.LeastProbability)
            .Count();
        double[] best = Best(session, weighed, listed);
        ImmutableArray<ReadingFit> fits = [.. Fits(session, best)];
        (ImmutableArray<NextReading> next, ImmutableArray<NextReading?> confirm) = options.MostNext > 0
            ? new NextReadings(session, weighed).Find(options.MostNext, Confirmed, cancel)
            : ([], []);
        return new()
        {
            Faults = [.. Ranked(session, weighed, listed, confirm)],
            NothingWrong = weighed.NothingWrong,
            NotInModel = weighed.NotInModel,
            Unlisted = weighed.Probabilities.Skip(listed).Sum(),
            PairsMissed = weighed.PairsMissed,
            Bits = Posterior.Bits([weighed.NothingWrong, weighed.NotInModel, .. weighed.Probabilities]),
            Readings = fits,
            Contradiction = Worst(fits),
            Next = next,
        };
    }

    /// <summary>
    /// What the most probable of the explanations that are told shows with which no reading quarrels, nothing wrong among them; where there is
    /// none, what the most probable shows.
    /// </summary>
    private static double[] Best(Session session, Weighed weighed, int listed)
    {
        double[][] inOrder =
        [
            .. weighed.Explanations.Take(listed).Select((explanation, i) => (Shown: explanation.Predicted.ToArray(), Probability: weighed.Probabilities[i]))
                .Prepend((Shown: session.Singles.Healthy(), Probability: weighed.NothingWrong))
                .OrderByDescending(pair => pair.Probability)
                .Select(pair => pair.Shown),
        ];
        return inOrder.FirstOrDefault(shown => Fits(session, shown).All(fit => !(fit.Sigmas > ContradictionSigmas))) ?? inOrder[0];
    }

    private static IEnumerable<ReadingFit> Fits(Session session, double[] best)
    {
        Evidence evidence = session.Singles.Evidence;
        double scale = evidence.Scale(best);
        for (int i = 0, r = 0; i < session.Set.Readings.Length; i++)
        {
            if (r == evidence.Count || session.Indices[r] != i)
            {
                yield return new(double.NaN, double.NaN, double.NaN, 0);
                continue;
            }

            SessionReading reading = evidence.Readings[r];
            double factor = reading.IsPowered ? scale : 1;
            yield return new(reading.Measured, reading.Shown(reading.Probe.Healthy), factor * reading.Shown(best[r]), Math.Abs(reading.Sigmas(best[r], factor)));
            r++;
        }
    }

    private static Contradiction? Worst(ImmutableArray<ReadingFit> fits)
    {
        if (fits.IsEmpty)
        {
            return null;
        }

        int worst = Enumerable.Range(0, fits.Length).MaxBy(i => fits[i].Sigmas);
        return fits[worst].Sigmas > ContradictionSigmas ? new(worst, fits[worst].Sigmas) : null;
    }

    private static IEnumerable<RankedFault> Ranked(Session session, Weighed weighed, int listed, ImmutableArray<NextReading?> confirm)
    {
        List<ImmutableArray<double>> groups = [];
        for (int i = 0; i < listed; i++)
        {
            Explanation explanation = weighed.Explanations[i];
            int group = groups.FindIndex(other => session.Singles.Evidence.AreAlike(other.AsSpan(), explanation.Predicted.AsSpan()));
            if (group < 0)
            {
                group = groups.Count;
                groups.Add(explanation.Predicted);
            }

            yield return new([.. explanation.Hypotheses.Select((h, k) => Named(session.Hypotheses[h], explanation.Fits[k]))], weighed.Probabilities[i])
            {
                Predicted = [.. Predicted(session, explanation.Predicted)],
                Group = group,
                Confirm = i < confirm.Length ? confirm[i] : null,
            };
        }
    }

    /// <summary>One value a reading of the set; NaN for one that only says where to look.</summary>
    private static double[] Predicted(Session session, ImmutableArray<double> predicted)
    {
        double[] all = new double[session.Set.Readings.Length];
        Array.Fill(all, double.NaN);
        for (int r = 0; r < predicted.Length; r++)
        {
            all[session.Indices[r]] = session.Singles.Evidence.Readings[r].Shown(predicted[r]);
        }

        return all;
    }

    private static Fault Named(Hypothesis hypothesis, in FaultFit fit) => hypothesis is { HasValue: true, State: not FaultState.Weak }
        ? new(hypothesis.Part.Element, hypothesis.State)
        {
            Ohms = ElectricResistance.FromOhms(fit.Value),
            LeastOhms = ElectricResistance.FromOhms(fit.Least),
            MostOhms = ElectricResistance.FromOhms(fit.Most),
        }
        : new(hypothesis.Part.Element, hypothesis.State);
}
