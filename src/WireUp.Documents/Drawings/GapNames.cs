using System.Collections.Immutable;
using System.Globalization;
using WireUp.Layouts;
using WireUp.Planning;

namespace WireUp.Documents;

/// <summary>
/// A gap has no name in the layout file. The plan knows it by the id of the proposal that asks for it; what is written beside it
/// on paper has to be short: the ids where all of them are, else G1, G2, … in the order of the layout.
/// </summary>
internal static class GapNames
{
    private const int LongestLabel = 6;

    /// <summary>For each gap of a layout, in their order: what stands beside it, and the proposal that asks for it, if any.</summary>
    public static ImmutableArray<(string Label, Proposal? Proposal)> Of(Layout layout, ImmutableArray<Proposal> proposals)
    {
        List<Proposal> open = [.. proposals.Where(proposal => proposal.Kind is ProposalKind.Gap)];
        Proposal?[] found = [.. layout.Wiring.Gaps.Select(gap => Take(open, gap))];
        bool idsAreShort = found.All(proposal => proposal is { Id.Length: <= LongestLabel });
        return [.. found.Select((proposal, i) => (
            idsAreShort ? proposal!.Id : string.Create(CultureInfo.InvariantCulture, $"G{i + 1}"), proposal))];
    }

    private static Proposal? Take(List<Proposal> open, Gap gap)
    {
        int match = open.FindIndex(proposal => proposal.AsksFor(gap));
        if (match < 0) return null;
        Proposal proposal = open[match];
        open.RemoveAt(match);
        return proposal;
    }
}
