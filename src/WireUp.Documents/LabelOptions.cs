using UnitsNet;

namespace WireUp.Documents;

/// <summary>The labels of a sheet. Sheets on sale differ: the grid is laid in the middle of the paper.</summary>
/// <param name="Width">Width of a label.</param>
/// <param name="Height">Height of a label.</param>
public sealed record LabelOptions(Length Width, Length Height)
{
    /// <summary>Smallest and largest side of a label that can be printed.</summary>
    public static readonly (Length Least, Length Most) Sides = (Length.FromMillimeters(10), Length.FromMillimeters(200));

    /// <summary>Room between two columns; 2.5 mm is usual on sheets of 38.1 × 21.2 and 63.5 × 38.1 mm. From memory, no published source.</summary>
    public Length ColumnGap { get; init; } = Length.FromMillimeters(2.5);

    /// <summary>Paper.</summary>
    public PaperSize Paper { get; init; } = PaperSize.A4;
}
