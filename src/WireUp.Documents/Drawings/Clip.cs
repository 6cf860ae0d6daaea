using System.Collections.Immutable;

namespace WireUp.Documents.Drawings;

/// <summary>Cuts lines off at the edges of a box. Source: Y.-D. Liang and B. A. Barsky, A new concept and method for line clipping, 1984.</summary>
internal static class Clip
{
    /// <summary>The parts of a line that lie in a box; a line wholly inside comes back whole.</summary>
    public static IEnumerable<ImmutableArray<ScenePoint>> Line(ImmutableArray<ScenePoint> points, SceneBox box)
    {
        ImmutableArray<ScenePoint>.Builder part = ImmutableArray.CreateBuilder<ScenePoint>();
        for (int i = 1; i < points.Length; i++)
        {
            if (Segment(points[i - 1], points[i], box) is not var (from, to)) continue;
            if (part.Count == 0 || part[^1] != from)
            {
                if (part.Count > 1) yield return part.ToImmutable();
                part.Clear();
                part.Add(from);
            }

            part.Add(to);
        }

        if (part.Count > 1) yield return part.ToImmutable();
    }

    /// <summary>The part of an area that lies in a box, edge after edge; empty where none does. Source: I. E. Sutherland and G. W. Hodgman, Reentrant polygon clipping, 1974.</summary>
    public static ImmutableArray<ScenePoint> Area(ImmutableArray<ScenePoint> corners, SceneBox box)
    {
        ImmutableArray<ScenePoint> left = Beyond(corners, point => point.X - box.Left), right = Beyond(left, point => box.Right - point.X);
        return Beyond(Beyond(right, point => point.Y - box.Top), point => box.Bottom - point.Y);
    }

    /// <summary>The part of an area on the side of an edge where points have a depth of 0 or more.</summary>
    private static ImmutableArray<ScenePoint> Beyond(ImmutableArray<ScenePoint> corners, Func<ScenePoint, double> depth)
    {
        ImmutableArray<ScenePoint>.Builder kept = ImmutableArray.CreateBuilder<ScenePoint>();
        for (int i = 0; i < corners.Length; i++)
        {
            (ScenePoint from, ScenePoint to) = (corners[i], corners[(i + 1) % corners.Length]);
            (double one, double other) = (depth(from), depth(to));
            if (one >= 0) kept.Add(from);
            if (one >= 0 != other >= 0) kept.Add(from.Towards(to, one / (one - other)));
        }

        return kept.ToImmutable();
    }

    /// <summary>The part of a straight piece in a box, or null where none is.</summary>
    public static (ScenePoint From, ScenePoint To)? Segment(ScenePoint a, ScenePoint b, SceneBox box)
    {
        (double dx, double dy) = (b.X - a.X, b.Y - a.Y);
        (double enter, double leave) = (0, 1);
        bool inside = Edge(-dx, a.X - box.Left) && Edge(dx, box.Right - a.X) && Edge(-dy, a.Y - box.Top) && Edge(dy, box.Bottom - a.Y);
        if (!inside) return null;
        return (enter > 0 ? a.Towards(b, enter) : a, leave < 1 ? a.Towards(b, leave) : b);

        bool Edge(double outward, double room)
        {
            if (Math.Abs(outward) < 1e-12) return room >= 0;
            double share = room / outward;
            if (outward < 0) enter = Math.Max(enter, share);
            else leave = Math.Min(leave, share);
            return enter <= leave;
        }
    }
}
