using System.Collections.Immutable;
using WireUp.Layouts;

namespace WireUp.Rails;

/// <summary>Where trains pass from the track of one cab or controller to that of another, and where rails join two of them.</summary>
/// <param name="Borders">Every gap on both sides of which some cab can feed the rail, in the order of the layout.</param>
/// <param name="Joins">Rails that join two cabs, each with the positions it takes.</param>
public sealed record CabReport(ImmutableArray<CabBorder> Borders, ImmutableArray<CabJoin> Joins)
{
    /// <summary>No borders and no joins, as of a layout under command control.</summary>
    public static readonly CabReport None = new([], []);
}

/// <summary>A cab that can feed a rail.</summary>
/// <param name="Booster">The cab or controller.</param>
/// <param name="When">The positions it takes; empty where it always does.</param>
public sealed record CabFeed(string Booster, ImmutableSortedDictionary<PieceId, string> When);

/// <summary>Two cabs that a train joins while it bridges a gap.</summary>
/// <param name="Near">The cab on the near side.</param>
/// <param name="Far">The cab on the far side.</param>
/// <param name="When">The positions it takes; empty where it is always so.</param>
public sealed record CabPair(string Near, string Far, ImmutableSortedDictionary<PieceId, string> When);

/// <summary>A gap and the cabs on its two sides.</summary>
/// <param name="At">Where it is.</param>
/// <param name="Near">The cabs on the side of the first end of the joint, or of the section's end a.</param>
/// <param name="Far">The cabs on the other side.</param>
/// <param name="Meetings">The pairs of different cabs that can be on its two sides at one time.</param>
public sealed record CabBorder(
    GapPlace At, ImmutableArray<CabFeed> Near, ImmutableArray<CabFeed> Far, ImmutableArray<CabPair> Meetings)
{
    /// <summary>Whether one cab can have both sides at one time, so that a train can cross under it.</summary>
    public bool HasCommonCab => Near.Any(near => Far.Any(far => near.Booster == far.Booster && FeedWays.Agree(near.When, far.When)));
}

/// <summary>A rail that joins two cabs.</summary>
/// <param name="Meeting">How.</param>
/// <param name="First">One cab.</param>
/// <param name="Second">The other cab.</param>
/// <param name="BothRails">
/// Whether, in the same positions, the other rail joins them too, so that they feed into each other; one rail alone is a common rail.
/// </param>
public sealed record CabJoin(RailMeeting Meeting, string First, string Second, bool BothRails);
