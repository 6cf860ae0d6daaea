using System.Collections.Immutable;
using UnitsNet;
using WireUp.Faults.Network;
using WireUp.Faults.Parts;
using WireUp.Faults.Search;
using WireUp.Layouts;
using WireUp.Layouts.Reference;

namespace WireUp.Faults.Next;

/// <summary>What to measure next: the readings that are expected to tell most for each minute of work.</summary>
internal sealed class NextReadings
{
    /// <summary>Explanations that a reading is judged by: the most probable ones up to this part of all, and at most so many.</summary>
    private const double Mass = 0.998;
    private const int MostExplanations = 120, MostSuspects = 50, MostPromising = 20;

    /// <summary>From this probability of shorts on nobody goes on with the booster.</summary>
    private const double LeastShorts = 0.5;

    private readonly Session _session;
    private readonly Weighed _weighed;
    private readonly ImmutableArray<int> _asked;
    private readonly string[] _names;

    internal NextReadings(Session session, Weighed weighed)
    {
        (_session, _weighed) = (session, weighed);
        _asked = [.. Asked()];
        _names = [.. _asked.Select(i => NameOf(weighed.Explanations[i]))];
    }

    /// <summary>
    /// The most probable explanations of those that explain anything. A part that moves no reading so far is suspected only since something may
    /// have been misread; blades by the dozen would else crowd out the wires behind the complaint.
    /// </summary>
    private IEnumerable<int> Asked()
    {
        double[] healthy = _session.Singles.Healthy();
        int[] telling = [.. Enumerable.Range(0, _weighed.Explanations.Length).Where(i => !_session.Singles.Evidence.AreAlike(healthy, _weighed.Explanations[i].Predicted.AsSpan()))];
        int[] found = telling.Length > 0 ? telling : [.. Enumerable.Range(0, _weighed.Explanations.Length)];
        double left = Mass * found.Sum(i => _weighed.Probabilities[i]);
        foreach (int i in found.Take(MostExplanations).TakeWhile(_ => left > 0))
        {
            left -= _weighed.Probabilities[i];
            yield return i;
        }
    }

    /// <summary>The best suggestions; and for each explanation asked, the one that would confirm it best.</summary>
    internal (ImmutableArray<NextReading> Next, ImmutableArray<NextReading?> Confirm) Find(int most, int confirmed, CancellationToken cancel)
    {
        List<NextReading> found = [];
        (double Bits, NextReading? Reading)[] confirm = new (double, NextReading?)[Math.Min(confirmed, _weighed.Explanations.Length)];
        int[] asked = [.. Enumerable.Range(0, confirm.Length).Select(i => _asked.IndexOf(i))];
        foreach ((Candidate candidate, SessionReading rough) in Promising(cancel))
        {
            cancel.ThrowIfCancellationRequested();
            Predictive predictive = Of(SessionBuilder.WithSpread(rough));
            NextReading next = new(candidate.Reading, candidate.Words, predictive.Bits(), candidate.Minutes, candidate.Reach);
            found.Add(next);
            for (int i = 0; i < confirm.Length; i++)
            {
                double bits = asked[i] < 0 ? 0 : predictive.BitsAbout(_names[asked[i]]);
                confirm[i] = bits > confirm[i].Bits ? (bits, next with { Bits = bits }) : confirm[i];
            }
        }

        return (
            [.. found.OrderByDescending(item => item.BitsPerMinute).ThenBy(item => item.Words, StringComparer.Ordinal).Take(most)],
            [.. confirm.Select(entry => entry.Reading)]);
    }

    /// <summary>Candidates that tell much, or much for their minutes, were all healthy parts alike; only of these it is worth knowing by how much they vary.</summary>
    private List<(Candidate Candidate, SessionReading Rough)> Promising(CancellationToken cancel)
    {
        List<(Candidate Candidate, SessionReading Rough, double Bits)> rough = [];
        foreach (Candidate candidate in Candidates())
        {
            cancel.ThrowIfCancellationRequested();
            if (_session.Builder.Rough(candidate.Reading) is { IsDefinite: true } reading)
            {
                rough.Add((candidate, reading, Of(reading).Bits()));
            }
        }

        return
        [
            .. rough.OrderByDescending(item => item.Bits).ThenBy(item => item.Candidate.Words, StringComparer.Ordinal).Take(MostPromising)
                .Union(rough.OrderByDescending(item => item.Bits / item.Candidate.Minutes).ThenBy(item => item.Candidate.Words, StringComparer.Ordinal).Take(MostPromising))
                .Select(item => (item.Candidate, item.Rough)),
        ];
    }

    private IEnumerable<Candidate> Candidates()
    {
        Part[] suspects = [.. _asked.SelectMany(i => _weighed.Explanations[i].Hypotheses).Select(h => _session.Hypotheses[h].Part).Distinct().Take(MostSuspects)];
        MeterReading? last = _session.Set.Readings.LastOrDefault(reading => reading is not MeterReading.Pressed);
        LimitedSupply? supply = Supply();
        return new CandidateList(_session, supply is null ? Complaints() : [], last?.Settings ?? [], supply).For(suspects);
    }

