using System.Collections.Immutable;

namespace WireUp.Documents.Drawings;

/// <summary>A label that looks for a place.</summary>
/// <param name="Width">Its width in millimetres.</param>
/// <param name="Height">Its height in millimetres.</param>
/// <param name="Anchors">Points it may hang on, each with the direction it should lie in, best first.</param>
internal sealed record LabelWish(double Width, double Height, ImmutableArray<LabelAnchor> Anchors)
{
    /// <summary>How far it may lie from its anchor in millimetres.</summary>
    public double Reach { get; init; } = 26;

    /// <summary>Whether it is left out where it would cover something.</summary>
    public bool IsOptional { get; init; }
}

/// <summary>A point that a label may hang on.</summary>
/// <param name="At">The point.</param>
/// <param name="X">Direction to the right in which the label should lie; of length 1 together with <paramref name="Y"/>.</param>
/// <param name="Y">Direction downward.</param>
internal readonly record struct LabelAnchor(ScenePoint At, double X, double Y);

/// <summary>Where a label found its place.</summary>
/// <param name="Box">Its box.</param>
/// <param name="Anchor">The anchor it hangs on.</param>
/// <param name="Distance">Distance from the anchor to the box in millimetres.</param>
/// <param name="IsFree">Whether it covers neither track nor another label.</param>
internal readonly record struct LabelPlace(SceneBox Box, LabelAnchor Anchor, double Distance, bool IsFree)
{
    /// <summary>Where a line from the anchor meets the box.</summary>
    public ScenePoint Tip => new(Math.Clamp(Anchor.At.X, Box.Left, Box.Right), Math.Clamp(Anchor.At.Y, Box.Top, Box.Bottom));
}

/// <summary>
/// Finds places for labels one after the other: near their anchors, off the track, off each other, leader lines crossing as
/// little as can be. Greedy: whoever comes first has the choice, so important labels ask first.
/// </summary>
internal sealed class LabelPlacer(SceneBox window)
{
    /// <summary>Whether it stops looking as soon as the drawing can no longer read well: for trying out scales.</summary>
    public bool IsTrial { get; init; }

    private const double Clearance = 0.35;
    private const double Far = 8;

    /// <summary>What covering one piece of track costs; a place that costs less covers neither track nor labels.</summary>
    private const double TrackCost = 90;
    private static readonly double[] Distances = [0.5, 1.3, 2.5, 4, 6, 9, 13, 18, 25];

    /// <summary>Directions off the wished one, as sine and cosine. A place to its side is worth a little less.</summary>
    private static readonly (double Sin, double Cos)[] Turns =
        [.. new double[] { 0, 25, -25, 50, -50, 80, -80, 115, -115, 150, -150, 180 }.Select(degrees => Math.SinCos(degrees * Math.PI / 180))];

    private readonly ObstacleGrid _grid = new(window);

    /// <summary>How many labels were placed.</summary>
    public int Placed { get; private set; }

    /// <summary>How many labels cover track or another label.</summary>
    public int Covering { get; private set; }

    /// <summary>How many labels lie so far from what they name that the eye has to follow a line.</summary>
    public int FarAway { get; private set; }

    /// <summary>Keeps labels off a line.</summary>
    /// <param name="line">The line.</param>
    /// <param name="half">Half its width in millimetres.</param>
    public void KeepOff(ImmutableArray<ScenePoint> line, double half)
    {
        for (int i = 1; i < line.Length; i++) _grid.Add(new Obstacle(line[i - 1], line[i], half, ObstacleKind.Track));
    }

    /// <summary>Lets labels cover a line only in need.</summary>
    public void Avoid(ImmutableArray<ScenePoint> line)
    {
        for (int i = 1; i < line.Length; i++) _grid.Add(new Obstacle(line[i - 1], line[i], 0.2, ObstacleKind.Faint));
    }

    /// <summary>Keeps labels off a box.</summary>
    public void KeepOff(SceneBox box) => _grid.Add(box);

    /// <summary>The best place, taken; null when the label's anchors all lie outside the window or a trial has failed.</summary>
    public LabelPlace? Place(LabelWish wish)
    {
        if (IsTrial && (Covering > 0 || FarAway > 10 + (Placed / 5))) return null;
        (double Cost, LabelPlace Place)? best = null;
        LabelAnchor[] anchors = [.. wish.Anchors.Where(anchor => window.Holds(anchor.At))];
        foreach (double distance in Distances.TakeWhile(distance => distance <= wish.Reach))
        {
            if (best is { } found && found.Cost <= 0.55 * distance) break;
            for (int rank = 0; rank < anchors.Length; rank++) Try(wish, anchors[rank], distance, 0.4 * rank, ref best);
        }

        if (best is not var (_, chosen) || (wish.IsOptional && !chosen.IsFree)) return null;
        Take(chosen, counts: !wish.IsOptional);
        return chosen;
    }

    /// <summary>Tries every direction at one distance from one anchor.</summary>
    private void Try(LabelWish wish, LabelAnchor anchor, double distance, double handicap, ref (double Cost, LabelPlace Place)? best)
    {
        foreach ((double sin, double cos) in Turns)
        {
            double least = (0.55 * distance) + handicap + (0.6 * (1 - cos));
            if (best is { } known && least >= known.Cost) continue;
            SceneBox box = BoxAt(wish, anchor, distance, (anchor.X * cos) - (anchor.Y * sin), (anchor.X * sin) + (anchor.Y * cos));
            if (!window.Holds(box) || (best is { Cost: < TrackCost } && _grid.IsTaken(box.Grow(Clearance)))) continue;
            LabelPlace place = new(box, anchor, distance, true);
            (double cost, bool free) = Cost(place);
            cost += least;
            if (best is null || cost < best.Value.Cost) best = (cost, place with { IsFree = free });
        }
    }

    private void Take(LabelPlace place, bool counts)
    {
        if (counts) Placed++;
        if (!place.IsFree) Covering++;
        if (place.Distance > Far) FarAway++;
        _grid.Add(place.Box.Grow(Clearance / 2));
        if (place.Distance > LeaderLine.Shortest) _grid.Add(new Obstacle(place.Anchor.At, place.Tip, 0.1, ObstacleKind.Leader));
    }

    /// <summary>The box that lies in a direction from an anchor, its edge a distance away.</summary>
    private static SceneBox BoxAt(LabelWish wish, LabelAnchor anchor, double distance, double x, double y)
    {
        double reach = distance + Math.Min(Half(wish.Width, x), Half(wish.Height, y));
        (double midX, double midY) = (anchor.At.X + (x * reach), anchor.At.Y + (y * reach));
        return new(midX - (wish.Width / 2), midY - (wish.Height / 2), midX + (wish.Width / 2), midY + (wish.Height / 2));

        static double Half(double size, double part) => Math.Abs(part) < 1e-9 ? double.PositiveInfinity : size / 2 / Math.Abs(part);
    }

    private (double Cost, bool Free) Cost(LabelPlace place)
    {
        Overlap box = _grid.Meets(place.Box.Grow(Clearance));
        double cost = (300 * box.Labels) + (60 * box.LabelArea) + (TrackCost * box.Track) + (14 * box.Faint) + (20 * box.Leaders);
        if (place.Distance > LeaderLine.Shortest)
        {
            Overlap leader = _grid.Meets(place.Anchor.At, place.Tip);
            cost += (70 * leader.Labels) + (5 * leader.Track) + (1.5 * leader.Faint) + (16 * leader.Leaders);
        }

        return (cost, box.Labels == 0 && box.Track == 0);
    }
}
