using System.Collections.Immutable;
using WireUp.Layouts;

namespace WireUp.Planning.Frogs;

/// <summary>What the frogs of a layout need.</summary>
/// <param name="Gaps">Gaps in the joints of turnout legs, each in the inner rail, which comes from the frog.</param>
/// <param name="Contacts">Turnouts whose isolated frog is to be fed by a changeover contact, by name.</param>
public sealed record FrogPlan(ImmutableArray<Gap> Gaps, ImmutableArray<PieceId> Contacts)
{
    /// <summary>One proposal for each gap and contact.</summary>
    public ImmutableArray<Proposal> Proposals { get; init; } = [];

    /// <summary>What could not be mended; empty when all is well.</summary>
    public ImmutableArray<string> Remains { get; init; } = [];

    /// <summary>The layout with the gaps cut and the contacts fitted.</summary>
    public Layout ApplyTo(Layout layout) => layout with
    {
        Track = [.. layout.Track.Select(piece => piece is Piece.Turnout turnout && Contacts.Contains(turnout.Id)
            ? turnout with { Feed = FrogFeed.Contact }
            : piece)],
        Wiring = layout.Wiring with { Gaps = [.. layout.Wiring.Gaps, .. Gaps] },
    };
}
