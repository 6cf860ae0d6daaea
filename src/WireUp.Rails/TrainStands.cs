using System.Collections.Immutable;
using WireUp.Layouts;

namespace WireUp.Rails;

/// <summary>
/// In which positions a train can roll over a place: those in which a way is open through the trackwork on both sides of it, where that is no
/// farther away than a train is long.
/// </summary>
internal sealed class TrainStands(RailGraph graph)
{
    private readonly Dictionary<PieceId, Trackwork> _trackwork = [];

    private static ImmutableSortedDictionary<PieceId, string> Anything => ImmutableSortedDictionary<PieceId, string>.Empty;

    /// <summary>
    /// The choices of positions in which a train can roll over a gap, one empty choice where it always can. Where the two sides ask for
    /// different positions of one turnout, as in a short turning track, the nearer side counts.
    /// </summary>
    internal ImmutableArray<ImmutableSortedDictionary<PieceId, string>> At(GapPlace place) => place switch
    {
        GapPlace.InJoint { End: var end } => graph.Index.Opposite(end) is { } opposite ? Both(Towards(end, 0), Towards(opposite, 0)) : [],
        GapPlace.InSection { Place: var within } when graph.Index.Piece(within.Section) is Piece.Section section => Both(
            Leaving(section.End("a"), within.MetresFromA), Leaving(section.End("b"), section.Length.Meters - within.MetresFromA)),
        GapPlace.InSection => [Anything],
        _ => throw new ArgumentOutOfRangeException(nameof(place), place, "no such place"),
    };

    /// <summary>The row of a piece.</summary>
    internal Trackwork Row(PieceId piece)
    {
        if (!_trackwork.TryGetValue(piece, out Trackwork? row))
        {
            _trackwork[piece] = row = TrackworkTable.Of(graph.Index.Piece(piece), graph.Layout.Control);
        }

        return row;
    }

    private static ImmutableArray<ImmutableSortedDictionary<PieceId, string>> Both(Side one, Side other)
    {
        ImmutableArray<ImmutableSortedDictionary<PieceId, string>> agreed = Agreed(one.Choices, other.Choices);
        return !agreed.IsEmpty ? agreed : one.Metres <= other.Metres ? one.Choices : other.Choices;
    }

    private static ImmutableArray<ImmutableSortedDictionary<PieceId, string>> Agreed(
        ImmutableArray<ImmutableSortedDictionary<PieceId, string>> one, ImmutableArray<ImmutableSortedDictionary<PieceId, string>> other) =>
    [
        .. from first in one
           from second in other
           where FeedWays.Agree(first, second)
           select first.SetItems(second),
    ];

    /// <summary>Into a piece at an end: plain track no longer than a train is followed to the trackwork beyond it.</summary>
    private Side Towards(TrackEnd end, double metres) => graph.Index.Piece(end.Piece) is Piece.Section section
        ? Leaving(section.End(end.Name == "a" ? "b" : "a"), metres + section.Length.Meters)
        : new(Through(end), metres);

    /// <summary>Out of an end of plain track, some way from where the wheel is.</summary>
    private Side Leaving(TrackEnd end, double metres)
    {
        ImmutableArray<ImmutableSortedDictionary<PieceId, string>> own = Through(end);
        if (metres > graph.Layout.LongestTrain.Meters || graph.Index.Opposite(end) is not { } opposite)
        {
            return new(own, metres);
        }

        Side beyond = Towards(opposite, metres);
        return beyond with { Choices = Agreed(own, beyond.Choices) };
    }

    private ImmutableArray<ImmutableSortedDictionary<PieceId, string>> Through(TrackEnd end)
    {
        Trackwork row = Row(end.Piece);
        ImmutableArray<string?> open =
            [.. row.Ways.Where(way => way.From == end.Name || way.To == end.Name).Select(way => way.Position).Where(position => !row.Useless.Contains(position!)).Distinct()];
        bool always = open.IsEmpty || open.Contains(null) || row.Positions.All(position => open.Contains(position) || row.Useless.Contains(position));
        return always ? [Anything] : [.. open.Select(position => Anything.Add(end.Piece, position!))];
    }

    /// <summary>What the track to one side of a gap asks for, and how far away the trackwork is that asks for it.</summary>
    private readonly record struct Side(ImmutableArray<ImmutableSortedDictionary<PieceId, string>> Choices, double Metres);
}
