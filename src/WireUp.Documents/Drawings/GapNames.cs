using System.Collections.Immutable;
using System.Globalization;
using WireUp.Layouts;
using WireUp.Planning;

namespace WireUp.Documents;

/// <summary>A gap has no name in the layout file; on paper it has the id of the proposal that asks for it, else a number.</summary>
internal static class GapNames
{
    /// <summary>One name for each gap of a layout, in their order.</summary>
    public static ImmutableArray<string> Of(Layout layout, ImmutableArray<Proposal> proposals)
    {
        List<Proposal> open = [.. proposals.Where(proposal => proposal.Kind is ProposalKind.Gap)];
        HashSet<string> taken = [.. open.Select(proposal => proposal.Id)];
        int number = 0;
        return [.. layout.Wiring.Gaps.Select(Name)];

        string Name(Gap gap)
        {
            int match = open.FindIndex(proposal => IsAt(proposal, gap));
            if (match >= 0)
            {
                string id = open[match].Id;
                open.RemoveAt(match);
                return id;
            }

            string name;
            do name = string.Create(CultureInfo.InvariantCulture, $"g{++number}");
            while (taken.Contains(name));
            return name;
        }
    }

    private static bool IsAt(Proposal proposal, Gap gap)
    {
        string place = gap.At.ToString()!;
        return proposal.At == place
            || (proposal.At.StartsWith(place + "/", StringComparison.Ordinal) && Sides(gap).Contains(proposal.At[(place.Length + 1)..]));
    }

    private static IEnumerable<string> Sides(Gap gap) => gap.Rails switch
    {
        RailSet.Left => ["left", "centre"],
        RailSet.Right => ["right", "running"],
        _ => ["both"],
    };
}
