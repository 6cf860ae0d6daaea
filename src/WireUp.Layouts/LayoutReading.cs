using System.Collections.Immutable;

namespace WireUp.Layouts;

/// <summary>What came out of reading a layout file.</summary>
/// <param name="Layout">The layout, or null when a problem of severity error was found.</param>
/// <param name="Problems">Every problem, by line and column.</param>
public sealed record LayoutReading(Layout? Layout, ImmutableArray<LayoutProblem> Problems)
{
    /// <summary>The layout where nothing is wrong but that it has no track yet, for drawing the first of it; else null.</summary>
    public Layout? Blank { get; init; }
}
