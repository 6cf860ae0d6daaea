using System.Collections.Immutable;
using UnitsNet;

namespace WireUp.Layouts.Tracing.Svg;

/// <summary>Which lines of an SVG drawing are track, and how large they are in reality.</summary>
public sealed record SvgImport
{
    /// <summary>Take only what lies in the layer of this name, or null for all layers.</summary>
    public string? Layer { get; init; }

    /// <summary>Take only lines of this stroke, for instance <c>#c00000</c>, or null for those of any.</summary>
    public string? Stroke { get; init; }

    /// <summary>How wide the page of the drawing is in reality, or null where the unit says it.</summary>
    public Length? Width { get; init; }

    /// <summary>How long one unit of the drawing is in reality, or null where the width says it; where neither does, the drawing is full size.</summary>
    public Length? Unit { get; init; }

    /// <summary>How far a straight piece may be off the curve that it stands for.</summary>
    public Length Tolerance { get; init; } = Length.FromMillimeters(0.5);
}

/// <summary>What came of reading an SVG drawing.</summary>
/// <param name="Lines">The centre lines, in metres of the plan, x to the right and y upward from the lower left corner of the page.</param>
/// <param name="Layers">The names of its layers and other named groups, in their order.</param>
/// <param name="Notes">What was passed over, one sentence each without a full stop.</param>
public sealed record SvgReading(ImmutableArray<ImmutableArray<PlanPoint>> Lines, ImmutableArray<string> Layers, ImmutableArray<string> Notes)
{
    /// <summary>How long one unit of the drawing is in reality, in metres.</summary>
    public double UnitMetres { get; init; }
}
