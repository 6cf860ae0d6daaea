using System.Collections.Immutable;
using WireUp.Layouts;

namespace WireUp.Planning.Feeders;

/// <summary>A place where a feeder is wanted nearer than the layout's distance.</summary>
/// <param name="At">A place where a feeder may be soldered.</param>
/// <param name="WithinMetres">How near, along metal and through any joiners: for volts they conduct, trusted or not.</param>
/// <param name="AddsPlaces">Whether the places at just that distance are worth trying too, beside all others.</param>
public readonly record struct FeederWish(TrackPlace At, double WithinMetres, bool AddsPlaces = true);

/// <summary>Which feeders serve which wishes. Each wish asks for either rail at its place.</summary>
internal sealed class FeederWishes(FeedableTrack track, ImmutableArray<FeederWish> wishes)
{
    /// <summary>For each rail of each wish the metal that lies near enough.</summary>
    public ImmutableArray<Reach> Rows { get; } = [.. wishes.SelectMany(wish => Around(track, wish.At, wish.WithinMetres).Select(pair => pair.Reach))];

    /// <summary>The rows whose ends are worth trying.</summary>
    public ImmutableArray<Reach> WithPlaces => [.. Rows.Where((_, row) => wishes[row / 2].AddsPlaces)];

    /// <summary>Whether a feeder at a place serves a row.</summary>
    public bool Serves(TrackPlace feeder, Reach row)
    {
        (int first, int second) = track.LinksAt(feeder);
        return row.Holds(first, feeder.MetresFromA) || row.Holds(second, feeder.MetresFromA);
    }

    /// <summary>The nearest wish that one feeder serves and no other of some does, or null.</summary>
    public int? ServedOnlyBy(TrackPlace feeder, IEnumerable<TrackPlace> all) => Enumerable.Range(0, Rows.Length)
        .Where(row => Serves(feeder, Rows[row]) && !all.Any(other => other != feeder && Serves(other, Rows[row])))
        .Select(row => row / 2)
        .OrderBy(wish => wishes[wish].WithinMetres)
        .Select(wish => (int?)wish)
        .FirstOrDefault();

    private static (int Link, Reach Reach)[] Around(FeedableTrack track, TrackPlace place, double metres)
    {
        TrustedReach near = new(track, metres, anyJoiners: true);
        (int first, int second) = track.LinksAt(place);
        return [(first, near.FromPoint(first, place.MetresFromA)), (second, near.FromPoint(second, place.MetresFromA))];
    }
}
