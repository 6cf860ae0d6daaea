namespace WireUp.Documents.Geometry.Automatic;

/// <summary>Where the forces would take the plan: a damped Newton step, by conjugate gradients.</summary>
/// <remarks>
/// Unknowns: two moves for every free point; for every body two moves of its centre and a turn for each bar. Everything is kept
/// as moves of points (bodies spread theirs to the points they carry) so that stiffness is applied in one place.
/// Source: K. Levenberg, A method for the solution of certain non-linear problems in least squares, Q. Appl. Math. 2, 1944.
/// </remarks>
internal sealed class StripMoves
{
    private const int Steps = 60;
    private const double Tolerance = 1e-4;
    private const double LongestMove = 0.6, LongestTurn = 0.3, NearestApproach = 0.8;

    private readonly StripModel _model;
    private readonly int _points, _bodies;
    private readonly double[] _rx, _ry; // of carried points, from the centre of their body
    private readonly double[] _px, _py, _fx, _fy; // moves of points, forces on points
    private readonly double[] _step, _residual, _direction, _product, _scaled, _diagonal, _mass;

    public StripMoves(StripModel model)
    {
        (_model, _points, _bodies) = (model, model.Count, model.Bodies.Length);
        (_rx, _ry, _px, _py, _fx, _fy) = (new double[_points], new double[_points], new double[_points], new double[_points], new double[_points], new double[_points]);
        int unknowns = (2 * _points) + (4 * _bodies);
        (_step, _residual, _direction) = (new double[unknowns], new double[unknowns], new double[unknowns]);
        (_product, _scaled, _diagonal, _mass) = (new double[unknowns], new double[unknowns], new double[unknowns], new double[unknowns]);
    }

    /// <summary>Finds the step.</summary>
    public void Solve(StripForces forces, (double[] X, double[] Y) at, NodePose[] poses, double damping)
    {
        for (int point = 0; point < _points; point++)
        {
            int body = _model.BodyOf(point);
            if (body >= 0) (_rx[point], _ry[point]) = (at.X[point] - poses[body].Centre.X, at.Y[point] - poses[body].Centre.Y);
        }

        Array.Copy(forces.X, _fx, _points);
        Array.Copy(forces.Y, _fy, _points);
        Gather(_residual);
        for (int body = 0; body < _bodies; body++)
        {
            _residual[(2 * _points) + (4 * body) + 2] += forces.Torque[body, 0];
            _residual[(2 * _points) + (4 * body) + 3] += forces.Torque[body, 1];
        }

        FindDiagonal(forces, damping);
        ConjugateGradients(forces);
    }

    /// <summary>Makes the step, or as much of it as brings no two lines too near.</summary>
    public void Apply((double[] X, double[] Y) at, NodePose[] poses, ReadOnlySpan<NearPair> pairs)
    {
        Spread(_step);
        double share = 1;
        for (int point = 0; point < _points; point++)
        {
            double move = Math.Sqrt((_px[point] * _px[point]) + (_py[point] * _py[point]));
            if (move * share > LongestMove) share = LongestMove / move;
        }

        for (int body = 0; body < _bodies; body++)
        {
            for (int bar = 0; bar < 2; bar++)
            {
                double turn = Math.Abs(_step[(2 * _points) + (4 * body) + 2 + bar]);
                if (turn * share > LongestTurn) share = LongestTurn / turn;
            }
        }

        foreach (ref readonly NearPair pair in pairs)
        {
            double toFrom = Apart(pair.Point, pair.From), toTo = Apart(pair.Point, pair.To), approach = Math.Sqrt(Math.Max(toFrom, toTo));
            if (approach * share < 0.05) continue;
            double distance = NearPairsWorkspace.Distance(at.X, at.Y, pair);
            if (approach * share > NearestApproach * distance) share = NearestApproach * distance / approach;
        }

        Move(at, poses, share);
    }

    private double Apart(int a, int b)
    {
        (double dx, double dy) = (_px[a] - _px[b], _py[a] - _py[b]);
        return (dx * dx) + (dy * dy);
    }

