using WireUp.Layouts;

namespace WireUp.Documents.Geometry;

/// <summary>The plan of a layout without paths.</summary>
internal static class AutomaticPlan
{
    private const double TurnoutMetres = 0.25;

    /// <summary>The plan.</summary>
    public static PlanDrawing Draw(Layout layout, CancellationToken cancellation)
    {
        var spots = new TrackSpots(layout);
        double[,] far = Distances(layout, spots);
        PlanPoint[] at = Majorise(far, cancellation);
        var lines = layout.Track.SelectMany(piece => PlanDrawing.Ways(piece).Select(way =>
            new PieceLine(piece.Id, way.From, way.To, [at[spots[piece.End(way.From)]], at[spots[piece.End(way.To)]]])));
        return new([.. lines], true, TurnoutMetres / 4, []);
    }

    private static double[,] Distances(Layout layout, TrackSpots spots)
    {
        int n = spots.Count;
        var far = new double[n, n];
        for (int i = 0; i < n; i++) for (int j = 0; j < n; j++) far[i, j] = i == j ? 0 : 1e9;
        foreach (Piece piece in layout.Track)
        {
            foreach ((string from, string to) in PlanDrawing.Ways(piece))
            {
                (int i, int j) = (spots[piece.End(from)], spots[piece.End(to)]);
                double length = piece is Piece.Section section ? section.Length.Meters : TurnoutMetres;
                if (i != j) far[i, j] = far[j, i] = Math.Min(far[i, j], length);
            }
        }

        for (int k = 0; k < n; k++) for (int i = 0; i < n; i++) for (int j = 0; j < n; j++) far[i, j] = Math.Min(far[i, j], far[i, k] + far[k, j]);
        return far;
    }

    private static PlanPoint[] Majorise(double[,] far, CancellationToken cancellation)
    {
        int n = far.GetLength(0);
        PlanPoint[] at = [.. Enumerable.Range(0, n).Select(i => new PlanPoint(Math.Cos(2.4 * i) * Math.Sqrt(i), Math.Sin(2.4 * i) * Math.Sqrt(i)))];
        for (int sweep = 0; sweep < 150; sweep++)
        {
            cancellation.ThrowIfCancellationRequested();
            for (int i = 0; i < n; i++)
            {
                double weights = 0, x = 0, y = 0;
                for (int j = 0; j < n; j++)
                {
                    if (i == j) continue;
                    double target = Math.Min(far[i, j], 50), apart = Math.Max(Polyline.Distance(at[i], at[j]), 1e-9), weight = 1 / (target * target);
                    weights += weight;
                    x += weight * (at[j].X + (target / apart * (at[i].X - at[j].X)));
                    y += weight * (at[j].Y + (target / apart * (at[i].Y - at[j].Y)));
                }

                if (weights > 0) at[i] = new(x / weights, y / weights);
            }
        }

        return at;
    }
}
