using System.Collections.Immutable;
using WireUp.Layouts;

namespace WireUp.Planning;

/// <summary>Changes of what is built, with their price; made only where the person asked for it.</summary>
internal static class Rework
{
    private const string Rule = "What is built stays as it is unless rework is asked for. A change is priced by the connections it opens and makes again, two a feeder. Common practice, no published source.";

    /// <summary>A draft with the two wires of some feeders exchanged.</summary>
    public static PlanDraft Swap(PlanDraft draft, IEnumerable<string> names)
    {
        HashSet<string> swapped = [.. names];
        ImmutableArray<Feeder> feeders = [.. draft.Layout.Wiring.Feeders.Where(feeder => swapped.Contains(feeder.Name))];
        return With(draft, feeder => swapped.Contains(feeder.Name) ? feeder with { Swap = !feeder.Swap } : feeder)
            .Add(feeders.Select(feeder => Of(feeder, "exchange its two wires: it is the wrong way round against the others, and where they meet they would short.")));
    }

    /// <summary>A draft without some feeders, each with the district that its place belongs to from now on.</summary>
    public static PlanDraft TakeOut(PlanDraft draft, IEnumerable<(string Name, string Place)> moved)
    {
        ImmutableSortedDictionary<string, string> placeOf = moved.ToImmutableSortedDictionary(pair => pair.Name, pair => pair.Place, StringComparer.Ordinal);
        ImmutableArray<Feeder> feeders = [.. draft.Layout.Wiring.Feeders.Where(feeder => placeOf.ContainsKey(feeder.Name))];
        return With(draft, feeder => placeOf.ContainsKey(feeder.Name) ? null : feeder)
            .Add(feeders.Select(feeder => Of(
                feeder,
                $"unsolder it from tap {feeder.Tap} of '{feeder.District}': its track belongs to '{placeOf[feeder.Name]}' from now on, whose own feeders are proposed.")));
    }

    private static PlanDraft With(PlanDraft draft, Func<Feeder, Feeder?> change) => draft with
    {
        Layout = draft.Layout with
        {
            Wiring = draft.Layout.Wiring with { Feeders = [.. draft.Layout.Wiring.Feeders.Select(change).OfType<Feeder>()] },
        },
    };

    private static Proposal Of(Feeder feeder, string what) => new(
        $"rework-{feeder.Name}", ProposalKind.Rework, feeder.At.ToString(), $"Feeder '{feeder.Name}' is built; {what}", Rule, Prices.ReworkOfFeeder);
}