    private void Move((double[] X, double[] Y) at, NodePose[] poses, double share)
    {
        for (int body = 0; body < _bodies; body++)
        {
            int k = (2 * _points) + (4 * body);
            NodePose pose = poses[body];
            poses[body] = new(
                new(pose.Centre.X + (share * _step[k]), pose.Centre.Y + (share * _step[k + 1])),
                pose.Heading + (share * _step[k + 2]),
                pose.OtherHeading + (share * _step[k + 3]));
        }

        for (int point = 0; point < _points; point++)
        {
            int body = _model.BodyOf(point);
            if (body < 0)
            {
                at.X[point] += share * _px[point];
                at.Y[point] += share * _py[point];
                continue;
            }

            (double qx, double qy) = _model.InBar(point);
            (at.X[point], at.Y[point]) = poses[body].Point(_model.BarOf(point), qx, qy);
        }

        for (int body = 0; body < _bodies; body++)
        {
            if (_model.Bodies[body].Bars > 0) continue;
            int point = _model.PointOf(body);
            poses[body] = poses[body] with { Centre = new(at.X[point], at.Y[point]) };
        }
    }

    private void FindDiagonal(StripForces forces, double damping)
    {
        Array.Clear(_px);
        Array.Clear(_py);
        forces.Springs.AddDiagonal(_px, _py);
        Array.Clear(_diagonal);
        Array.Clear(_mass);
        for (int point = 0; point < _points; point++)
        {
            int body = _model.BodyOf(point), k = body < 0 ? 2 * point : (2 * _points) + (4 * body);
            _diagonal[k] += _px[point];
            _diagonal[k + 1] += _py[point];
            _mass[k] += damping;
            _mass[k + 1] += damping;
            if (body < 0) continue;
            double radius2 = (_rx[point] * _rx[point]) + (_ry[point] * _ry[point]);
            _diagonal[k + 2 + _model.BarOf(point)] += (_px[point] * _ry[point] * _ry[point]) + (_py[point] * _rx[point] * _rx[point]);
            _mass[k + 2 + _model.BarOf(point)] += damping * radius2;
        }

        for (int body = 0; body < _bodies; body++)
        {
            int k = (2 * _points) + (4 * body);
            _mass[k + 2] += forces.TurnStiffness[body] + 1e-3;
            _mass[k + 3] += forces.TurnStiffness[body] + 1e-3;
        }

        for (int i = 0; i < _diagonal.Length; i++) _diagonal[i] += _mass[i] + 1e-6;
    }

    private void ConjugateGradients(StripForces forces)
    {
        Array.Clear(_step);
        double before = Scale(), first = before;
        Array.Copy(_scaled, _direction, _scaled.Length);
        for (int i = 0; i < Steps && before > first * Tolerance && before > 0; i++)
        {
            Spread(_direction);
            Array.Clear(_fx);
            Array.Clear(_fy);
            forces.Springs.Multiply(_px, _py, _fx, _fy);
            Gather(_product);
            double curvature = 0;
            for (int k = 0; k < _product.Length; k++)
            {
                _product[k] += _mass[k] * _direction[k];
                curvature += _product[k] * _direction[k];
            }

            double length = before / curvature;
            for (int k = 0; k < _step.Length; k++)
            {
                _step[k] += length * _direction[k];
                _residual[k] -= length * _product[k];
            }

            double after = Scale(), keep = after / before;
            for (int k = 0; k < _direction.Length; k++) _direction[k] = _scaled[k] + (keep * _direction[k]);
            before = after;
        }
    }

    private double Scale()
    {
        double sum = 0;
        for (int k = 0; k < _scaled.Length; k++)
        {
            _scaled[k] = _residual[k] / _diagonal[k];
            sum += _scaled[k] * _residual[k];
        }

        return sum;
    }

    // Moves of the unknowns to moves of points.
    private void Spread(double[] unknowns)
    {
        for (int point = 0; point < _points; point++)
        {
            int body = _model.BodyOf(point);
            if (body < 0)
            {
                (_px[point], _py[point]) = (unknowns[2 * point], unknowns[(2 * point) + 1]);
                continue;
            }

            int k = (2 * _points) + (4 * body);
            double turn = unknowns[k + 2 + _model.BarOf(point)];
            (_px[point], _py[point]) = (unknowns[k] - (turn * _ry[point]), unknowns[k + 1] + (turn * _rx[point]));
        }
    }

    // Forces on points to forces on the unknowns.
    private void Gather(double[] unknowns)
    {
        Array.Clear(unknowns);
        for (int point = 0; point < _points; point++)
        {
            int body = _model.BodyOf(point), k = body < 0 ? 2 * point : (2 * _points) + (4 * body);
            unknowns[k] += _fx[point];
            unknowns[k + 1] += _fy[point];
            if (body >= 0) unknowns[k + 2 + _model.BarOf(point)] += (_rx[point] * _fy[point]) - (_ry[point] * _fx[point]);
        }
    }
}
