using WireUp.Layouts;

namespace WireUp.Rails;

/// <summary>What a search that tells cases apart has settled: that a piece is in a position, or that it is not, and all that was settled before.</summary>
/// <param name="Before">What was settled before, or null.</param>
/// <param name="Piece">The piece.</param>
/// <param name="Position">The position.</param>
/// <param name="Only">Whether the piece is in that position; else it is not.</param>
internal sealed record SettledPositions(SettledPositions? Before, PieceId Piece, string Position, bool Only)
{
    /// <summary>How many positions have been settled.</summary>
    internal int Depth { get; } = 1 + (Before?.Depth ?? 0);

    /// <summary>Whether a contact conducts in a position that is not ruled out; nothing is where nothing is settled.</summary>
    internal static bool Allow(SettledPositions? settled, NetContact contact)
    {
        for (SettledPositions? part = settled; part is not null; part = part.Before)
        {
            if (part.Piece == contact.Piece && (part.Position == contact.Position) != part.Only)
            {
                return false;
            }
        }

        return true;
    }
}
