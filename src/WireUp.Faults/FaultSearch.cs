using System.Collections.Immutable;
using WireUp.Faults.Search;
using WireUp.Layouts;
using WireUp.Layouts.Reference;

namespace WireUp.Faults;

/// <summary>From readings to faults: every part in every state it can fail in is weighed against all readings of a session.</summary>
public static class FaultSearch
{
    /// <summary>Ranks what explains the readings, and says what to measure next.</summary>
    /// <param name="layout">The layout as it should be; its circuit is taken without trains.</param>
    /// <param name="readings">The readings. All are taken in one session: the railway did not change between them.</param>
    /// <param name="priors">How often parts fail, where that is known better than by the table; null for what is usual.</param>
    /// <param name="options">What to do; null for single faults and five suggestions.</param>
    /// <param name="cancel">Stops the search.</param>
    /// <returns>The answer, or null where the layout has no booster or its healthy circuit has no solution, which `check` tells of.</returns>
    /// <exception cref="KeyNotFoundException">A reading names a point that the layout does not have.</exception>
    /// <exception cref="OperationCanceledException">The search was stopped.</exception>
    public static Diagnosis? Rank(
        Layout layout, ReadingSet readings, FaultPriors? priors = null, FaultSearchOptions? options = null, CancellationToken cancel = default)
    {
        FaultSearchOptions asked = options ?? new();
        if (Session.Open(layout, readings, priors ?? FaultPriors.Usual) is not { } session)
        {
            return null;
        }

        Weighed weighed = Weighed.Of(session, asked, cancel);
        return Answer.Of(session, asked.Pairs ? weighed.Folded(session.Hypotheses) : weighed, asked, cancel);
    }

    /// <summary>Odds that the cause is nothing that a circuit of rails and wires holds, against nothing wrong.</summary>
    internal static double NotInModelOdds { get; } = Constants.Get("fault-not-in-model").Value;

    /// <summary>Every part that can fail on a layout, or none where it has no booster.</summary>
    /// <param name="layout">The layout.</param>
    public static ImmutableArray<FaultElement> Parts(Layout layout) => Session.Open(layout, ReadingSet.None, FaultPriors.Usual) is { } session
        ? [.. session.Hypotheses.Select(hypothesis => hypothesis.Part.Element).Distinct()]
        : [];
}
