using System.Collections.Immutable;
using WireUp.Layouts;

namespace WireUp.Rails;

/// <summary>Whether a layout is shorted as it stands.</summary>
public static class ShortedPositions
{
    /// <summary>Whether rails join both legs of one booster, reversing devices standing in their first position.</summary>
    /// <param name="graph">The rails.</param>
    /// <param name="positions">How turnouts, other pieces that move and hand switches stand, every one of them.</param>
    public static bool IsShorted(RailGraph graph, ImmutableSortedDictionary<PieceId, string> positions)
    {
        Dictionary<string, string> boosters = graph.Layout.Wiring.Districts.ToDictionary(district => district.Name, district => district.Booster);
        IEnumerable<RailLink> conducting = graph.Links.Where(link =>
            link is not RailLink.Contact contact || (positions.TryGetValue(contact.Piece, out string? position) && position == contact.Position));
        return RailNets.Of(graph, conducting, FedNode.All(graph)).Legs.Any(legs =>
            legs.Where(leg => leg.Leg == Leg.A).Any(one => legs.Any(other => other.Leg == Leg.B && boosters[other.District] == boosters[one.District])));
    }
}
