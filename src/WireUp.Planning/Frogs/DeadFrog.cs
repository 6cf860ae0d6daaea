using System.Collections.Immutable;
using WireUp.Layouts;
using WireUp.Layouts.Reference;

namespace WireUp.Planning.Frogs;

/// <summary>A piece whose frogs carry no current although a contact could feed them, and how long they are without.</summary>
/// <param name="Piece">The piece.</param>
/// <param name="Feed">What can feed them: a contact where points move, an electronic changeover where nothing does.</param>
/// <param name="DeadMetres">Length over which wheels find no current.</param>
internal sealed record DeadFrog(Piece Piece, FrogFeed Feed, double DeadMetres)
{
    /// <summary>Every such piece, in order of name.</summary>
    internal static IEnumerable<DeadFrog> All(Layout layout) => layout.Track
        .OrderBy(piece => piece.Id)
        .Select(piece => (Piece: piece, Feed: FeedFor(piece)))
        .Where(pair => GainsBy(pair.Piece, pair.Feed, layout.Control))
        .Select(pair => new DeadFrog(pair.Piece, pair.Feed, MetresOf(pair.Piece, layout)));

    /// <summary>The piece with its frogs fed.</summary>
    internal static Piece Fed(Piece piece, FrogFeed feed) => piece switch
    {
        Piece.Turnout turnout => turnout with { Feed = feed },
        Piece.MultiTurnout turnout => turnout with { Feed = feed },
        Piece.Crossing crossing => crossing with { Feed = feed },
        Piece.Slip slip => slip with { Feed = feed },
        Piece.Scissors scissors => scissors with { Feed = feed },
        _ => piece,
    };

    /// <summary>What can feed the frogs of a piece.</summary>
    internal static FrogFeed FeedFor(Piece piece) => piece is Piece.Crossing ? FrogFeed.Sensor : FrogFeed.Contact;

    private static FrogFeed FeedOf(Piece piece) => piece switch
    {
        Piece.Turnout turnout => turnout.Feed,
        Piece.MultiTurnout turnout => turnout.Feed,
        Piece.Crossing crossing => crossing.Feed,
        Piece.Slip slip => slip.Feed,
        Piece.Scissors scissors => scissors.Feed,
        _ => FrogFeed.Contact,
    };

    /// <summary>Whether the trackwork table has a conductor inside that nothing feeds now and something would.</summary>
    private static bool GainsBy(Piece piece, FrogFeed feed, ControlSystem control) =>
        FeedOf(piece) == FrogFeed.None && !FedInside(Fed(piece, feed), control).IsSubsetOf(FedInside(piece, control));

    private static ImmutableHashSet<string> FedInside(Piece piece, ControlSystem control) =>
    [
        .. FollowingConductor.Of(piece, control).Where(frog => !frog.Positions.IsEmpty).SelectMany(frog => frog.Names),
    ];

    /// <summary>
    /// As given, or from the frog's number and the gauge. A frog that is one with the rails to the ends of a piece is as long as they are.
    /// </summary>
    private static double MetresOf(Piece piece, Layout layout)
    {
        double frog = DeadFrogLength.Of(piece, ScaleTable.Get(layout.Scale).Gauge)?.Length.Meters ?? 0;
        bool toEnds = FollowingConductor.Of(piece, layout.Control).Any(one => one.Rails.Length > 0);
        return toEnds ? Math.Max(frog, piece.WayMetres / 2) : frog;
    }
}
