using System.Collections.Immutable;
using System.Globalization;

namespace WireUp.Planning.Reversing;

/// <summary>
/// A place where a candidate ends. <paramref name="InsideBefore"/>: the candidate lies towards the start of the run.
/// <paramref name="InsideLeft"/>: whether the run's left rail is the candidate's own left rail there.
/// </summary>
internal readonly record struct Border(Spot Spot, bool InsideBefore, bool InsideLeft)
{
    /// <summary>Where a train leaving the candidate here is heading.</summary>
    public Tip Outward => new(Spot.Run, InsideBefore ? 1 : 0);
}

/// <summary>Two borders of a candidate, by index, and how far a train drives between them without reversing.</summary>
/// <param name="First">Index of one border.</param>
/// <param name="Second">Index of the other.</param>
/// <param name="Inside">Shortest drive inside, in metres; infinite when there is none.</param>
/// <param name="Outside">Shortest drive outside, in metres; infinite when none is shorter than the required length.</param>
/// <param name="MainWay">Whether the shortest drive inside takes no diverging leg.</param>
internal readonly record struct BorderPair(int First, int Second, double Inside, double Outside, bool MainWay)
{
    /// <summary>Whether a train can be on both borders at once, so that both must want the same polarity.</summary>
    public bool IsTied(double requiredMetres) => Math.Min(Inside, Outside) < requiredMetres - CellMap.SamePlaceMetres;
}

/// <summary>A piece of track that could become a reversing section.</summary>
internal sealed record Candidate
{
    /// <summary>Position in the list of candidates.</summary>
    public required int Index { get; init; }

    /// <summary>Turnouts inside, ascending.</summary>
    public required ImmutableArray<int> Junctions { get; init; }

    /// <summary>Track inside, by run and position.</summary>
    public required ImmutableArray<RunStretch> Stretches { get; init; }

    /// <summary>Where it ends.</summary>
    public required ImmutableArray<Border> Borders { get; init; }

    /// <summary>Every pair of borders that a train drives between, or that ties.</summary>
    public required ImmutableArray<BorderPair> Pairs { get; init; }

    /// <summary>Track outside within the buffer length of a border.</summary>
    public required ImmutableArray<RunStretch> Halo { get; init; }

    /// <summary>Turnouts outside within the buffer length of a border, ascending.</summary>
    public required ImmutableArray<int> HaloJunctions { get; init; }

    /// <summary>Dead-end roads inside beyond those allowed.</summary>
    public required int ExtraRoads { get; init; }

    /// <summary>Roads beside one another, on which trains could pass or wait, wholly inside or enclosed.</summary>
    public required int PassingRoads { get; init; }

    /// <summary>Rails to be cut: two a border, none where both are parted already.</summary>
    public required int Gaps { get; init; }

    /// <summary>How far it is from good practice; see <see cref="CandidatePenalty"/>.</summary>
    public required int Penalty { get; init; }

    /// <summary>Longest drive from a border to an end of track inside, in metres; 0 when no track ends inside.</summary>
    public required double TailMetres { get; init; }

    /// <summary>A text that is the same for candidates that end at the same places.</summary>
    public string PlacesKey => string.Join(' ', Borders
        .Select(border => string.Create(CultureInfo.InvariantCulture, $"{border.Spot.Run}:{border.Spot.Position:F5}:{border.InsideBefore}"))
        .Order(StringComparer.Ordinal));

    /// <summary>Whether the two take in the same trackwork and parts of the same runs, so that they differ by where they are cut at most.</summary>
    public bool IsSameTrack(Candidate other) =>
        Junctions.SequenceEqual(other.Junctions)
        && Stretches.Select(stretch => stretch.Run).ToHashSet().SetEquals(other.Stretches.Select(stretch => stretch.Run));

    /// <summary>Whether the two share a turnout or track.</summary>
    public bool Overlaps(Candidate other) =>
        Junctions.Any(junction => other.Junctions.Contains(junction)) || Stretches.Any(mine => other.Stretches.Any(mine.Overlaps));

    /// <summary>Whether the two may not both be sections: they share track or come nearer each other than the buffer.</summary>
    public bool Touches(Candidate other) =>
        Overlaps(other)
        || HaloJunctions.Any(junction => other.Junctions.Contains(junction))
        || other.HaloJunctions.Any(junction => Junctions.Contains(junction))
        || Halo.Any(mine => other.Stretches.Any(mine.Overlaps))
        || other.Halo.Any(theirs => Stretches.Any(theirs.Overlaps));
}
