using System.Collections.Immutable;
using WireUp.Documents.Geometry;

namespace WireUp.Documents;

/// <summary>A size of paper.</summary>
public enum PaperSize
{
    /// <summary>210 × 297 mm (ISO 216).</summary>
    A4,

    /// <summary>8.5 × 11 inch (ANSI/ASME Y14.1, size A).</summary>
    Letter,

    /// <summary>297 × 420 mm (ISO 216).</summary>
    A3,

    /// <summary>11 × 17 inch (ANSI/ASME Y14.1, size B).</summary>
    Tabloid,
}

/// <summary>A sheet by its sides in millimetres.</summary>
/// <param name="Width">Width.</param>
/// <param name="Height">Height.</param>
internal readonly record struct Sheet(double Width, double Height)
{
    /// <summary>A4 to A0, landscape. Source: ISO 216.</summary>
    public static readonly ImmutableArray<Sheet> Growing =
        [new(297, 210), new(420, 297), new(594, 420), new(841, 594), new(1189, 841)];

    /// <summary>The sheet upright for a plan that is clearly taller than wide, else lying on its long side.</summary>
    public Sheet For(PlanBox plan)
    {
        (double longer, double shorter) = (Math.Max(Width, Height), Math.Min(Width, Height));
        return plan.Height > 1.15 * plan.Width ? new(shorter, longer) : new(longer, shorter);
    }

    /// <summary>The upright sheet of a paper.</summary>
    public static Sheet Of(PaperSize paper) => paper switch
    {
        PaperSize.A4 => new(210, 297),
        PaperSize.Letter => new(215.9, 279.4),
        PaperSize.A3 => new(297, 420),
        PaperSize.Tabloid => new(279.4, 431.8),
        _ => throw new ArgumentOutOfRangeException(nameof(paper), paper, "no such paper"),
    };
}
