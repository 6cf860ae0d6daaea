using System.Collections.Immutable;
using WireUp.Layouts;
using WireUp.Layouts.Reference;

namespace WireUp.Faults;

/// <summary>What a railway's own faults teach about its next one.</summary>
/// <remarks>
/// Which kind fails and which part of the kind are taken as draws with unknown shares, and the shares as having a Dirichlet distribution,
/// which stays one with every fault that is logged. Symbols: N parts of a kind with the chance p each, so that of all faults the share
/// s = N·p/Σ N·p is expected to be of that kind; n faults logged in all, n_k of the kind, m at the part; C and A the weights of what is usual in
/// faults (rows fault-log-kind-weight, fault-log-part-weight). Then the share becomes (C·s + n_k)/(C + n), and so the chance of each part
/// p·(C + n_k/s)/(C + n); the odds of the part, against an average one of its kind, (A + N·m)/(A + n_k).
/// Source: conjugate updating of multinomial shares, A. Gelman and others, Bayesian Data Analysis, third edition (2013), section 3.4 (from memory).
/// </remarks>
public static class FaultHistory
{
    private static readonly double KindWeight = Constants.Get("fault-log-kind-weight").Value;

    private static readonly double PartWeight = Constants.Get("fault-log-part-weight").Value;

    /// <summary>No part is taken to be faulty with more than this chance, whatever the log says.</summary>
    private const double MostChance = 0.5;

    /// <summary>Priors with what a log adds to them.</summary>
    /// <param name="layout">The layout.</param>
    /// <param name="priors">What is known without the log.</param>
    /// <param name="log">The log; parts that the layout no longer has count for their kind only.</param>
    public static FaultPriors Learn(Layout layout, FaultPriors priors, FaultLog log) =>
        log.Faults.IsEmpty ? priors : Learn(FaultSearch.Parts(layout), priors, log);

    /// <summary>What goes into the log of a part that was mended.</summary>
    /// <param name="part">The part.</param>
    /// <param name="state">How it was faulty, or null where that is not known.</param>
    /// <param name="set">The readings that led to it.</param>
    /// <param name="cure">What was done.</param>
    /// <param name="date">On which day.</param>
    public static LoggedFault Entry(FaultElement part, FaultState? state, ReadingSet set, string cure, DateOnly date) =>
        new(part.Place, part.Kind, date, cure) { State = state, Readings = [.. set.Readings.Select(reading => reading.ToString()!)] };

    internal static FaultPriors Learn(ImmutableArray<FaultElement> parts, FaultPriors priors, FaultLog log)
    {
        Dictionary<FaultElementKind, FaultElement[]> byKind = parts.GroupBy(part => part.Kind).ToDictionary(group => group.Key, group => group.ToArray());
        double all = byKind.Sum(kind => kind.Value.Length * Chance(priors, kind.Key));
        ImmutableDictionary<FaultElementKind, double>.Builder chances = priors.Chances.ToBuilder();
        ImmutableDictionary<string, double>.Builder factors = priors.PlaceFactors.ToBuilder();
        foreach ((FaultElementKind kind, FaultElement[] ofKind) in byKind)
        {
            int logged = log.Faults.Count(fault => fault.Kind == kind);
            double chance = Chance(priors, kind), share = ofKind.Length * chance / all;
            chances[kind] = Math.Min(MostChance, chance * (KindWeight + (logged / share)) / (KindWeight + log.Faults.Length));
            foreach (FaultElement part in logged == 0 ? [] : ofKind)
            {
                int here = log.Faults.Count(fault => fault.Kind == kind && fault.Part == part.Place);
                factors[part.Place] = factors.GetValueOrDefault(part.Place, 1) * (PartWeight + (ofKind.Length * here)) / (PartWeight + logged);
            }
        }

        return priors with { Chances = chances.ToImmutable(), PlaceFactors = factors.ToImmutable() };
    }

    private static double Chance(FaultPriors priors, FaultElementKind kind) =>
        priors.Chances.TryGetValue(kind, out double known) ? known : FaultTable.Of(kind).Sum(rate => rate.Chance);
}
