using System.Collections.Immutable;

namespace WireUp.Layouts.Tracing.Svg;

/// <summary>An affine map of the plane: x' = Ax + Cy + E, y' = Bx + Dy + F. Source: Scalable Vector Graphics (SVG) 1.1, W3C 2011, chapter 7.</summary>
internal readonly record struct SvgMatrix(double A, double B, double C, double D, double E, double F)
{
    public static readonly SvgMatrix Identity = new(1, 0, 0, 1, 0, 0);

    /// <summary>The greatest factor by which it lengthens anything, at most √2 too large.</summary>
    public double Stretch => Math.Sqrt((A * A) + (B * B) + (C * C) + (D * D));

    public PlanPoint Apply(PlanPoint point) => new((A * point.X) + (C * point.Y) + E, (B * point.X) + (D * point.Y) + F);

    /// <summary>The map that first does the inner one.</summary>
    public static SvgMatrix operator *(SvgMatrix outer, SvgMatrix inner) => new(
        (outer.A * inner.A) + (outer.C * inner.B),
        (outer.B * inner.A) + (outer.D * inner.B),
        (outer.A * inner.C) + (outer.C * inner.D),
        (outer.B * inner.C) + (outer.D * inner.D),
        (outer.A * inner.E) + (outer.C * inner.F) + outer.E,
        (outer.B * inner.E) + (outer.D * inner.F) + outer.F);

    public static SvgMatrix Translate(double x, double y) => new(1, 0, 0, 1, x, y);

    public static SvgMatrix Scale(double x, double y) => new(x, 0, 0, y, 0, 0);

    public static SvgMatrix Rotate(double degrees)
    {
        (double sin, double cos) = Math.SinCos(degrees * Math.PI / 180);
        return new(cos, sin, -sin, cos, 0, 0);
    }

    /// <summary>The map that a <c>transform</c> attribute says; null where it cannot be read.</summary>
    public static SvgMatrix? Parse(string? text)
    {
        SvgMatrix map = Identity;
        SvgNumbers at = new(text ?? "");
        while (at.Word() is { Length: > 0 } name)
        {
            if (at.InBrackets() is not { } numbers || One(name, numbers) is not { } one)
            {
                return null;
            }

            map *= one;
        }

        return at.IsAtEnd ? map : null;
    }

    private static SvgMatrix? One(string name, ImmutableArray<double> numbers) => (name, numbers.Length) switch
    {
        ("matrix", 6) => new(numbers[0], numbers[1], numbers[2], numbers[3], numbers[4], numbers[5]),
        ("translate", 1) => Translate(numbers[0], 0),
        ("translate", 2) => Translate(numbers[0], numbers[1]),
        ("scale", 1) => Scale(numbers[0], numbers[0]),
        ("scale", 2) => Scale(numbers[0], numbers[1]),
        ("rotate", 1) => Rotate(numbers[0]),
        ("rotate", 3) => Translate(numbers[1], numbers[2]) * Rotate(numbers[0]) * Translate(-numbers[1], -numbers[2]),
        ("skewX", 1) => new(1, 0, Math.Tan(numbers[0] * Math.PI / 180), 1, 0, 0),
        ("skewY", 1) => new(1, Math.Tan(numbers[0] * Math.PI / 180), 0, 1, 0, 0),
        _ => null,
    };
}
