using System.Collections.Immutable;
using static WireUp.Layouts.RailSide;

namespace WireUp.Rails.TrackworkRows;

/// <summary>Ways of speaking about rails that the rows share.</summary>
internal static class Rails
{
    /// <summary>The left rail seen from an end into the piece.</summary>
    internal static PieceNode InwardLeft(string end) => new(end, Right);

    /// <summary>The right rail seen from an end into the piece.</summary>
    internal static PieceNode InwardRight(string end) => new(end, Left);

    /// <summary>The left rail seen through the piece towards an end and out of it.</summary>
    internal static PieceNode OutwardLeft(string end) => new(end, Left);

    /// <summary>The right rail seen through the piece towards an end and out of it.</summary>
    internal static PieceNode OutwardRight(string end) => new(end, Right);

    /// <summary>Both rails carried through from one end to another.</summary>
    internal static IEnumerable<FixedBond> Along(string from, string to) =>
        [new(InwardLeft(from), OutwardLeft(to)), new(InwardRight(from), OutwardRight(to))];

    /// <summary>Both rails carried through from one end to another in one position.</summary>
    internal static IEnumerable<SwitchedBond> Along(string from, string to, string position) =>
        [new(InwardLeft(from), OutwardLeft(to), position, 1), new(InwardRight(from), OutwardRight(to), position, 1)];

    /// <summary>A conductor that is bonded to one other in each position: a frog that follows blades or a contact.</summary>
    internal static IEnumerable<SwitchedBond> Follows(PieceNode what, double share, params IEnumerable<(string Position, PieceNode Rail)> law) =>
        law.Select(row => new SwitchedBond(what, row.Rail, row.Position, share));

    /// <summary>Conductors that are one, whatever the position.</summary>
    internal static IEnumerable<FixedBond> Together(PieceNode first, params ImmutableArray<PieceNode> others) =>
        others.Select(other => new FixedBond(first, other));
}
