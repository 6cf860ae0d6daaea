using System.Collections.Immutable;
using WireUp.Faults.Network;
using WireUp.Faults.Search;
using WireUp.Layouts;

namespace WireUp.Benchmarks.Faults;

/// <summary>Draws faults as often as the priors say, and keeps those that somebody notices.</summary>
internal sealed class FaultDraw
{
    private readonly Session _session;
    private readonly double[] _upTo;
    private readonly ImmutableArray<(MeterReading.Running Template, SessionReading Reading)> _places;

    internal FaultDraw(Layout layout)
    {
        _session = Session.Open(layout, ReadingSet.None, FaultPriors.Usual)!;
        Respondents respondents = _session.Case(_session.Circuit).Respondents;
        double sum = 0;
        _upTo = [.. _session.Hypotheses.Select((hypothesis, h) => sum += CanBeInjected(hypothesis) && respondents[h] is not null ? Math.Exp(hypothesis.LogOdds) : 0)];
        _places = [.. layout.Track.OfType<Piece.Section>()
            .Select(section => new MeterReading.Running(new ReadingPlace.Along(new(section.Id, section.Length.Meters / 2)), RunningState.Runs))
            .Select(template => (template, _session.Builder.Of(template)!))
            .Where(place => Math.Abs(place.Item2.Probe.Healthy) > place.Item2.Full / 2)];
    }

    internal ImmutableArray<Hypothesis> Hypotheses => _session.Hypotheses;

    /// <summary>How many were drawn for those that were kept.</summary>
    internal int Drawn { get; private set; }

    /// <summary>A fault that makes a locomotive slow down or stop somewhere, and how it runs at the worst place.</summary>
    internal (InjectedFault Fault, MeterReading Symptom) Next(Random random, FaultySpice spice)
    {
        while (true)
        {
            Drawn++;
            InjectedFault fault = Draw(random);
            if (Symptom([fault], spice) is { } symptom)
            {
                return (fault, symptom);
            }
        }
    }

    /// <summary>Two faults, each of which somebody would notice by itself, and how a locomotive runs at the worst place of either.</summary>
    internal (ImmutableArray<InjectedFault> Faults, ImmutableArray<MeterReading> Symptoms) NextPair(Random random, FaultySpice spice)
    {
        (InjectedFault one, MeterReading complaint) = Next(random, spice);
        while (true)
        {
            (InjectedFault other, MeterReading second) = Next(random, spice);
            if (Hypotheses[one.Hypothesis].Part.Element != Hypotheses[other.Hypothesis].Part.Element)
            {
                ImmutableArray<InjectedFault> faults = [one, other];
                return (faults, [.. new[] { complaint, second }.OfType<MeterReading.Running>().DistinctBy(item => item.At).Select(item => Seen(faults, item))]);
            }
        }
    }

    /// <summary>How a locomotive runs at a place when both parts are faulty.</summary>
    private MeterReading Seen(ImmutableArray<InjectedFault> faults, MeterReading.Running complaint)
    {
        (MeterReading.Running Template, SessionReading Reading) place = _places.First(item => item.Template.At == complaint.At);
        double part = Math.Abs(Value(place.Reading.Probe, _session.Case(_session.Circuit).Respondents, faults)) / place.Reading.Full;
        return complaint with { State = Enum.GetValues<RunningState>().MaxBy(state => Edges.Running(state, part)) };
    }

    private MeterReading.Running? Symptom(ImmutableArray<InjectedFault> faults, FaultySpice spice)
    {
        return Branches(faults).All(fault => spice.Holds(fault.Branch.From, fault.Branch.To)) ? Symptom(faults) : null;
    }

    /// <summary>How a locomotive runs at the worst place, or null where it runs well everywhere.</summary>
    private MeterReading.Running? Symptom(ImmutableArray<InjectedFault> faults)
    {
        Respondents respondents = _session.Case(_places[0].Reading.Probe.Circuit).Respondents;
        (MeterReading.Running Template, double Part) worst = _places
            .Select(place => (place.Template, Math.Abs(Value(place.Reading.Probe, respondents, faults)) / place.Reading.Full))
            .MinBy(place => place.Item2);
        RunningState state = Enum.GetValues<RunningState>().MaxBy(state => Edges.Running(state, worst.Part));
        return state == RunningState.Runs ? null : worst.Template with { State = state };
    }

    private double Value(Probe probe, Respondents respondents, ImmutableArray<InjectedFault> faults)
    {
        if (faults.Length == 1)
        {
            return probe.Healthy + respondents.Respond(probe, faults[0].Hypothesis).Change(Q(faults[0]));
        }

        return probe.Value([.. faults.Select(fault => respondents[fault.Hypothesis]!.Value)], [.. faults.Select(Q)]);
    }

    internal double Q(InjectedFault fault) => Hypotheses[fault.Hypothesis].HasValue
        ? Respondents.QOf(Hypotheses[fault.Hypothesis], fault.Value)
        : Respondents.FixedQ(Hypotheses[fault.Hypothesis]);

    private InjectedFault Draw(Random random)
    {
        double at = random.NextDouble() * _upTo[^1];
        int h = Array.FindIndex(_upTo, upTo => upTo > at);
        Hypothesis hypothesis = Hypotheses[h];
        double value = hypothesis is { Least: { } least, Most: { } most } ? least * Math.Pow(most / least, random.NextDouble()) : double.NaN;
        return new(h, value);
    }

    /// <summary>Faults of series parts that conduct as everything stands: shorts have symptoms of their own kind, which are tried elsewhere.</summary>
    private static bool CanBeInjected(Hypothesis hypothesis) =>
        hypothesis is { Joins: false, State: not (FaultState.Swapped or FaultState.Reversed or FaultState.Weak) };

    /// <summary>What the faults change, as everything stands.</summary>
    internal IReadOnlyList<(Branch Branch, double Q)> Branches(ImmutableArray<InjectedFault> faults) =>
        [.. faults.Select(fault => (_session.Case(_session.Circuit).Respondents[fault.Hypothesis]!.Value, Q(fault)))];

    /// <summary>
    /// Readings that half-splitting by hand takes: each halves the parts through which the current of the complaint flows, on
    /// either leg, one after the other; nothing is known of how often parts fail.
    /// </summary>
    internal int HalfSplits(ImmutableArray<InjectedFault> faults)
    {
        MeterReading.Running place = Symptom(faults)!;
        Probe probe = _places.First(item => item.Template.At == place.At).Reading.Probe;
        Respondents respondents = _session.Case(probe.Circuit).Respondents;
        int parts = Enumerable.Range(0, Hypotheses.Length)
            .Where(h => Hypotheses[h].State is FaultState.Open or FaultState.NotTouching && respondents[h] is not null)
            .Count(h => Math.Abs(respondents.Respond(probe, h).Change(Respondents.OpenSiemens)) > 0.2 * Math.Abs(probe.Healthy));
        return (int)Math.Ceiling(Math.Log2(Math.Max(1, parts)));
    }
}
