using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;

namespace WireUp.Documents.Geometry.Automatic;

/// <summary>One stiffness of rank one: moving three points by u, v, w costs ½ · weight · (J · (u, v, w))².</summary>
internal readonly record struct Spring(int A, int B, int C, double Weight, double Ax, double Ay, double Bx, double By, double Cx, double Cy);

/// <summary>The stiffnesses of everything at one moment, as a matrix that multiplies moves of points.</summary>
internal sealed class Springs
{
    private readonly List<Spring> _springs = [];

    /// <summary>Forgets all.</summary>
    public void Clear() => _springs.Clear();

    /// <summary>Adds one.</summary>
    public void Add(in Spring spring)
    {
        if (spring.Weight > 0) _springs.Add(spring);
    }

    /// <summary>Adds the resistance of the moves to the forces given.</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    public void Multiply(double[] x, double[] y, double[] forceX, double[] forceY)
    {
        foreach (ref readonly Spring s in CollectionsMarshal.AsSpan(_springs))
        {
            double pull = s.Weight * ((s.Ax * x[s.A]) + (s.Ay * y[s.A]) + (s.Bx * x[s.B]) + (s.By * y[s.B]) + (s.Cx * x[s.C]) + (s.Cy * y[s.C]));
            forceX[s.A] += pull * s.Ax;
            forceY[s.A] += pull * s.Ay;
            forceX[s.B] += pull * s.Bx;
            forceY[s.B] += pull * s.By;
            forceX[s.C] += pull * s.Cx;
            forceY[s.C] += pull * s.Cy;
        }
    }

    /// <summary>Adds each point's own resistance.</summary>
    public void AddDiagonal(double[] x, double[] y)
    {
        foreach (ref readonly Spring s in CollectionsMarshal.AsSpan(_springs))
        {
            x[s.A] += s.Weight * s.Ax * s.Ax;
            y[s.A] += s.Weight * s.Ay * s.Ay;
            x[s.B] += s.Weight * s.Bx * s.Bx;
            y[s.B] += s.Weight * s.By * s.By;
            x[s.C] += s.Weight * s.Cx * s.Cx;
            y[s.C] += s.Weight * s.Cy * s.Cy;
        }
    }
}
