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
    private readonly double[] _touchingUpTo;
    private readonly double[] _anyUpTo;
    private readonly ImmutableArray<(MeterReading.Breaker Template, Probe Probe, double Amps)> _breakers;
    private readonly ImmutableArray<(MeterReading.Running Template, SessionReading Reading)> _places;

    internal FaultDraw(Layout layout)
    {
        _session = Session.Open(layout, ReadingSet.None, FaultPriors.Usual)!;
        Respondents respondents = _session.Case(_session.Circuit).Respondents;
        _upTo = UpTo((hypothesis, h) => !CanTouch(hypothesis) && respondents[h] is not null);
        _touchingUpTo = UpTo((hypothesis, _) => CanTouch(hypothesis));
        _anyUpTo = UpTo((hypothesis, h) => CanTouch(hypothesis) || respondents[h] is not null);
        _breakers = [.. _session.Circuit.Circuit.Districts.Select(district => (
            new MeterReading.Breaker(district.District.Name, true),
            Probe.Current(_session.Circuit, _session.Circuit.BreakerOf(district.District.Name), null),
            district.District.Trip.Amperes))];
        _places = [.. layout.Track.OfType<Piece.Section>()
            .Select(section => new MeterReading.Running(new ReadingPlace.Along(new(section.Id, section.Length.Meters / 2)), RunningState.Runs))
            .Select(template => (template, _session.Builder.Of(template)!))
            .Where(place => Math.Abs(place.Item2.Probe.Healthy) > place.Item2.Full / 2)];
    }

    internal ImmutableArray<Hypothesis> Hypotheses => _session.Hypotheses;

    /// <summary>How many were drawn for those that were kept.</summary>
    internal int Drawn { get; private set; }

    /// <summary>A fault that makes a locomotive slow down or stop somewhere, and how it runs at the worst place.</summary>
    internal (ImmutableArray<InjectedFault> Faults, ImmutableArray<MeterReading> Symptoms) NextSingle(Random random, FaultySpice spice)
    {
        (InjectedFault fault, MeterReading.Running symptom) = Next(random, spice);
        return ([fault], [symptom, .. Holding([symptom])]);
    }

    private (InjectedFault Fault, MeterReading.Running Symptom) Next(Random random, FaultySpice spice)
    {
        while (true)
        {
            Drawn++;
            InjectedFault fault = Draw(random, _upTo);
            if (Symptom([fault], spice) is { } symptom)
            {
                return (fault, symptom);
            }
        }
    }

    /// <summary>Conductors that meet, wires exchanged or a weak booster: the breakers that trip of it, else how a locomotive runs at the worst place.</summary>
    internal (ImmutableArray<InjectedFault> Faults, ImmutableArray<MeterReading> Symptoms) NextTouching(Random random, FaultySpice spice) => Next(random, spice, _touchingUpTo);

    /// <summary>A fault of any kind, with the same.</summary>
    internal (ImmutableArray<InjectedFault> Faults, ImmutableArray<MeterReading> Symptoms) NextOfAny(Random random, FaultySpice spice) => Next(random, spice, _anyUpTo);

    private (ImmutableArray<InjectedFault> Faults, ImmutableArray<MeterReading> Symptoms) Next(Random random, FaultySpice spice, double[] chancesUpTo)
    {
        Respondents respondents = _session.Case(_session.Circuit).Respondents;
        while (true)
        {
            Drawn++;
            ImmutableArray<InjectedFault> fault = [Draw(random, chancesUpTo)];
            SpiceFault changes = Changes(fault);
            if (changes.Branches.All(change => spice.Holds(change.Branch.From, change.Branch.To)))
            {
                ImmutableArray<MeterReading> tripped = [.. _breakers.Where(breaker => Math.Abs(Value(breaker.Probe, respondents, fault)) > breaker.Amps).Select(breaker => breaker.Template)];
                ImmutableArray<MeterReading> symptoms = !tripped.IsEmpty ? tripped : Symptom(fault) is { } running ? [running, .. Holding([running])] : [];
                if (!symptoms.IsEmpty)
                {
                    return (fault, symptoms);
                }
            }
        }
    }

    /// <summary>Two faults, each of which somebody would notice by itself, and how a locomotive runs at the worst place of either.</summary>
    internal (ImmutableArray<InjectedFault> Faults, ImmutableArray<MeterReading> Symptoms) NextPair(Random random, FaultySpice spice)
    {
        (InjectedFault one, MeterReading.Running complaint) = Next(random, spice);
        while (true)
        {
            (InjectedFault other, MeterReading.Running second) = Next(random, spice);
            if (Hypotheses[one.Hypothesis].Part.Element != Hypotheses[other.Hypothesis].Part.Element)
            {
                ImmutableArray<InjectedFault> faults = [one, other];
                MeterReading.Running[] complaints = [.. new[] { complaint, second }.DistinctBy(item => item.At)];
                return (faults, [.. complaints.Select(item => Seen(faults, item)), .. Holding(complaints)]);
            }
        }
    }

    /// <summary>Whoever finds a dead spot sees that its breaker holds.</summary>
    private IEnumerable<MeterReading> Holding(IEnumerable<MeterReading.Running> complaints) => complaints
        .Select(complaint => _session.Case(_session.Circuit).Trips.Feeding(_places.First(place => place.Template.At == complaint.At).Reading.Probe))
        .OfType<string>().Distinct().Select(district => new MeterReading.Breaker(district, false));

    /// <summary>How a locomotive runs at a place when both parts are faulty.</summary>
    private MeterReading Seen(ImmutableArray<InjectedFault> faults, MeterReading.Running complaint)
    {
        (MeterReading.Running Template, SessionReading Reading) place = _places.First(item => item.Template.At == complaint.At);
        double part = Math.Abs(Value(place.Reading.Probe, _session.Case(_session.Circuit).Respondents, faults)) / place.Reading.Full;
        return complaint with { State = Enum.GetValues<RunningState>().MaxBy(state => Edges.Running(state, part)) };
    }

    private MeterReading.Running? Symptom(ImmutableArray<InjectedFault> faults, FaultySpice spice)
    {
        return Changes(faults).Branches.All(fault => spice.Holds(fault.Branch.From, fault.Branch.To)) ? Symptom(faults) : null;
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

    private double[] UpTo(Func<Hypothesis, int, bool> isMeant)
    {
        double sum = 0;
        return [.. _session.Hypotheses.Select((hypothesis, h) => sum += isMeant(hypothesis, h) ? Math.Exp(hypothesis.LogOdds) : 0)];
    }

    private InjectedFault Draw(Random random, double[] chancesUpTo)
    {
        double at = random.NextDouble() * chancesUpTo[^1];
        int h = Array.FindIndex(chancesUpTo, upTo => upTo > at);
        Hypothesis hypothesis = Hypotheses[h];
        double value = hypothesis is { Least: { } least, Most: { } most } ? least * Math.Pow(most / least, random.NextDouble()) : double.NaN;
        return new(h, value);
    }

    /// <summary>Conductors that meet, and what is found like them: these are tried by themselves.</summary>
    private static bool CanTouch(Hypothesis hypothesis) => hypothesis.Trips || hypothesis.State == FaultState.Weak;

    /// <summary>What the faults change, as everything stands.</summary>
    internal SpiceFault Changes(ImmutableArray<InjectedFault> faults)
    {
        Respondents respondents = _session.Case(_session.Circuit).Respondents;
        return new(
            [.. faults.SelectMany(fault => respondents.Changes(fault.Hypothesis, Q(fault)))],
            faults.Where(fault => Hypotheses[fault.Hypothesis].State == FaultState.Weak).ToDictionary(
                fault => respondents.SourceOf(fault.Hypothesis), fault => fault.Value));
    }

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
