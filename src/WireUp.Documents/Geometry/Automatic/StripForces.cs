using System.Runtime.CompilerServices;

namespace WireUp.Documents.Geometry.Automatic;

/// <summary>Forces on the points of a plan and how they stiffen against moves.</summary>
/// <remarks>
/// Each force is the downhill slope of an energy: bending ½ B θ² / l at every point, l the mean length of the pieces that meet
/// there; stretching, a spring that gives way like a logarithm when a line is more than twice too long; crowding (room / d − 1)² where
/// lines come nearer than their room; slant A s (1 − cos 4θ) / 4 for every piece,
/// least when level or upright, s the distance laid between points.
/// </remarks>
internal sealed class StripForces
{
    /// <summary>Farther apart than this, tracks do not feel each other.</summary>
    public const double Range = 1.8;

    private const double Bending = 2, Stretching = 0.45, Crowding = 1, Spreading = 0.04, PivotStiffness = 2;
    private const double Aligning = 0.08, AligningTurnout = 0.8, ShortestSpan = 0.5;

    private readonly StripModel _model;
    private readonly double[] _restTurns;
    private readonly double _step;

    /// <summary>No forces yet.</summary>
    /// <param name="model">The points.</param>
    /// <param name="restTurns">By how much each edge turns when it is at rest, in radians to the left.</param>
    /// <param name="step">Distance laid between points.</param>
    public StripForces(StripModel model, double[] restTurns, double step)
    {
        (_model, _restTurns, _step) = (model, restTurns, step);
        (X, Y) = (new double[model.Count], new double[model.Count]);
        (Torque, TurnStiffness) = (new double[model.Bodies.Length, 2], new double[model.Bodies.Length]);
    }

    /// <summary>Force on each point, to the right.</summary>
    public double[] X { get; }

    /// <summary>Force on each point, upward.</summary>
    public double[] Y { get; }

    /// <summary>Torque on each bar of each body, besides what its points give.</summary>
    public double[,] Torque { get; }

    /// <summary>Stiffness of each body against turning, besides what its points give.</summary>
    public double[] TurnStiffness { get; }

    /// <summary>The stiffnesses.</summary>
    public Springs Springs { get; } = new();

    /// <summary>How strongly lines are drawn level or upright, as a share of full strength from 0 to 1.</summary>
    public double Straightening { get; set; } = 1;