    /// <summary>A limited supply, where one is on hand and conductors most likely touch; the one that was used last, if any was.</summary>
    private LimitedSupply? Supply()
    {
        ReadingSet set = _session.Set;
        if (!set.Tools.HasFlag(ReadingTools.Supply) || Shorted() is not { } shorted)
        {
            return null;
        }

        string booster = _session.Circuit.Circuit.Graph.Layout.Wiring.Districts.First(district => district.Name == shorted).Booster;
        return set.Readings.Select(reading => reading.Supply).LastOrDefault(supply => supply is not null)
            ?? new(booster, ElectricPotential.FromVolts(Constants.Get("search-supply-volts").Value), ElectricCurrent.FromAmperes(Constants.Get("search-supply-current").Value));
    }

    /// <summary>The district whose breaker trips; or, where the wires are too thin for that, the one behind the complaint once most of what is likely are shorts.</summary>
    private string? Shorted()
    {
        if (_session.Set.Readings.OfType<MeterReading.Breaker>().FirstOrDefault(reading => reading.Trips) is { } tripped)
        {
            return tripped.District;
        }

        double shorts = _weighed.Explanations.Index().Where(entry => entry.Item.Hypotheses.All(h => _session.Hypotheses[h].Trips)).Sum(entry => _weighed.Probabilities[entry.Index]);
        return shorts < LeastShorts
            ? null
            : _session.Singles.Evidence.Readings.Where(reading => reading.Source is MeterReading.Running or MeterReading.Volts)
                .Select(reading => _session.Case(reading.Probe.Circuit).Trips.Feeding(reading.Probe)).OfType<string>().FirstOrDefault();
    }

    /// <summary>Where a load makes the fault show: the places of readings that are not as they should be, the worst first.</summary>
    private ImmutableArray<ReadingPlace> Complaints()
    {
        Evidence evidence = _session.Singles.Evidence;
        ReadingPlace[] places =
        [
            .. evidence.Readings.OrderByDescending(reading => Math.Abs(reading.Sigmas(reading.Probe.Healthy, 1))).Select(reading => reading.Source switch
            {
                MeterReading.Running running => running.At,
                MeterReading.Volts volts => volts.Load?.At ?? volts.At,
                MeterReading.VoltsAlong volts => volts.Load?.At,
                MeterReading.Amps amps => amps.Load?.At,
                _ => null,
            }).OfType<ReadingPlace>().Distinct(),
        ];
        return [.. places.Take(_session.Set.Readings.OfType<MeterReading.Running>().Count() > 1 ? 2 : 1)];
    }

    private Predictive Of(SessionReading reading)
    {
        Predictive predictive = new(reading);
        predictive.Add("", _weighed.NothingWrong, [(reading.Probe.Healthy, 1)]);
        (Respondents respondents, Trips trips) = _session.Case(reading.Probe.Circuit);
        double[] shares = reading.Source is MeterReading.Breaker ? [] : trips.Shares(reading.Probe);
        double sum = _weighed.NothingWrong + _weighed.NotInModel;
        for (int k = 0; k < _asked.Length; k++)
        {
            double probability = _weighed.Probabilities[_asked[k]];
            predictive.Add(_names[k], probability, Atoms(reading, respondents, trips, shares, _weighed.Explanations[_asked[k]]));
            sum += probability;
        }

        // The many that are left explain the readings no better than a misreading does: they leave this one as it is, too.
        predictive.Add("others", Math.Max(0, 1 - sum), [(reading.Probe.Healthy, 1)]);
        predictive.AddAnything(_weighed.NotInModel);
        return predictive;
    }

    /// <summary>What the reading would show, at the fitted value and at both ends of its interval.</summary>
    private (double Value, double Weight)[] Atoms(
        SessionReading reading, Respondents respondents, Trips trips, double[] shares, Explanation explanation)
    {
        if (explanation.Hypotheses.Length == 2)
        {
            return [(Both(reading.Probe, respondents, explanation), 1)];
        }

        int h = explanation.Hypotheses[0];
        Hypothesis hypothesis = _session.Hypotheses[h];
        Response response = respondents.Respond(reading.Probe, h);
        Response[] guards = hypothesis.Trips ? trips.Responses(h) : [];
        double At(double q)
        {
            double healthy = reading.Probe.Healthy, value = healthy + response.Change(q);
            return guards.Length == 0 || shares.Length == 0 ? value : trips.Left(value, healthy, guards, shares, q);
        }

        FaultFit fit = explanation.Fits[0];
        return hypothesis.HasValue
            ?
            [
                (At(Respondents.QOf(hypothesis, fit.Least)), 0.25),
                (At(Respondents.QOf(hypothesis, fit.Value)), 0.5),
                (At(Respondents.QOf(hypothesis, fit.Most)), 0.25),
            ]
            : [(At(Respondents.FixedQ(hypothesis)), 1)];
    }

    private double Both(Probe probe, Respondents respondents, Explanation explanation)
    {
        List<Branch> branches = [];
        List<double> q = [];
        foreach ((int h, FaultFit fit) in explanation.Hypotheses.Zip(explanation.Fits))
        {
            if (respondents[h] is { } branch)
            {
                branches.Add(branch);
                q.Add(_session.Hypotheses[h].HasValue ? Respondents.QOf(_session.Hypotheses[h], fit.Value) : Respondents.FixedQ(_session.Hypotheses[h]));
            }
        }

        return probe.Value([.. branches], [.. q]);
    }

    /// <summary>What a person wants to know is which part it is, not how it fails.</summary>
    private string NameOf(Explanation explanation) =>
        string.Join('+', explanation.Hypotheses.Select(h => _session.Hypotheses[h].Part.Element.Place));
}
