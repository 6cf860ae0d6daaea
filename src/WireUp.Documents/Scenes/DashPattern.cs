using System.Collections.Immutable;

namespace WireUp.Documents;

/// <summary>The lengths of dashes, one place for every kind of output.</summary>
internal static class DashPattern
{
    /// <summary>Dash, gap, dash, gap… in millimetres; empty for an unbroken line.</summary>
    public static ImmutableArray<double> Of(ShapeStyle style) => style.Dash switch
    {
        DashKind.Solid => [],
        DashKind.Long => [2.4, 0.8],
        DashKind.Dotted => [0.01, Math.Max(0.9, 2.2 * style.WidthMillimetres)],
        DashKind.Short => [1, 0.8],
        _ => throw new ArgumentOutOfRangeException(nameof(style), style.Dash, "no such dash"),
    };

    /// <summary>Whether dashes and ends are rounded: dots always are.</summary>
    public static bool RoundEnds(ShapeStyle style) => style.RoundEnds || style.Dash == DashKind.Dotted;
}