    /// <summary>Finds all forces anew.</summary>
    public void Find(double[] x, double[] y, NodePose[] poses, ReadOnlySpan<NearPair> pairs)
    {
        Array.Clear(X);
        Array.Clear(Y);
        Springs.Clear();
        for (int edge = 0; edge < _model.Chains.Length; edge++)
        {
            (int first, int last) = _model.DrawnPart(edge);
            int[] chain = _model.Chains[edge];
            double rest = _model.Rests[edge], turn = _restTurns[edge] / Math.Max(1, chain.Length - 2);
            for (int i = first; i < last; i++) Stretch(x, y, (chain[i], chain[i + 1]), rest);
            for (int i = 1; i < chain.Length - 1; i++) Bend(x, y, (chain[i - 1], chain[i], chain[i + 1]), turn);
        }

        foreach (ref readonly NearPair pair in pairs) Crowd(x, y, pair);
        for (int body = 0; body < poses.Length; body++) Turn(body, poses[body]);
    }

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private void Stretch(double[] x, double[] y, (int A, int B) ends, double rest)
    {
        (int a, int b) = ends;
        (double dx, double dy) = (x[b] - x[a], y[b] - y[a]);
        double length = Math.Sqrt((dx * dx) + (dy * dy)) + 1e-9;
        (double cos, double sin) = (dx / length, dy / length);

        // A line ten times too long does not crush what holds it.
        double pull = Stretching / Math.Max(rest, 0.3) * (length - rest) / Math.Max(1, length / (2 * rest));
        double sin2 = 2 * sin * cos, cos2 = (cos * cos) - (sin * sin), slant = Straightening * Aligning * _step / length;
        double align = slant * 2 * sin2 * cos2;
        (double px, double py) = ((pull * cos) - (align * sin), (pull * sin) + (align * cos));
        X[a] += px;
        Y[a] += py;
        X[b] -= px;
        Y[b] -= py;
        Springs.Add(new(a, b, b, Math.Abs(pull / (length - rest + 1e-9)), -cos, -sin, cos, sin, 0, 0));
        Springs.Add(new(a, b, b, (4 * slant / length) + Math.Max(0, pull / length), sin, -cos, -sin, cos, 0, 0));
    }

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private void Bend(double[] x, double[] y, (int A, int B, int C) at, double turn)
    {
        (int a, int b, int c) = at;
        (double ux, double uy, double wx, double wy) = (x[b] - x[a], y[b] - y[a], x[c] - x[b], y[c] - y[b]);
        double u2 = Math.Max((ux * ux) + (uy * uy), 0.01), w2 = Math.Max((wx * wx) + (wy * wy), 0.01);
        double angle = Math.Atan2((ux * wy) - (uy * wx), (ux * wx) + (uy * wy)) - turn;
        (double lu, double lw) = (Math.Sqrt(u2), Math.Sqrt(w2));
        double span = Math.Max(0.5 * (lu + lw), ShortestSpan * _step), stiffness = Bending / span, bent = Math.Clamp(angle, -1, 1);
        (double ax, double ay, double cx, double cy) = (uy / u2, -ux / u2, wy / w2, -wx / w2);
        (double ex, double ey, double gx, double gy) = (ux / (2 * lu), uy / (2 * lu), wx / (2 * lw), wy / (2 * lw));
        double moment = stiffness * bent, spread = stiffness * bent * bent / (2 * span);
        X[a] += (moment * ax) - (spread * ex);
        Y[a] += (moment * ay) - (spread * ey);
        X[c] += (moment * cx) + (spread * gx);
        Y[c] += (moment * cy) + (spread * gy);
        X[b] += (spread * (ex - gx)) - (moment * (ax + cx));
        Y[b] += (spread * (ey - gy)) - (moment * (ay + cy));
        Springs.Add(new(a, b, c, stiffness, ax, ay, -ax - cx, -ay - cy, cx, cy));
        Springs.Add(new(a, b, c, 2 * spread / span, -ex, -ey, ex - gx, ey - gy, gx, gy));
    }

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private void Crowd(double[] x, double[] y, in NearPair pair)
    {
        (int p, int a, int b) = (pair.Point, pair.From, pair.To);
        (double dx, double dy) = (x[b] - x[a], y[b] - y[a]);
        double t = Math.Clamp((((x[p] - x[a]) * dx) + ((y[p] - y[a]) * dy)) / ((dx * dx) + (dy * dy) + 1e-12), 0, 1);
        (double ex, double ey) = (x[p] - x[a] - (t * dx), y[p] - y[a] - (t * dy));
        double d = Math.Sqrt((ex * ex) + (ey * ey)) + 1e-9, push = 0, stiffness = 0;
        if (d >= Range) return;
        (ex, ey) = (ex / d, ey / d);
        if (d < pair.Room)
        {
            double close = pair.Room / d;
            push = 2 * Crowding * (close - 1) * close / d;
            stiffness = 2 * Crowding * ((3 * close) - 2) * close / (d * d);
        }

        if (pair.Room > 0.99) push += Spreading * (1 - (d / Range));
        if (push <= 0) return;
        X[p] += push * ex;
        Y[p] += push * ey;
        X[a] -= (1 - t) * push * ex;
        Y[a] -= (1 - t) * push * ey;
        X[b] -= t * push * ex;
        Y[b] -= t * push * ey;
        Springs.Add(new(p, a, b, stiffness, ex, ey, -(1 - t) * ex, -(1 - t) * ey, -t * ex, -t * ey));
    }

    private void Turn(int body, NodePose pose)
    {
        (Torque[body, 0], Torque[body, 1], TurnStiffness[body]) = (0, 0, 0);
        if (_model.Bodies[body].Bars == 1)
        {
            Torque[body, 0] = -Straightening * AligningTurnout * Math.Sin(4 * pose.Heading);
            TurnStiffness[body] = 4 * Straightening * AligningTurnout;
        }
        else if (_model.Bodies[body].Bars == 2)
        {
            (double sin, double cos) = Math.SinCos(pose.OtherHeading - pose.Heading);

            // Too sharp a crossing always opens; one that leans to the wrong side or not enough may find its place first.
            double excess = cos - _model.Bodies[body].PreferredCosine, outer = Math.Abs(cos) - Math.Abs(_model.Bodies[body].PreferredCosine);
            double torque = PivotStiffness * 2 * (outer > 0 ? 1 : Straightening) * excess * sin;
            (Torque[body, 0], Torque[body, 1], TurnStiffness[body]) = (-torque, torque, 4 * PivotStiffness);
        }
    }
}
