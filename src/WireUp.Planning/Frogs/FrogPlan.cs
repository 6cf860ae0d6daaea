using System.Collections.Immutable;
using WireUp.Layouts;

namespace WireUp.Planning.Frogs;

/// <summary>What the frogs of a layout need.</summary>
/// <param name="Gaps">Gaps in joints of trackwork, each in one rail, which comes from a frog.</param>
/// <param name="Contacts">Pieces whose frogs are to be fed by a changeover, by name.</param>
public sealed record FrogPlan(ImmutableArray<Gap> Gaps, ImmutableArray<PieceId> Contacts)
{
    /// <summary>One proposal for each gap and contact.</summary>
    public ImmutableArray<Proposal> Proposals { get; init; } = [];

    /// <summary>What could not be mended; empty when all is well.</summary>
    public ImmutableArray<string> Remains { get; init; } = [];

    /// <summary>The layout with the gaps cut and the contacts fitted.</summary>
    public Layout ApplyTo(Layout layout) => layout with
    {
        Track = [.. layout.Track.Select(piece => Contacts.Contains(piece.Id) ? DeadFrog.Fed(piece, DeadFrog.FeedFor(piece)) : piece)],
        Wiring = layout.Wiring with { Gaps = [.. layout.Wiring.Gaps, .. Gaps] },
    };
}
